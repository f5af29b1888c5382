/** Where things stand on the chart strip. */
import type { Debrief, Moment } from '../core/debrief/debrief.ts';

/** The strip is drawn at this size and scaled as one drawing. */
export const CHART = { w: 1232, left: 126, right: 1202 } as const;
/** A letter of 14 px type is about this wide. */
export const LETTER = 7.9;

/** Where an instant stands on the strip. */
export type Scale = (t_us: number) => number;

/** A scale from 0 to just past the last thing that was expected or happened. */
export function scaleOf({ end_us, moments }: Pick<Debrief, 'end_us' | 'moments'>): { x: Scale; last_us: number } {
  const last_us = Math.max(end_us, ...moments.map((m) => m.expected.to_us), 60e6) * 1.02;
  return { x: (t) => CHART.left + (Math.min(Math.max(t, 0), last_us) / last_us) * (CHART.right - CHART.left), last_us };
}

/** What stands off a line on a stem: where the stem is, and from where to where its box reaches. */
export type Stemmed = { at: number; from: number; to: number };

/** Least space between two boxes of a row. */
const BETWEEN = 8;

/**
 * Rows for boxes on stems, row 0 next to the line: no box lies on its neighbour, nor on the stem of one that stands farther
 * out, which must keep `clear` from it. They are placed in the order given; where no row is free, the one least in the way.
 */
export function inRows(all: readonly Stemmed[], rows: number, clear: number): number[] {
  const placed: (Stemmed & { row: number })[] = [];
  const crosses = (at: number, { from, to }: Stemmed) => at > from - clear && at < to + clear;
  const inTheWay = (me: Stemmed, row: number) =>
    placed.filter((p) => {
      if (p.row === row) return p.from < me.to + BETWEEN && me.from < p.to + BETWEEN;
      return p.row > row ? crosses(p.at, me) : crosses(me.at, p);
    }).length;
  for (const me of all) {
    const worst = Array.from({ length: rows }, (_, row) => inTheWay(me, row));
    placed.push({ ...me, row: worst.indexOf(Math.min(...worst)) });
  }
  return placed.map(({ row }) => row);
}

/** Whether a moment came out of turn: something that was to come after it had happened before. */
export function outOfTurn(moments: readonly Moment[], i: number): boolean {
  const me = moments[i]?.happened;
  return (
    me !== null &&
    me !== undefined &&
    moments.slice(i + 1).some((m) => m.happened !== null && m.happened.from_us < me.from_us)
  );
}
