/** How much of a word an ear gets through a receiver: articulation for speech, tone against noise for Morse. */
import { exp, log10, pow } from '../numeric/elementary.ts';
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';
import type { Arrival, HeardWord } from '../signals.ts';
import type { Wires } from './wires.ts';

/** What the ear listens through. `harm` is the share of the speech that distortion spoils, 0..1. */
export type Listening = { rx: Wires['rx']; harm: number };

/** Loss of a signal `offset_Hz` off the middle of a passband `bandwidth_Hz` wide (Butterworth, fourth order), dB. */
export const passbandLoss_dB = (offset_Hz: number, bandwidth_Hz: number): number =>
  10 * log10(1 + pow((2 * Math.abs(offset_Hz)) / bandwidth_Hz, 8));

// Upper limits of the twenty bands of equal contribution to articulation, from 200 Hz on (French and Steinberg 1947; Beranek;
// ANSI S3.5-1969; from memory).
const BANDS_Hz = [
  330, 430, 560, 700, 840, 1000, 1150, 1310, 1480, 1660, 1830, 2020, 2240, 2500, 2820, 3200, 3650, 4250, 5050, 6100,
];
/** Highest audio frequency of A3E speech (6K00A3E, ITU-R SM.1138). */
const SPEECH_Hz = 3000;

/** Share of the articulation bands that a receiver passes when the carrier is `offset_Hz` off its middle, 0..1. */
export function bandsPassed(offset_Hz: number, bandwidth_Hz: number): number {
  const off = Math.abs(offset_Hz);
  let sum = 0;
  for (const top of BANDS_Hz) {
    if (top > SPEECH_Hz) break;
    // Both sidebands, or one of them with half the voltage.
    sum += top <= bandwidth_Hz / 2 - off ? 1 : top <= bandwidth_Hz / 2 + off ? 0.8 : 0;
  }
  return off > bandwidth_Hz / 2 ? 0 : sum / BANDS_Hz.length;
}

// Noise density after everything, relative to the external noise: inner noise, and other carriers spread over the passband.
function noiseRise(word: HeardWord, others: readonly Arrival[], rx: Wires['rx'], within_Hz: number): number {
  let rise = 1 + dbToRatio(rx.innerNoise_dB);
  for (const a of others)
    if (a.station !== word.station && Math.abs(a.f_Hz - word.f_Hz) < within_Hz)
      rise += dbToRatio(a.cn0_dB - passbandLoss_dB(a.f_Hz - rx.tuned_Hz, rx.bandwidth_Hz)) / within_Hz;
  return rise;
}

// Words of a small known vocabulary (spelling words, prowords, figures) against the articulation index: 0.1 gives 57 %,
// 0.3 gives 92 % (read off the 32-word curve of ANSI S3.5-1969, from memory).
const INDEX_to_tenth = 0.27;
const BEST = 0.999;

/** Audio signal-to-noise of speech on a carrier, dB: depth^2/2 of the carrier over the noise in the audio band, with the envelope detector's own threshold. */
export function speechSnr_dB(cn0_dB: number, depth: number, bandwidth_Hz: number): number {
  const rho = dbToRatio(cn0_dB - ratioToDb(bandwidth_Hz));
  const audio_Hz = Math.min(bandwidth_Hz / 2, SPEECH_Hz);
  return cn0_dB + ratioToDb((depth * depth) / 2) - ratioToDb(audio_Hz) + ratioToDb(rho / (1 + rho));
}

/** Chance that a spoken word is understood, 0..1. */
export function voiceChance(word: HeardWord, others: readonly Arrival[], { rx, harm }: Listening): number {
  const offset = word.f_Hz - rx.tuned_Hz;
  const bands = bandsPassed(offset, rx.bandwidth_Hz);
  if (bands === 0 || word.depth <= 0) return 0;
  const cn0 =
    word.cn0_dB - passbandLoss_dB(offset, rx.bandwidth_Hz) - ratioToDb(noiseRise(word, others, rx, rx.bandwidth_Hz));
  const snr = speechSnr_dB(cn0, word.depth, rx.bandwidth_Hz);
  // Speech peaks stand 12 dB over its mean; 30 dB of it carry the sense (Kryter 1962; ANSI S3.5-1969; from memory).
  const index = bands * Math.min(1, Math.max(0, (snr + 12) / 30)) * (1 - harm);
  return Math.min(BEST, 1 - pow(10, -index / INDEX_to_tenth));
}

/** Width of the ear's own filter round a tone of some hundred hertz (critical band about 100 Hz, Zwicker; from memory). */
const EAR_Hz = 100;

/** How well an ear follows a keyed tone of this pitch, 0..1: best from 200 to 2000 Hz, nothing under 50 or over 3000. */
export function pitchEase(beat_Hz: number): number {
  const f = Math.abs(beat_Hz);
  if (f < 50 || f > 3000) return 0;
  return f < 200 ? (f - 50) / 150 : f > 2000 ? (3000 - f) / 1000 : 1;
}

/** Chance that a word in Morse is read by ear, 0..1: half of the words at 4 dB in the ear's own filter (just usable by ear at about 24 to 31 dB-Hz, ITU-R F.339, from memory). */
export function morseChance(word: HeardWord, others: readonly Arrival[], { rx, harm }: Listening): number {
  if (!rx.bfo) return 0;
  const offset = word.f_Hz - rx.tuned_Hz;
  const rise = noiseRise(word, others, rx, EAR_Hz);
  const cn0 = word.cn0_dB - passbandLoss_dB(offset, rx.bandwidth_Hz) - ratioToDb(rise);
  // Fast AGC lets the noise up between the signs.
  const snr = cn0 - ratioToDb(EAR_Hz) - (rx.agc === 'fast' ? 2 : 0);
  const read = 1 / (1 + exp(-0.9 * (snr - 4)));
  return Math.min(BEST, read * pitchEase(offset - rx.pitch_Hz) * (1 - harm));
}
