/** What an ear makes of words on the air: a die a word, and words gathered into transmissions. */
import { uniform } from '../kernel/dice.ts';
import { UTTERANCE_GAP_US } from '../record/air-watch.ts';
import type { LineBody } from '../record/record.ts';
import type { HeardWord } from '../signals.ts';
import type { Caption } from './wires.ts';

/** Transmissions heard: the last 20, how many ever, and those not yet ended by the (never shown) source of their words. */
export type Heard = {
  captions: Caption[];
  n: number;
  open: { source: string; n: number; longest_us: number }[];
};

/** An ear that has heard nothing. */
export const nothingHeard = (): Heard => ({ captions: [], n: 0, open: [] });

const KEPT = 20;
const LOST = '...';
/** Under this chance an ear does not even notice that somebody speaks. */
const UNNOTICED = 0.05;

// A word in Morse is known only at its end, and one may be several times as long as the last.
const patience_us = (by: Caption['by'], longest_us: number): number =>
  by === 'voice' ? UTTERANCE_GAP_US : Math.min(8_000_000, 2_500_000 + 2 * longest_us);

function begin(h: Heard, word: HeardWord, source: string): Caption {
  const caption: Caption = {
    n: ++h.n,
    from_us: word.t0_us,
    to_us: word.t0_us,
    by: word.by,
    words: '',
    ended: false,
  };
  h.captions.push(caption);
  if (h.captions.length > KEPT) h.captions.shift();
  h.open.push({ source, n: caption.n, longest_us: 0 });
  return caption;
}

/** One word comes to the ear with a chance 0..1 of being understood; the die is the word's own, whoever listens. */
export function hearWord(h: Heard, word: HeardWord, chance: number, seed: number): void {
  const source = `${word.station} ${word.by}`;
  const open = h.open.find((o) => o.source === source);
  if (!open && chance < UNNOTICED) return;
  const caption = open ? h.captions.find((c) => c.n === open.n) : begin(h, word, source);
  if (!caption) return;
  const isUnderstood = uniform(seed, `ear ${word.station}`, word.t1_us) < chance;
  const said = isUnderstood ? word.word : LOST;
  if (isUnderstood || !caption.words.endsWith(LOST)) caption.words += (caption.words ? ' ' : '') + said;
  caption.to_us = word.t1_us;
  const group = h.open.find((o) => o.source === source);
  if (group) group.longest_us = Math.max(group.longest_us, word.t1_us - word.t0_us);
}

/** Transmissions that have paused long enough are over and go into the record. */
export function endHeard(h: Heard, now_us: number, note: (body: LineBody) => void): void {
  h.open = h.open.filter((o) => {
    const c = h.captions.find((x) => x.n === o.n);
    if (!c) return false;
    if (now_us - c.to_us < patience_us(c.by, o.longest_us)) return true;
    c.ended = true;
    note({ k: 'heard', words: c.words, by: c.by, from_us: c.from_us });
    return false;
  });
}
