/** A distant station's sender: voice and print planned ahead on its radiation. It keys nothing while the plan runs. */
import { prune } from '../kernel/history.ts';
import { STANDARD_FIT } from '../physics/circuit.ts';
import { LOADING_MAX_PF } from '../physics/match-motors.ts';
import { lMatch, matchBudget, withGround } from '../physics/matching.ts';
import { whipImpedance } from '../physics/whip.ts';
import type { CarrierStep, PlayedSound, Radiation, SpokenWord } from '../signals.ts';
import { encode } from '../telegraphy/ita2.ts';
import { morseEdges } from '../telegraphy/morse.ts';
import { WORD_US } from '../telegraphy/speaking.ts';
import { codesEdges } from '../telegraphy/startstop.ts';

/** Carrier before the first word and after the last. */
const LEAD_US = 300_000;
const STEADY_MARK_US = 2_000_000;
const TAIL_MARK_US = 600_000;
const BAUD = 50;
const STOP_UNITS = 1.5;
const HISTORY_US = 4_000_000;

/** What the standard whip radiates of `power_W` at a frequency, W. Throws RangeError where the whip cannot be matched. */
export function radiated_W(kHz: number, power_W: number): number {
  const f_MHz = kHz / 1000;
  const whip = whipImpedance({ f_MHz, h_m: STANDARD_FIT.h_m, a_m: STANDARD_FIT.a_m });
  const match = lMatch(f_MHz, withGround(whip, STANDARD_FIT.ground_ohm));
  if (!match || match.loading_pF > LOADING_MAX_PF) throw new RangeError(`no match for the whip at ${kHz} kHz`);
  return matchBudget(f_MHz, whip, STANDARD_FIT.ground_ohm, match, power_W).radiated_W;
}

/** A silent radiation. */
export const silence = (station: string): Radiation => ({ station, emission: 'N0N', steps: [], words: [], depth: 0.8 });

/** Is anything on the air, or still to come, at an instant? */
export function isSending(r: Radiation, now_us: number): boolean {
  const last = r.steps[r.steps.length - 1];
  return last !== undefined && (last.power_W > 0 || last.t_us > now_us);
}

/** Plan a bare carrier; gives the instant at which it goes. */
export function planCarrier(r: Radiation, f_Hz: number, power_W: number, from_us: number, until_us: number): number {
  r.emission = 'N0N';
  r.steps.push({ t_us: from_us, f_Hz, power_W }, { t_us: until_us, f_Hz, power_W: 0 });
  return until_us;
}

/** Plan a recording of so long and with its energy round `middle_Hz`; a repeated one has no end. */
export function planSound(
  r: Radiation,
  sound: PlayedSound,
  { length_s, middle_Hz, power }: { length_s: number; middle_Hz: number; power: number },
  power_W: number,
  from_us: number,
): void {
  if (power === 0) return;
  r.emission = 'J3E';
  const f_Hz = sound.carrier_Hz + middle_Hz;
  r.steps.push({ t_us: from_us, f_Hz, power_W, sound });
  if (!sound.repeats) r.steps.push({ t_us: from_us + Math.round(length_s * 1e6), f_Hz, power_W: 0 });
}

/** Cut off whatever is on the air or planned. */
export function stop(r: Radiation, now_us: number): void {
  r.steps = r.steps.filter((s) => s.t_us < now_us);
  const last = r.steps[r.steps.length - 1];
  if (last && last.power_W > 0) r.steps.push({ ...last, t_us: now_us, power_W: 0 });
  r.words = r.words.filter((w) => w.t1_us <= now_us);
}

/** Plan words of voice from `from_us`; gives the instant at which the carrier goes. */
export function planVoice(r: Radiation, text: string, f_Hz: number, power_W: number, from_us: number): number {
  const words = text.split(/\s+/).filter((w) => w !== '');
  r.emission = 'A3E';
  const t0 = from_us + LEAD_US;
  r.words.push(
    ...words.map(
      (word, i): SpokenWord => ({ t0_us: t0 + i * WORD_US, t1_us: t0 + (i + 1) * WORD_US, word, by: 'voice' }),
    ),
  );
  const end = t0 + words.length * WORD_US + LEAD_US;
  r.steps.push({ t_us: from_us, f_Hz, power_W }, { t_us: end, f_Hz, power_W: 0 });
  return end;
}

/** Plan print from `from_us`: steady mark, the text, a little mark; mark is the lower frequency. Gives the instant at which the carrier goes. */
export function planPrint(
  r: Radiation,
  text: string,
  f_Hz: number,
  shift_Hz: number,
  power_W: number,
  from_us: number,
): number {
  r.emission = 'F1B';
  const { codes } = encode(text);
  const { edges, end_us } = codesEdges(codes, from_us + STEADY_MARK_US, BAUD, STOP_UNITS);
  const at = (mark: boolean) => f_Hz + (mark ? -shift_Hz / 2 : shift_Hz / 2);
  const steps = edges.map(({ t_us, mark }): CarrierStep => ({ t_us, f_Hz: at(mark), power_W }));
  const end = end_us + TAIL_MARK_US;
  r.steps.push({ t_us: from_us, f_Hz: at(true), power_W }, ...steps, { t_us: end, f_Hz: at(true), power_W: 0 });
  return end;
}

/** Plan Morse from `from_us`: the carrier is keyed; each word counts as heard when its last element ends. */
export function planMorse(
  r: Radiation,
  text: string,
  wpm: number,
  f_Hz: number,
  power_W: number,
  from_us: number,
): number {
  r.emission = 'A1A';
  let t = from_us;
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const { edges, end_us } = morseEdges(word, t, wpm);
    r.steps.push(...edges.map((e): CarrierStep => ({ t_us: e.t_us, f_Hz, power_W: e.down ? power_W : 0 })));
    r.words.push({ t0_us: t, t1_us: edges[edges.length - 1]?.t_us ?? end_us, word, by: 'morse' });
    // Seven units between words (ITU-R M.1677-1); a unit is 1.2 s over the words a minute (PARIS).
    t = end_us + Math.round((7 * 1_200_000) / wpm);
  }
  return t;
}

/** Forget what is long past. */
export function forgetPast(r: Radiation, now_us: number): void {
  const before = now_us - HISTORY_US;
  prune(r.steps, before);
  if (r.words[0] && r.words[0].t1_us < before) r.words = r.words.filter((w) => w.t1_us >= before);
}
