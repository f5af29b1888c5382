/** How much of a voice comes through: from carrier and noise to words understood. Closed forms, no samples. */
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';

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

/** Articulation index of flat noise: speech peaks stand 12 dB over the mean and its useful range is 30 dB (ANSI S3.5-1969, from memory). */
export const articulation = (snr_dB: number): number => Math.min(1, Math.max(0, (snr_dB + 12) / 30));

/** What is spoken: any words, or words of a known short list such as the spelling alphabet. */
export type Vocabulary = 'words' | 'spelling';

// Share of words right at articulation 0, 0.1, .. 1. Kryter 1962: 1000 phonetically balanced words; 32 words known to the
// listener. Read off the published curves from memory: good to about 0.05.
const SCORES: Readonly<Record<Vocabulary, readonly number[]>> = {
  words: [0, 0.07, 0.22, 0.41, 0.6, 0.74, 0.83, 0.89, 0.93, 0.96, 0.98],
  spelling: [0, 0.38, 0.68, 0.86, 0.94, 0.97, 0.985, 0.992, 0.996, 0.998, 1],
};

/** Share of words understood, 0..1, at a speech signal-to-noise ratio in dB. */
export function intelligibility(snr_dB: number, vocabulary: Vocabulary = 'words'): number {
  const at = articulation(snr_dB) * 10;
  const k = Math.min(9, Math.floor(at));
  const table = SCORES[vocabulary];
  return table[k]! + (at - k) * (table[k + 1]! - table[k]!);
}
