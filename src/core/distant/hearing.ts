/** A distant operator's ear: words through the receiver's passband, an utterance at a time. */
import { uniform } from '../kernel/dice.ts';
import { UTTERANCE_GAP_US } from '../record/air-watch.ts';
import { voiceChance, wordSnr } from '../samples/voice.ts';
import type { Ear, HeardWord } from '../signals.ts';

/** A transmission that runs: words made out so far, its first and last instant, how the last word stood above the noise. */
type Open = { station: string; words: string[]; from_us: number; last_us: number; snr_dB: number };
/** How far the ear has listened, and the transmissions that run, one a voice. Plain data. */
export type Hearing = { upTo_us: number; open: Open[] };
/** A finished utterance: `words` with '...' for each that was lost, and how its last word stood above the noise. */
export type Utterance = { words: string; from_us: number; station: string; snr_dB: number };
/** Whose ear: seed and call sign for the dice, and where the receiver is tuned. */
export type Listener = { seed: number; call: string; tuned_Hz: number };

/** A receiver for voice as wide as this hears a carrier up to half of it off. */
export const VOICE_HZ = 6000;
/** Its own noise lies so far under the external noise of an HF band (ITU-R P.372) that it counts for nothing, dB. */
const OWN_NOISE_DB = -60;
const LOST = '...';

/** An ear that has heard nothing. */
export const newHearing = (now_us: number): Hearing => ({ upTo_us: now_us, open: [] });

/** A word as this ear has it, and how it stood above the noise, dB. */
function make(w: HeardWord, ear: Ear, { seed, call, tuned_Hz }: Listener): { said: string; snr_dB: number } {
  const rx = { tuned_Hz, bandwidth_Hz: VOICE_HZ, innerNoise_dB: OWN_NOISE_DB };
  const others = ear.arrivals(w.t1_us - 1);
  const isMadeOut = uniform(seed, `ear ${call} ${w.station}`, w.t1_us) < voiceChance(w, others, rx);
  return { said: isMadeOut ? w.word : LOST, snr_dB: wordSnr(w, others, rx) };
}

/** The voice that a word belongs to; a voice that has paused begins anew. */
function voiceOf(h: Hearing, w: HeardWord): Open {
  const known = h.open.find((o) => o.station === w.station && w.t0_us - o.last_us <= UTTERANCE_GAP_US);
  if (known) return known;
  const open = { station: w.station, words: [], from_us: w.t0_us, last_us: w.t0_us, snr_dB: 0 };
  h.open.push(open);
  return open;
}

/** Listen up to now; gives the utterances that are over. While `isDeaf` (sending oneself) everything passes unheard. */
export function listen(h: Hearing, ear: Ear, now_us: number, who: Listener, isDeaf: boolean): Utterance[] {
  for (const w of ear.words(h.upTo_us, now_us)) {
    if (isDeaf || w.by !== 'voice' || Math.abs(w.f_Hz - who.tuned_Hz) > VOICE_HZ / 2) continue;
    const open = voiceOf(h, w);
    open.last_us = w.t1_us;
    const { said, snr_dB } = make(w, ear, who);
    open.snr_dB = snr_dB;
    open.words.push(said);
  }
  h.upTo_us = now_us;
  if (h.open.length === 0) return [];
  const over = h.open.filter((o) => now_us - o.last_us >= UTTERANCE_GAP_US);
  if (over.length > 0) h.open = h.open.filter((o) => !over.includes(o));
  return over
    .filter(({ words }) => words.some((word) => word !== LOST))
    .map(({ words, from_us, station, snr_dB }) => ({ words: words.join(' '), from_us, station, snr_dB }));
}
