/** The operator's own voice as it is heard from inside: a low hum with a vowel's colour, by the word said. Ours, no voice recorded. */
import type { SpokenWord } from '../core/signals.ts';

const SYLLABLE_S = 0.2;
const HARMONICS = 7;
const LOUD = 0.12;

/** A number from 0 to 1 that a word always has. */
function colourOf(word: string): number {
  let h = 0;
  for (let i = 0; i < word.length; i++) h = (Math.imul(h, 31) + word.charCodeAt(i)) >>> 0;
  return (h % 997) / 997;
}

function voice(word: string, t_s: number): number {
  const colour = colourOf(word);
  const pitch_Hz = 105 + 25 * colour;
  const vowel_Hz = 280 + 400 * colour;
  let sum = 0;
  for (let k = 1; k <= HARMONICS; k++) {
    const off = (k * pitch_Hz - vowel_Hz) / 160;
    sum += Math.sin(2 * Math.PI * k * pitch_Hz * t_s) / (k * (1 + off * off));
  }
  return Math.abs(Math.sin((Math.PI * t_s) / SYLLABLE_S)) * sum;
}

/** Adds what is said from `t0_us` on to audio, in place. */
export function addMurmur(audio: Float64Array, rate: number, t0_us: number, words: readonly SpokenWord[]): void {
  const end_us = t0_us + (audio.length * 1e6) / rate;
  for (const { t0_us: from, t1_us: to, word } of words) {
    if (to <= t0_us || from >= end_us) continue;
    for (let i = 0; i < audio.length; i++) {
      const t_us = t0_us + (i * 1e6) / rate;
      if (t_us >= from && t_us < to) audio[i] = audio[i]! + LOUD * voice(word, (t_us - from) / 1e6);
    }
  }
}
