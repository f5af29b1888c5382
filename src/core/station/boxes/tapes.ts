/** Five-unit tapes as things: one in the punch, one on the reader, six pegs of a rack. Holes are only ever added. */
import { encode, LTRS } from '../../telegraphy/ita2.ts';

/** Pegs of the rack. */
export const PEGS = 6;
/** Columns of one feed-out. */
export const FEED_columns = 10;

/** The tapes. Columns are codes 0..31; an empty peg is null; `slackAt` is how far the reader is on a tape still in the punch. */
export type Tapes = {
  punched: number[];
  head: number;
  reading: { codes: number[]; at: number } | null;
  slackAt: number;
  rack: (number[] | null)[];
};

/** Six pegs holding these texts (missing ones empty), and a text on the reader (none if empty). */
export function newTapes(texts: readonly string[], onReader: string): Tapes {
  const tape = (text: string | undefined) => (text ? encode(text).codes.slice() : null);
  const codes = tape(onReader);
  return {
    punched: [],
    head: 0,
    reading: codes && { codes, at: 0 },
    slackAt: 0,
    rack: Array.from({ length: PEGS }, (_, i) => tape(texts[i])),
  };
}

/** Punch one column at the head. Holes that are there stay: the column becomes old OR new. */
export function punchColumn(t: Tapes, code: number): void {
  t.punched[t.head] = (t.punched[t.head] ?? 0) | code;
  t.head++;
}

/** Ten columns of all holes, which print nothing. */
export function feedOut(t: Tapes): undefined {
  for (let i = 0; i < FEED_columns; i++) punchColumn(t, LTRS);
}

/** The reader's next column, moving it on; null at the end of the tape or when it has caught up with the punch. */
export function readColumn(t: Tapes): number | null {
  if (t.reading)
    return t.reading.codes[t.reading.at] === undefined ? null : (t.reading.codes[t.reading.at++] as number);
  return t.slackAt < t.head ? (t.punched[t.slackAt++] as number) : null;
}

/** Tear the tape off at the punch and put it on the reader; a tape there goes to the first free peg. Returns why not. */
export function tearAtPunch(t: Tapes): string | undefined {
  if (t.punched.length === 0) return 'no tape punched';
  if (t.reading) {
    const free = t.rack.indexOf(null);
    if (free < 0) return 'the rack is full';
    t.rack[free] = t.reading.codes;
  }
  t.reading = { codes: t.punched, at: t.slackAt };
  t.punched = [];
  t.head = 0;
  t.slackAt = 0;
  return undefined;
}

/** Hang the reader's tape on peg 0..5. Returns why not. */
export function keepOn(t: Tapes, peg: number): string | undefined {
  if (!t.reading) return 'no tape on the reader';
  if (t.rack[peg]) return `peg ${peg + 1} is taken`;
  t.rack[peg] = t.reading.codes;
  t.reading = null;
  return undefined;
}

/** Put the tape of peg 0..5 on the reader at its start; a tape on the reader goes to that peg. Returns why not. */
export function loadFrom(t: Tapes, peg: number): string | undefined {
  const codes = t.rack[peg];
  if (!codes) return `peg ${peg + 1} is empty`;
  t.rack[peg] = t.reading?.codes ?? null;
  t.reading = { codes, at: 0 };
  return undefined;
}

/** Reader one column on (sends nothing). Returns why not. */
export const stepOn = (t: Tapes): string | undefined => (readColumn(t) === null ? 'no tape under the pins' : undefined);

/** Reader back to the start of its tape. */
export function rewind(t: Tapes): undefined {
  if (t.reading) t.reading.at = 0;
  else t.slackAt = 0;
}
