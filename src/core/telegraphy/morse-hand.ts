/** How well a hand sends, measured against the lengths of ITU-R M.1677-1. */
import type { KeyEdge } from './morse.ts';
import { morseTiming, primedReader } from './morse-reader.ts';

/** Lengths of one kind: how many, their mean in dots, and their spread (standard deviation over mean, 0 when fewer than 2). */
export interface Kind {
  readonly count: number;
  readonly dots: number;
  readonly spread: number;
}

/** Measures of a hand; kinds that did not occur have count 0. */
export interface Hand {
  /** Speed from the mean of dots and the gaps inside characters, words a minute. */
  readonly wpm: number;
  /** Mean dot, microseconds: the unit of the other lengths. */
  readonly dot_us: number;
  readonly dot: Kind;
  /** M.1677-1: 3 dots. */
  readonly dash: Kind;
  /** M.1677-1: 1 dot. */
  readonly elementGap: Kind;
  /** M.1677-1: 3 dots. */
  readonly letterGap: Kind;
  /** M.1677-1: 7 dots. */
  readonly wordGap: Kind;
}

function meanOf(lengths: readonly number[]): number {
  return lengths.length === 0 ? 0 : lengths.reduce((a, b) => a + b, 0) / lengths.length;
}

function kind(lengths: readonly number[], dot: number): Kind {
  const mean = meanOf(lengths);
  const variance = meanOf(lengths.map((x) => (x - mean) * (x - mean)));
  return { count: lengths.length, dots: dot > 0 ? mean / dot : 0, spread: mean > 0 ? Math.sqrt(variance) / mean : 0 };
}

/** Measures a recording of a key; null when it has no element. */
export function measureHand(edges: readonly KeyEdge[], wpm = 12): Hand | null {
  const timing = morseTiming(primedReader(edges, wpm));
  const lists = {
    dot: [] as number[],
    dash: [] as number[],
    element: [] as number[],
    letter: [] as number[],
    word: [] as number[],
  };
  for (const [i, edge] of edges.entries()) {
    const before = edges[i - 1];
    if (before === undefined || before.down === edge.down) continue;
    const length = edge.t_us - before.t_us;
    if (!edge.down) (length < timing.dotLimit_us ? lists.dot : lists.dash).push(length);
    else if (length < timing.letterFrom_us) lists.element.push(length);
    else (length < timing.wordFrom_us ? lists.letter : lists.word).push(length);
  }
  if (lists.dot.length + lists.dash.length === 0) return null;
  const dot = lists.dot.length > 0 ? meanOf(lists.dot) : meanOf(lists.dash) / 3;
  const unit = lists.element.length > 0 ? (dot + meanOf(lists.element)) / 2 : dot;
  return {
    wpm: 1.2e6 / unit,
    dot_us: dot,
    dot: kind(lists.dot, dot),
    dash: kind(lists.dash, dot),
    elementGap: kind(lists.element, dot),
    letterGap: kind(lists.letter, dot),
    wordGap: kind(lists.word, dot),
  };
}
