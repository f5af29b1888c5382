/** A distant operator's ear: words through the receiver's passband, an utterance at a time. */
import { streamOf, uniform } from '../kernel/dice.ts';
import { intelligibility, voiceSnr } from '../samples/voice.ts';
import type { Ear, HeardWord } from '../signals.ts';

/** Words made out so far of the transmission that runs, and how far the ear has listened. Plain data. */
export type Hearing = { upTo_us: number; words: string[]; from_us: number; last_us: number; station: string };
/** A finished utterance: `words` with '...' for each that was lost. */
export type Utterance = { words: string; from_us: number; until_us: number; station: string };

/** A receiver for voice as wide as this hears a carrier up to half of it off. */
const VOICE_HZ = 6000;
const GAP_US = 700_000;
const LOST = '...';

export const newHearing = (now_us: number): Hearing => ({
  upTo_us: now_us,
  words: [],
  from_us: 0,
  last_us: 0,
  station: '',
});

/** Spelling words, figures and prowords are one short list that both know. */
function madeOut(w: HeardWord, tuned_Hz: number, seed: number, call: string): boolean {
  const off = Math.abs(w.f_Hz - tuned_Hz);
  if (w.by !== 'voice' || off > VOICE_HZ / 2) return false;
  const chance = intelligibility(voiceSnr(w.cn0_dB, w.depth, VOICE_HZ / 2), 'spelling');
  return uniform(seed, `ear ${call} ${streamOf(w.station)}`, Math.floor(w.t1_us / 1000)) < chance;
}

/** Listen up to now; gives the utterances that are over. While `isDeaf` (sending oneself) everything passes unheard. */
export function listen(
  h: Hearing,
  ear: Ear,
  now_us: number,
  tuned_Hz: number,
  seed: number,
  call: string,
  isDeaf: boolean,
): Utterance[] {
  const over: Utterance[] = [];
  const finish = () => {
    if (h.words.some((w) => w !== LOST))
      over.push({ words: h.words.join(' '), from_us: h.from_us, until_us: h.last_us, station: h.station });
    h.words = [];
  };
  for (const w of ear.words(h.upTo_us, now_us)) {
    if (isDeaf || Math.abs(w.f_Hz - tuned_Hz) > VOICE_HZ / 2) continue;
    if (h.words.length > 0 && (w.t0_us - h.last_us > GAP_US || w.station !== h.station)) finish();
    if (h.words.length === 0) h.from_us = w.t0_us;
    h.station = w.station;
    h.last_us = w.t1_us;
    h.words.push(madeOut(w, tuned_Hz, seed, call) ? w.word : LOST);
  }
  h.upTo_us = now_us;
  if (h.words.length > 0 && now_us - h.last_us >= GAP_US) finish();
  return over;
}
