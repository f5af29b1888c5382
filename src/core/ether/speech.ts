/** A voice as modulation: two tones in the band of speech with a syllable's rise and fall, by the word said. Ours, not a voice. */
import { streamOf } from '../kernel/dice.ts';
import { sin } from '../numeric/elementary.ts';
import type { SpokenWord } from '../signals.ts';

const SYLLABLE_S = 0.2;

/** The two tones of a word, Hz. */
function tonesOf(word: string): readonly [low_Hz: number, high_Hz: number] {
  const hash = streamOf(word);
  return [250 + (hash & 0xff), 900 + ((hash >>> 8) & 0x3ff)];
}

/**
 * The speech on a carrier as a function of time, within ±1; 0 between words. Morse words modulate nothing. Tones above
 * `top_Hz` are left out: sampled too slowly they would fold back into the middle of the band.
 */
export function speechOf(words: readonly SpokenWord[]): (t_us: number, top_Hz: number) => number {
  const spoken = words.filter((w) => w.by === 'voice').map((w) => ({ ...w, tones: tonesOf(w.word) }));
  let last = spoken[0];
  return (t_us, top_Hz) => {
    if (!last || t_us < last.t0_us || t_us >= last.t1_us) {
      const found = spoken.find((w) => t_us >= w.t0_us && t_us < w.t1_us);
      if (!found) return 0;
      last = found;
    }
    const t_s = (t_us - last.t0_us) / 1e6;
    const [low_Hz, high_Hz] = last.tones;
    const low = low_Hz < top_Hz ? 0.6 * sin(2 * Math.PI * low_Hz * t_s) : 0;
    const high = high_Hz < top_Hz ? 0.4 * sin(2 * Math.PI * high_Hz * t_s) : 0;
    return Math.abs(sin((Math.PI * t_s) / SYLLABLE_S)) * (low + high);
  };
}
