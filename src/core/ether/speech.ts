/** A voice as modulation: two tones in the band of speech with a syllable's rise and fall, by the word said. Ours, not a voice. */

import { streamOf } from '../kernel/dice.ts';
import { sin } from '../numeric/elementary.ts';
import type { SpokenWord } from '../signals.ts';

const SYLLABLE_S = 0.2;

/** The speech at an instant, within ±1; 0 between words. Morse words modulate nothing. */
export function speechAt(words: readonly SpokenWord[], t_us: number): number {
  const word = words.find((w) => w.by === 'voice' && t_us >= w.t0_us && t_us < w.t1_us);
  if (!word) return 0;
  const hash = streamOf(word.word);
  const low_Hz = 250 + (hash & 0xff);
  const high_Hz = 900 + ((hash >>> 8) & 0x3ff);
  const t_s = (t_us - word.t0_us) / 1e6;
  const swell = Math.abs(sin((Math.PI * t_s) / SYLLABLE_S));
  return swell * (0.6 * sin(2 * Math.PI * low_Hz * t_s) + 0.4 * sin(2 * Math.PI * high_Hz * t_s));
}
