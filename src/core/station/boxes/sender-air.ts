/** What the sender puts on the air from now on, as a plan: the table of lever and emission, and nothing else. */
import type { CarrierStep, Edge, Emission, SpokenWord } from '../../signals.ts';
import { markAt, put } from '../wave.ts';
import type { Wires } from '../wires.ts';

/** What decides whether and where the sender radiates. */
export type Keying = {
  /** Hot, high tension on, motors at rest. */
  armed: boolean;
  emission: Emission;
  lever: Wires['lever'];
  talking: boolean;
  handKey: readonly Edge[];
  keyed: readonly Edge[];
  shift_Hz: number;
  markLow: boolean;
  /** End of the short bare carrier that is being pressed, or null. */
  bareUntil_us: number | null;
  /** The matcher keys its own low carrier. */
  seeking: boolean;
};

/** Does the loop shift this carrier? Only in print, and with voice and print together only at OUT. */
const shifted = (k: Keying): boolean =>
  !k.seeking && ((k.emission === 'F1B' && k.lever !== 'IN') || (k.emission === 'A3E+F1B' && k.lever === 'OUT'));

/** What is on the air by the table: voice and print is plain voice unless the loop shifts it; the matcher's carrier is bare. */
export function emissionOnAir(k: Keying): Emission {
  if (k.seeking) return 'N0N';
  return k.emission === 'A3E+F1B' && !shifted(k) ? 'A3E' : k.emission;
}

const voiced = (emission: Emission): boolean => emission === 'A3E' || emission === 'A3E+F1B';

const on = (now_us: number): Edge[] => [{ t_us: now_us, mark: true }];
const off = (now_us: number): Edge[] => [{ t_us: now_us, mark: false }];

/** When the carrier is up (mark) and down from `now_us` on; the first edge gives its state now. */
export function carrierPlan(k: Keying, now_us: number): Edge[] {
  if (!k.armed) return off(now_us);
  if (k.seeking) return on(now_us);
  if (k.emission === 'A1A') return from(k.handKey, now_us);
  if (k.emission === 'N0N') {
    const until = k.bareUntil_us ?? now_us;
    return until > now_us ? [...on(now_us), { t_us: until, mark: false }] : off(now_us);
  }
  return shifted(k) || (voiced(k.emission) && k.talking) ? on(now_us) : off(now_us);
}

/** A wave's state at `now_us` and its later edges. */
export function from(wave: readonly Edge[], now_us: number): Edge[] {
  const out: Edge[] = [{ t_us: now_us, mark: markAt(wave, now_us) }];
  for (const e of wave) if (e.t_us > now_us) put(out, e.t_us, e.mark);
  return out;
}

/** True frequency at `t_us`: the carrier lies in the middle between mark and space. */
function frequencyAt(k: Keying, centre_Hz: number, t_us: number): number {
  if (!shifted(k)) return centre_Hz;
  const low = markAt(k.keyed, t_us) === k.markLow;
  return centre_Hz + (low ? -k.shift_Hz : k.shift_Hz) / 2;
}

const isSilent = (plan: readonly Edge[]): boolean => plan.length === 1 && !(plan[0] as Edge).mark;

function isSpent(steps: readonly CarrierStep[], now_us: number): boolean {
  const last = steps[steps.length - 1];
  return last === undefined || (last.t_us < now_us && last.power_W === 0);
}

/** Keep the steps before now and plan the rest anew: carrier edges and, in print, the edges of the loop. */
export function replanSteps(
  steps: CarrierStep[],
  plan: readonly Edge[],
  k: Keying,
  centre_Hz: number,
  power_W: number,
  now_us: number,
): void {
  if (isSilent(plan) && isSpent(steps, now_us)) return;
  while (steps.length > 0 && (steps[steps.length - 1] as CarrierStep).t_us >= now_us) steps.pop();
  const times = plan.map((e) => e.t_us);
  if (shifted(k)) for (const e of k.keyed) if (e.t_us > now_us) times.push(e.t_us);
  times.sort((a, b) => a - b);
  for (const t_us of times) {
    const step = { t_us, f_Hz: frequencyAt(k, centre_Hz, t_us), power_W: markAt(plan, t_us) ? power_W : 0 };
    const last = steps[steps.length - 1];
    const same = last
      ? last.power_W === step.power_W && (step.power_W === 0 || last.f_Hz === step.f_Hz)
      : power_W === 0;
    if (!same && (last !== undefined || step.power_W > 0)) steps.push(step);
  }
}

/**
 * Words on the carrier: those that ended before now stay, those that end later are planned if the carrier was up when they
 * began. A word that began earlier than the carrier is lost: its head never left the aerial.
 */
export function replanWords(
  words: SpokenWord[],
  spoken: readonly SpokenWord[],
  emission: Emission,
  carrier: readonly Edge[],
  now_us: number,
): SpokenWord[] {
  if (words.length === 0 && spoken.length === 0) return words;
  const past = words.filter((w) => w.t1_us <= now_us && w.t1_us > now_us - 4e6);
  if (!voiced(emission) || !markAt(carrier, now_us)) return past;
  const up_us = carrier.reduce((t, e) => (e.mark && e.t_us <= now_us ? e.t_us : t), 0);
  return [...past, ...spoken.filter((w) => w.t1_us > now_us && w.t0_us >= up_us)];
}
