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

/** Places for labels of given middles and widths in one of three rows, so that none overlaps its neighbour: row 0 is lowest. */
export function inRows(labels: readonly { x: number; width: number }[], rows: number): number[] {
  const ends: number[] = new Array(rows).fill(-Infinity);
  return labels.map(({ x, width }) => {
    const free = ends.findIndex((end) => x - width / 2 > end + 8);
    const row = free >= 0 ? free : ends.indexOf(Math.min(...ends));
    ends[row] = x + width / 2;
    return row;
  });
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
