/**
 * Start-stop framing: a start unit of space, five units, then mark for the stop. Edges are the only truth of a line:
 * a list of transitions at whole microseconds, mark before the first.
 */
import { unitsOf } from './ita2.ts';

/** A transition of a line: from `t_us` on it is mark or it is space. */
export interface Edge {
  /** Whole microseconds. */
  readonly t_us: number;
  readonly mark: boolean;
}

/** Speeds in use, bauds (common practice; 45.45 Bd has 22 ms units, "60 words a minute"). */
export const SPEEDS_Bd: readonly number[] = [45.45, 50, 56.9, 74.2, 75, 100];
/** Lengths of the stop in use, units. */
export const STOPS_units: readonly number[] = [1, 1.42, 1.5];

/** Length of one unit in microseconds, not rounded. Throws RangeError unless bauds and speed are above 0. */
export function unit_us(baud: number, speedError = 0): number {
  const rate = baud * (1 + speedError);
  if (!(rate > 0 && Number.isFinite(rate)))
    throw new RangeError(`no unit at ${baud} Bd with speed error ${speedError}`);
  return 1e6 / rate;
}

/** Words a minute of steady sending, six characters to a word. */
export const wordsPerMinute = (baud: number, stop_units: number): number => (baud * 60) / (6 + stop_units) / 6;

/**
 * Transitions of one character that starts at `t0_us` on a line at mark, and the instant its stop ends.
 * `speedError` is a fraction: +0.01 is a motor one percent fast.
 */
export function charEdges(
  code: number,
  t0_us: number,
  baud: number,
  stop_units: number,
  speedError = 0,
): { readonly edges: readonly Edge[]; readonly end_us: number } {
  const unit = unit_us(baud, speedError);
  const levels = [false, ...unitsOf(code), true];
  const edges: Edge[] = [];
  let mark = true;
  for (const [k, level] of levels.entries()) {
    if (level !== mark) edges.push({ t_us: t0_us + Math.round(k * unit), mark: level });
    mark = level;
  }
  return { edges, end_us: t0_us + Math.round((6 + stop_units) * unit) };
}

/** Transitions of codes sent without a pause from `t0_us`; instants are rounded from the exact ones, so nothing drifts. */
export function codesEdges(
  codes: readonly number[],
  t0_us: number,
  baud: number,
  stop_units: number,
  speedError = 0,
): { readonly edges: readonly Edge[]; readonly end_us: number } {
  const length = (6 + stop_units) * unit_us(baud, speedError);
  const edges = codes.flatMap(
    (code, i) => charEdges(code, t0_us + Math.round(i * length), baud, stop_units, speedError).edges,
  );
  return { edges, end_us: t0_us + Math.round(codes.length * length) };
}

/** The same line with mark and space exchanged. */
export const invertEdges = (edges: readonly Edge[]): Edge[] => edges.map((e) => ({ t_us: e.t_us, mark: !e.mark }));

/** Level of a line at an instant; an edge at that very instant has happened. `before` is the level ahead of the list. */
export function levelAt(edges: readonly Edge[], t_us: number, before = true): boolean {
  let low = 0;
  let high = edges.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (edges[middle]!.t_us <= t_us) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? before : edges[low - 1]!.mark;
}

/** Within a character the line stands at mark for four units at most, so a longer rest ends in a start. */
const REST_units = 4.5;
/** A character and a stop of one unit are as long; the next start comes no sooner. */
const CHARACTER_units = 7;

/**
 * Indices of the edges that can be the first true start of a stretch of line: its first edge to space alone if the line is
 * seen at rest before it, else that and every other less than a character after. `unit` in microseconds. Empty for no edge to space.
 */
export function startsOf(edges: readonly Edge[], unit: number): number[] {
  const first = edges.findIndex((e) => !e.mark);
  if (first < 0) return [];
  const t_us = edges[first]!.t_us;
  const before = edges[first - 1];
  if (before && t_us - before.t_us >= REST_units * unit) return [first];
  return edges.flatMap((e, i) =>
    !e.mark && e.t_us >= t_us && e.t_us < t_us + (CHARACTER_units - 0.1) * unit ? [i] : [],
  );
}
