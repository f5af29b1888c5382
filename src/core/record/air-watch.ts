/** Watches what stations radiate and writes it down: carriers up and down, and words when an utterance is over. */
import type { CarrierStep, Emission, Radiation, SpokenWord } from '../signals.ts';
import type { LineBody } from './record.ts';

/** A silence this long ends an utterance. */
export const UTTERANCE_GAP_US = 700_000;

type Seen = {
  step_us: number;
  power_W: number;
  f_Hz: number;
  emission: Emission;
  word_us: number;
  words: SpokenWord[];
};
/** What has been written down already, by station. */
export type AirSeen = Record<string, Seen>;

function watchCarrier(r: Radiation, seen: Seen, now_us: number, note: (body: LineBody) => void): void {
  const { station, emission } = r;
  const write = (f_Hz: number, power_W: number) => {
    const same = Math.abs(power_W - seen.power_W) < 0.01 && emission === seen.emission;
    if (same || (power_W === 0 && seen.power_W === 0)) return;
    seen.power_W = power_W;
    seen.f_Hz = f_Hz;
    seen.emission = emission;
    note({ k: 'air', station, emission, f_Hz: Math.round(f_Hz), power_W: Math.round(power_W * 100) / 100 });
  };
  let stands: CarrierStep | undefined;
  for (const step of r.steps) {
    if (step.t_us > now_us) break;
    stands = step;
    if (step.t_us <= seen.step_us) continue;
    seen.step_us = step.t_us;
    write(step.f_Hz, step.power_W);
  }
  // A carrier up and down within one instant leaves no step behind, but its rise was written.
  if (!stands || stands.power_W === 0) write(stands?.f_Hz ?? seen.f_Hz, 0);
}

function flush(r: Radiation, seen: Seen, note: (body: LineBody) => void): void {
  const [first] = seen.words;
  if (!first) return;
  note({
    k: 'spoke',
    station: r.station,
    words: seen.words.map((w) => w.word).join(' '),
    by: first.by,
    from_us: first.t0_us,
  });
  seen.words = [];
}

function watchWords(r: Radiation, seen: Seen, now_us: number, note: (body: LineBody) => void): void {
  for (const word of r.words) {
    if (word.t1_us > now_us || word.t1_us <= seen.word_us) continue;
    const last = seen.words[seen.words.length - 1];
    if (last && (word.t0_us - last.t1_us > UTTERANCE_GAP_US || word.by !== last.by)) flush(r, seen, note);
    seen.word_us = word.t1_us;
    seen.words.push(word);
  }
  const last = seen.words[seen.words.length - 1];
  if (!last || now_us - last.t1_us < UTTERANCE_GAP_US) return;
  const goesOn = r.words.some((w) => w.t1_us > now_us && w.t0_us - last.t1_us <= UTTERANCE_GAP_US);
  if (!goesOn) flush(r, seen, note);
}

/** Write down what has newly become history in these radiations. Call after every event; calling twice writes nothing more. */
export function watchAir(
  all: readonly Radiation[],
  seen: AirSeen,
  now_us: number,
  note: (body: LineBody) => void,
): void {
  for (const r of all) {
    seen[r.station] ??= { step_us: -1, power_W: 0, f_Hz: 0, emission: r.emission, word_us: -1, words: [] };
    const mine = seen[r.station] as Seen;
    watchCarrier(r, mine, now_us, note);
    watchWords(r, mine, now_us, note);
  }
}
