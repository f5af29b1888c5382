/** Reads hand-sent Morse as it comes, learning the sender's dot, dash and spacing from the last few dozen of each. */
import { exp, ln } from '../numeric/elementary.ts';
import type { KeyEdge } from './morse.ts';
import { dot_us, morseChar } from './morse.ts';

/** All that the reader remembers; plain JSON. Times in microseconds. */
export interface MorseReaderState {
  /** The key has been followed to this instant. */
  readonly t_us: number;
  readonly down: boolean;
  /** When the key last moved. */
  readonly moved_us: number;
  /** Lengths of the elements of the unfinished character. */
  readonly pending_us: readonly number[];
  /** A character ended and a word has not: a space is still possible. */
  readonly inWord: boolean;
  /** The last lengths of key-down, and of key-up, oldest first. */
  readonly marks_us: readonly number[];
  readonly gaps_us: readonly number[];
  /** The dot believed in until the sender has shown his own. */
  readonly expected_us: number;
}

/** A character as read; a word space is a character " ". */
export interface MorseRead {
  /** Key-up of its last element; for a space the instant it became certain. */
  readonly t_us: number;
  /** Character, bracketed procedure sign, space, or "*" for a sign in no table. */
  readonly text: string;
  /** Its dots and dashes; empty for a space. */
  readonly sign: string;
}

/** What the reader now takes for the sender's lengths, microseconds. */
export interface MorseTiming {
  readonly dot_us: number;
  readonly dash_us: number;
  /** A key-down shorter than this is a dot. */
  readonly dotLimit_us: number;
  /** A key-up shorter than this is inside a character; one longer than `wordFrom_us` parts words. */
  readonly letterFrom_us: number;
  readonly wordFrom_us: number;
}

const KEPT = 32;
// Lengths of one kind from one hand differ by less than this ratio; a dash and a dot differ by more.
const TWO_KINDS = 1.9;

/** A reader that has heard nothing and expects a speed. */
export const morseReader = (wpm = 12, t_us = 0): MorseReaderState => ({
  t_us,
  down: false,
  moved_us: t_us,
  pending_us: [],
  inWord: false,
  marks_us: [],
  gaps_us: [],
  expected_us: dot_us(wpm),
});

const mean = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0) / xs.length;

/** Splits lengths into a short and a long kind by two-means on their logarithms; null when they are all of one kind. */
export function splitLengths(lengths: readonly number[]): { readonly short: number; readonly long: number } | null {
  const logs = lengths.map((x) => ln(Math.max(x, 1)));
  let short = logs.reduce((a, b) => Math.min(a, b), Infinity);
  let long = logs.reduce((a, b) => Math.max(a, b), -Infinity);
  if (!(long - short > ln(TWO_KINDS))) return null;
  for (let pass = 0; pass < 12; pass++) {
    const middle = (short + long) / 2;
    short = mean(logs.filter((x) => x <= middle));
    long = mean(logs.filter((x) => x > middle));
  }
  return long - short > ln(TWO_KINDS) * 0.8 ? { short: exp(short), long: exp(long) } : null;
}

function dotAndDash(marks: readonly number[], expected: number): { dot: number; dash: number } {
  const kinds = splitLengths(marks);
  if (kinds !== null) return { dot: kinds.short, dash: kinds.long };
  if (marks.length === 0) return { dot: expected, dash: 3 * expected };
  const one = exp(mean(marks.map((x) => ln(Math.max(x, 1)))));
  return one < expected * Math.sqrt(3) ? { dot: one, dash: 3 * one } : { dot: one / 3, dash: one };
}

/** The sender's lengths as the state shows them. */
export function morseTiming(state: MorseReaderState): MorseTiming {
  const { dot, dash } = dotAndDash(state.marks_us, state.expected_us);
  const inside = state.gaps_us.filter((g) => g < 2 * dot);
  const unit = inside.length < 3 ? dot : (dot + mean(inside)) / 2;
  const outside = state.gaps_us.filter((g) => g >= 2 * unit);
  const kinds = outside.length < 6 ? null : splitLengths(outside);
  const word = kinds === null ? 5 * unit : Math.sqrt(kinds.short * kinds.long);
  return {
    dot_us: dot,
    dash_us: dash,
    dotLimit_us: Math.sqrt(dot * dash),
    letterFrom_us: 2 * unit,
    wordFrom_us: Math.min(Math.max(word, 4 * unit), 14 * unit),
  };
}

type Working = { -readonly [K in keyof MorseReaderState]: MorseReaderState[K] };

const keep = (list: readonly number[], x: number): number[] => [...list, x].slice(-KEPT);

/** The dots and dashes of key-down lengths under a timing. */
export const signOf = (lengths: readonly number[], timing: MorseTiming): string =>
  lengths.map((x) => (x < timing.dotLimit_us ? '.' : '-')).join('');

function settle(s: Working, now_us: number, timing: MorseTiming, out: MorseRead[]): void {
  if (s.down) return;
  const gap = now_us - s.moved_us;
  if (s.pending_us.length > 0 && gap >= timing.letterFrom_us) {
    const sign = signOf(s.pending_us, timing);
    out.push({ t_us: s.moved_us, text: morseChar(sign), sign });
    s.pending_us = [];
    s.inWord = true;
  }
  if (s.inWord && gap >= timing.wordFrom_us) {
    out.push({ t_us: s.moved_us + Math.ceil(timing.wordFrom_us), text: ' ', sign: '' });
    s.inWord = false;
  }
}

function applyKey(s: Working, edge: KeyEdge, out: MorseRead[]): void {
  if (edge.down === s.down) return;
  const length = edge.t_us - s.moved_us;
  if (edge.down) {
    if (s.pending_us.length > 0 || s.inWord) s.gaps_us = keep(s.gaps_us, length);
    settle(s, edge.t_us, morseTiming(s), out);
  } else {
    s.marks_us = keep(s.marks_us, length);
    s.pending_us = [...s.pending_us, length];
  }
  s.down = edge.down;
  s.moved_us = edge.t_us;
}

/** Follows the key up to and including `until_us`; edges at or before the state's instant or after `until_us` are passed over. */
export function morseRun(
  state: MorseReaderState,
  edges: readonly KeyEdge[],
  until_us: number,
): { readonly state: MorseReaderState; readonly read: readonly MorseRead[] } {
  const s: Working = { ...state };
  const read: MorseRead[] = [];
  for (const edge of edges) {
    if (edge.t_us <= state.t_us || edge.t_us > until_us) continue;
    applyKey(s, edge, read);
  }
  settle(s, until_us, morseTiming(s), read);
  s.t_us = Math.max(s.t_us, until_us);
  return { state: s, read };
}

/** A reader that has already looked at the first lengths of a recording, so that its first characters come out right. */
export function primedReader(edges: readonly KeyEdge[], wpm = 12): MorseReaderState {
  const marks: number[] = [];
  const gaps: number[] = [];
  for (const [i, edge] of edges.entries()) {
    const before = edges[i - 1];
    if (before === undefined || before.down === edge.down) continue;
    (edge.down ? gaps : marks).push(edge.t_us - before.t_us);
  }
  const first = edges[0]?.t_us ?? 0;
  return { ...morseReader(wpm, first - 1), marks_us: marks.slice(0, KEPT), gaps_us: gaps.slice(0, KEPT) };
}

/** Reads a whole recording of a key. */
export function readKeying(edges: readonly KeyEdge[], wpm = 12): string {
  const end = edges.at(-1)?.t_us ?? 0;
  const primed = primedReader(edges, wpm);
  const { read } = morseRun(primed, edges, end + Math.ceil(20 * morseTiming(primed).dash_us));
  return read
    .map((r) => r.text)
    .join('')
    .trim();
}
