/** A distant operator's ear: words through the receiver's passband, an utterance at a time. */
import { uniform } from '../kernel/dice.ts';
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';
import { intelligibility, voiceSnr } from '../samples/voice.ts';
import type { Ear, HeardWord } from '../signals.ts';

/** Words made out so far of the transmission that runs, and how far the ear has listened. Plain data. */
export type Hearing = {
  upTo_us: number;
  words: string[];
  from_us: number;
  last_us: number;
  station: string;
  snr_dB: number;
};
/** A finished utterance: `words` with '...' for each that was lost, and how its last word stood above the noise. */
export type Utterance = { words: string; from_us: number; station: string; snr_dB: number };
/** Whose ear: seed and call sign for the dice, and where the receiver is tuned. */
export type Listener = { seed: number; call: string; tuned_Hz: number };

/** A receiver for voice as wide as this hears a carrier up to half of it off. */
export const VOICE_HZ = 6000;
const GAP_US = 700_000;
const LOST = '...';

/** An ear that has heard nothing. */
export const newHearing = (now_us: number): Hearing => ({
  upTo_us: now_us,
  words: [],
  from_us: 0,
  last_us: 0,
  station: '',
  snr_dB: 0,
});

/** Speech above the noise, other carriers in the passband counted as noise, dB. */
function snrOf(w: HeardWord, ear: Ear): number {
  const others = ear
    .arrivals(w.t1_us - 1)
    .filter((a) => a.station !== w.station && Math.abs(a.f_Hz - w.f_Hz) < VOICE_HZ / 2)
    .reduce((sum, a) => sum + dbToRatio(a.cn0_dB) / VOICE_HZ, 0);
  return voiceSnr(w.cn0_dB - ratioToDb(1 + others), w.depth, VOICE_HZ);
}

// Spelling words, figures and prowords are one short list that both know.
const isMadeOut = (w: HeardWord, snr_dB: number, { seed, call }: Listener): boolean =>
  uniform(seed, `ear ${call} ${w.station}`, w.t1_us) < intelligibility(snr_dB, 'spelling');

/** Listen up to now; gives the utterances that are over. While `isDeaf` (sending oneself) everything passes unheard. */
export function listen(h: Hearing, ear: Ear, now_us: number, who: Listener, isDeaf: boolean): Utterance[] {
  const over: Utterance[] = [];
  const finish = () => {
    const { from_us, station, snr_dB } = h;
    if (h.words.some((w) => w !== LOST)) over.push({ words: h.words.join(' '), from_us, station, snr_dB });
    h.words = [];
  };
  for (const w of ear.words(h.upTo_us, now_us)) {
    if (isDeaf || w.by !== 'voice' || Math.abs(w.f_Hz - who.tuned_Hz) > VOICE_HZ / 2) continue;
    if (h.words.length > 0 && (w.t0_us - h.last_us > GAP_US || w.station !== h.station)) finish();
    if (h.words.length === 0) h.from_us = w.t0_us;
    h.station = w.station;
    h.last_us = w.t1_us;
    h.snr_dB = snrOf(w, ear);
    h.words.push(isMadeOut(w, h.snr_dB, who) ? w.word : LOST);
  }
  h.upTo_us = now_us;
  if (h.words.length > 0 && now_us - h.last_us >= GAP_US) finish();
  return over;
}
