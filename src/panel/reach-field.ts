/** Lines and areas of a quantity over the reach chart's grid of hours and frequencies. */
import type { ReachChart } from '../core/drill.ts';
import type { Box } from './kit/bounds.ts';
import { type Point, poly } from './kit/path.ts';

/** Where hours and frequencies (MHz) stand in an area. */
export type Plot = { area: Box; x(hour: number): number; y(f_MHz: number): number };
/** What is known of one hour and frequency. */
export type Cell = ReachChart['cells'][number][number];
/** A quantity of a cell. */
export type Of = (cell: Cell) => number;

type Corner = { at: Point; v: number };

/** Squares of the grid between hours and frequencies that are known; hour 24 is hour 0 again. */
function squares({ x, y }: Plot, { cells, f_MHz }: ReachChart, of: Of): Corner[][] {
  const corner = (h: number, i: number): Corner => ({ at: [x(h), y(f_MHz[i]!)], v: of(cells[h % 24]![i]!) });
  const hours = cells.length === 24 ? 24 : cells.length - 1;
  const out: Corner[][] = [];
  for (let h = 0; h < hours; h++)
    for (let i = 0; i + 1 < f_MHz.length; i++)
      out.push([corner(h, i), corner(h + 1, i), corner(h + 1, i + 1), corner(h, i + 1)]);
  return out;
}

/** Where an edge passes the level, if it does. */
function cut(a: Corner, b: Corner, level: number): Point[] {
  if (a.v < level === b.v < level) return [];
  const t = (level - a.v) / (b.v - a.v);
  return [[a.at[0] + t * (b.at[0] - a.at[0]), a.at[1] + t * (b.at[1] - a.at[1])]];
}

const next = (square: Corner[], k: number): Corner => square[(k + 1) % 4]!;

/** Where the quantity passes a level: a piece through each square that it crosses. */
export function contour(plot: Plot, chart: ReachChart, of: Of, level: number): (readonly [a: Point, b: Point])[] {
  return squares(plot, chart, of).flatMap((square) => {
    const cuts = square.flatMap((a, k) => cut(a, next(square, k), level));
    return cuts.flatMap((p, k) => (k % 2 === 0 && cuts[k + 1] ? [[p, cuts[k + 1]!] as const] : []));
  });
}

/** The area where the quantity is at a level or over it, as one path; '' if there is none. */
export function areaFrom(plot: Plot, chart: ReachChart, of: Of, level: number): string {
  const part = (square: Corner[]): Point[] =>
    square.flatMap((a, k) => [...(a.v >= level ? [a.at] : []), ...cut(a, next(square, k), level)]);
  return squares(plot, chart, of)
    .map(part)
    .filter((points) => points.length > 2)
    .map((points) => poly(points, true))
    .join('');
}
