/** Watches what stations radiate and writes it down: carriers up and down, and words when an utterance is over. */
import type { Emission, Radiation, SpokenWord } from '../signals.ts';
import type { LineBody } from './record.ts';

/** A silence this long ends an utterance. */
export const UTTERANCE_GAP_US = 700_000;

type Seen = { step_us: number; power_W: number; emission: Emission; word_us: number; words: SpokenWord[] };
/** What has been written down already, by station. */
export type AirSeen = Record<string, Seen>;

function watchCarrier(r: Radiation, seen: Seen, now_us: number, note: (body: LineBody) => void): void {
  for (const step of r.steps) {
    if (step.t_us > now_us) break;
    if (step.t_us <= seen.step_us) continue;
    seen.step_us = step.t_us;
    const same = Math.abs(step.power_W - seen.power_W) < 0.01 && r.emission === seen.emission;
    if (same || (step.power_W === 0 && seen.power_W === 0)) continue;
    seen.power_W = step.power_W;
    seen.emission = r.emission;
    const power_W = Math.round(step.power_W * 100) / 100;
    note({ k: 'air', station: r.station, emission: r.emission, f_Hz: Math.round(step.f_Hz), power_W });
  }
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
    seen[r.station] ??= { step_us: -1, power_W: 0, emission: r.emission, word_us: -1, words: [] };
    const mine = seen[r.station] as Seen;
    watchCarrier(r, mine, now_us, note);
    watchWords(r, mine, now_us, note);
  }
}
