/**
 * How much of a voice comes through a receiver: from carrier, noise and passband to words understood. Closed forms, no
 * samples. Every ear of the house, the operator's and a distant one's, goes by it.
 */
import { log10, pow } from '../numeric/elementary.ts';
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';
import type { Arrival, HeardWord } from '../signals.ts';

/** A receiver as speech meets it: middle and width of its passband, Hz, and its own noise over the external, dB. */
export type VoiceReceiver = {
  readonly tuned_Hz: number;
  readonly bandwidth_Hz: number;
  readonly innerNoise_dB: number;
};

/** Loss of a signal `offset_Hz` off the middle of a passband `bandwidth_Hz` wide (Butterworth, fourth order), dB. */
export const passbandLoss_dB = (offset_Hz: number, bandwidth_Hz: number): number =>
  10 * log10(1 + pow((2 * Math.abs(offset_Hz)) / bandwidth_Hz, 8));

/** Noise density over the external noise alone, dB: the set's own, and other carriers within `within_Hz`, as if spread over that width. */
export function noiseRise_dB(
  word: HeardWord,
  others: readonly Arrival[],
  { tuned_Hz, bandwidth_Hz, innerNoise_dB }: VoiceReceiver,
  within_Hz: number,
): number {
  let rise = 1 + dbToRatio(innerNoise_dB);
  for (const a of others)
    if (a.station !== word.station && Math.abs(a.f_Hz - word.f_Hz) < within_Hz)
      rise += dbToRatio(a.cn0_dB - passbandLoss_dB(a.f_Hz - tuned_Hz, bandwidth_Hz)) / within_Hz;
  return ratioToDb(rise);
}

/**
 * Signal-to-noise ratio of speech after an envelope detector, dB. `cn0_dB` is carrier power over noise density (dBHz),
 * `depth` the modulation depth 0..1, `ifBandwidth` in Hz. With r = C/(N0 B): depth² r · 2r/(1 + 2r), which is depth² C/N
 * for a strong carrier and falls as its square below threshold (square-law detector theory, Davenport & Root, from memory).
 * Depth 0 gives -Infinity.
 */
export function voiceSnr(cn0_dB: number, depth: number, ifBandwidth: number): number {
  if (!(depth >= 0 && depth <= 1)) throw new RangeError(`depth is 0..1, got ${depth}`);
  if (!(ifBandwidth > 0)) throw new RangeError(`bandwidth must be above 0 Hz, got ${ifBandwidth}`);
  const r = dbToRatio(cn0_dB) / ifBandwidth;
  return ratioToDb((depth * depth * r * 2 * r) / (1 + 2 * r));
}

/** The same for a word among other carriers, through a receiver's passband. */
export function wordSnr(word: HeardWord, others: readonly Arrival[], rx: VoiceReceiver): number {
  const loss_dB = passbandLoss_dB(word.f_Hz - rx.tuned_Hz, rx.bandwidth_Hz);
  const cn0_dB = word.cn0_dB - loss_dB - noiseRise_dB(word, others, rx, rx.bandwidth_Hz);
  return voiceSnr(cn0_dB, word.depth, rx.bandwidth_Hz);
}

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
  if (off > bandwidth_Hz / 2) return 0;
  let sum = 0;
  for (const top of BANDS_Hz) {
    if (top > SPEECH_Hz) break;
    // Both sidebands, or one of them with half the voltage.
    sum += top <= bandwidth_Hz / 2 - off ? 1 : top <= bandwidth_Hz / 2 + off ? 0.8 : 0;
  }
  return sum / BANDS_Hz.length;
}

/** Articulation index of flat noise over all bands, 0..1: speech peaks stand 12 dB over the mean and its useful range is 30 dB (Kryter 1962; ANSI S3.5-1969; from memory). */
export const articulation = (snr_dB: number): number => Math.min(1, Math.max(0, (snr_dB + 12) / 30));

const INDEX_to_tenth = 0.27;

/**
 * Share of words understood, 0..1, by articulation index: words of a short list that both ends know (spelling words,
 * prowords, figures). A tenth is lost at 0.27: 0.1 gives 57 %, 0.3 gives 92 % (read off the 32-word curve of
 * ANSI S3.5-1969 from memory: good to about 0.05).
 */
export const understood = (index: number): number => 1 - pow(10, -index / INDEX_to_tenth);

/** Chance that a word is understood through a receiver, 0..1; `harm` is the share of the speech that distortion spoils, 0..1. */
export function voiceChance(word: HeardWord, others: readonly Arrival[], rx: VoiceReceiver, harm = 0): number {
  const bands = bandsPassed(word.f_Hz - rx.tuned_Hz, rx.bandwidth_Hz);
  return understood(bands * articulation(wordSnr(word, others, rx)) * (1 - harm));
}
