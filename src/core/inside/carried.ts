/** What is on a line or on the air now, in a word: the looks must not speak of bits while somebody talks. */
import type { Ear, Edge, Emission, Radiation } from '../signals.ts';
import { markAt } from '../station/wave.ts';
import { isPrint, PAUSE_US, type Scene, type Sending, upAt } from './scene.ts';

/** `print` is a teleprinter, be it at rest; `sound` a recording in one sideband. */
export type Carried = 'nothing' | 'carrier' | 'Morse' | 'voice' | 'print' | 'sound';

const PAUSE_STEPS = 6;
/** A line that moves within this of now is at work, us. */
const MOVES_US = 400_000;
/** Carriers within this of the frequency tuned to can be told apart and heard, Hz. */
export const NEAR_HZ = 3000;

/** Does a line move about now? */
export const moves = (line: readonly Edge[], now_us: number): boolean =>
  line.some((e) => Math.abs(e.t_us - now_us) < MOVES_US);

function by(emission: Emission, hasLetter: boolean, speaks: boolean): Carried {
  switch (emission) {
    case 'N0N':
      return 'carrier';
    case 'A1A':
      return 'Morse';
    case 'A3E':
      return 'voice';
    case 'J3E':
      return 'sound';
    case 'F1B':
      return 'print';
    case 'A3E+F1B':
      return speaks && !hasLetter ? 'voice' : 'print';
  }
}

/** What a sender has on the air. */
export function onAir(r: Radiation, now_us: number, hasLetter: boolean): Carried {
  if (upAt(r, now_us) === null) return 'nothing';
  return by(
    r.emission,
    hasLetter,
    r.words.some((w) => w.t0_us <= now_us && w.t1_us > now_us),
  );
}

const isMorse = (key: readonly Edge[], now_us: number): boolean =>
  markAt(key, now_us) || key.some((e) => e.mark && e.t_us > now_us - PAUSE_US);

/**
 * What the own keys, tape, hand or mouth make now, on the air or not; at a distant station what it radiates. The keys speak
 * of what the sender takes first; the line of its letters, and of print while that is on the air.
 */
export function onLine(
  { own, station: { wires: w }, now_us }: Scene,
  { who, radiation }: Sending,
  hasLetter: boolean,
  at: 'keys' | 'line',
): Carried {
  const air = onAir(radiation, now_us, hasLetter);
  const { emission } = radiation;
  const isPrinting = at === 'line' && air !== 'nothing' && isPrint(emission);
  if (isPrinting) return 'print';
  if (who !== own) return air;
  const makes = { Morse: isMorse(w.handKey, now_us), voice: w.talking, print: hasLetter };
  const first = at === 'line' ? 'print' : emission === 'A1A' ? 'Morse' : emission === 'A3E' ? 'voice' : 'print';
  const made = ([first, 'print', 'Morse', 'voice'] as const).find((what) => makes[what]);
  // A carrier that nothing keys is the sender's own.
  return made ?? (air === 'carrier' ? 'nothing' : air);
}

/** Does an ear hear somebody speak or send Morse, be it between two words? */
export const hasWords = (ear: Ear, now_us: number): boolean => ear.words(now_us - PAUSE_US, now_us).length > 0;

/** The strongest emission that an ear has near a frequency, N0N with `on` nothing when there is none. */
export function heardNear(
  ear: Ear,
  tuned_Hz: number,
  now_us: number,
  hasLetter: boolean,
): { emission: Emission; on: Carried } {
  const near = (t_us: number) => ear.arrivals(t_us).find((a) => Math.abs(a.f_Hz - tuned_Hz) < NEAR_HZ);
  const now = near(now_us);
  if (now) return { emission: now.emission, on: by(now.emission, hasLetter, hasWords(ear, now_us)) };
  for (let i = 1; i <= PAUSE_STEPS; i++)
    if (near(now_us - (i * PAUSE_US) / PAUSE_STEPS)?.emission === 'A1A') return { emission: 'A1A', on: 'Morse' };
  return { emission: 'N0N', on: 'nothing' };
}
