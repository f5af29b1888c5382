/** How much of a word in Morse an ear gets through a receiver: a tone against noise. */
import { exp } from '../numeric/elementary.ts';
import { ratioToDb } from '../quantity/quantity.ts';
import { noiseRise_dB, passbandLoss_dB } from '../samples/voice.ts';
import type { Arrival, HeardWord } from '../signals.ts';
import type { Wires } from './wires.ts';

/** Width of the ear's own filter round a tone of some hundred hertz (critical band about 100 Hz, Zwicker; from memory). */
export const EAR_Hz = 100;

const BEST = 0.999;

/** How well an ear follows a keyed tone of this pitch, 0..1: best from 200 to 2000 Hz, nothing under 50 or over 3000. */
export function pitchEase(beat_Hz: number): number {
  const f = Math.abs(beat_Hz);
  if (f < 50 || f > 3000) return 0;
  return f < 200 ? (f - 50) / 150 : f > 2000 ? (3000 - f) / 1000 : 1;
}

/**
 * Chance that a word in Morse is read by ear, 0..1: half of the words at 4 dB in the ear's own filter (just usable by ear
 * at about 24 to 31 dB-Hz, ITU-R F.339, from memory). `harm` is the share that distortion spoils, 0..1.
 */
export function morseChance(word: HeardWord, others: readonly Arrival[], rx: Wires['rx'], harm: number): number {
  if (!rx.bfo) return 0;
  const offset = word.f_Hz - rx.tuned_Hz;
  const cn0 = word.cn0_dB - passbandLoss_dB(offset, rx.bandwidth_Hz) - noiseRise_dB(word, others, rx, EAR_Hz);
  // Fast AGC lets the noise up between the signs.
  const snr = cn0 - ratioToDb(EAR_Hz) - (rx.agc === 'fast' ? 2 : 0);
  const read = 1 / (1 + exp(-0.9 * (snr - 4)));
  return Math.min(BEST, read * pitchEase(offset - rx.pitch_Hz) * (1 - harm));
}
