/** Where names can stand in a chart, neither cut by its frame nor crossed by what is drawn there. */
import type { Box } from './kit/bounds.ts';
import { textWidth } from './kit/metrics.ts';
import { type Op, solid, words } from './kit/ops.ts';
import { type Point, rrect } from './kit/path.ts';

/** Half height of a name's ground, and what it keeps of its place at either side. */
const HALF = 10;
const SIDE = 5;

const meets = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Boxes along a line of points, `far` to either side: what a name must keep clear of. */
export function alongside(points: readonly Point[], far: number): Box[] {
  const STEPS = 8;
  return points.slice(1).flatMap(([bx, by], i) => {
    const [ax, ay] = points[i]!;
    return Array.from({ length: STEPS + 1 }, (_, k): Box => {
      const [x, y] = [ax + ((bx - ax) * k) / STEPS, ay + ((by - ay) * k) / STEPS];
      return { left: x - far, top: y - far, right: x + far, bottom: y + far };
    });
  });
}

/** The names in one chart; each takes its place from the next. */
export class Labels {
  private readonly taken: Box[];

  constructor(
    private readonly area: Box,
    taken: readonly Box[],
  ) {
    this.taken = [...taken];
  }

  /** The name at the first of `spots` (middles) where it is whole and free, else where it meets least; moved inside if none is whole. */
  place(text: string, spots: readonly Point[], bold = false): Op[] {
    const half = textWidth(text, 14) / 2 + SIDE;
    const { area } = this;
    const boxAt = ([x, y]: Point): Box => ({ left: x - half, top: y - HALF, right: x + half, bottom: y + HALF });
    const inside = ([x, y]: Point): Point => [
      Math.max(area.left + half, Math.min(area.right - half, x)),
      Math.max(area.top + HALF, Math.min(area.bottom - HALF, y)),
    ];
    const met = (at: Point) => this.taken.filter((box) => meets(box, boxAt(at))).length;
    const whole = spots.filter((at) => inside(at).every((v, i) => v === at[i]));
    const all = whole.length ? whole : spots.map(inside);
    const at = all.reduce((best, spot) => (met(spot) < met(best) ? spot : best), all[0]!);
    this.taken.push(boxAt(at));
    return [
      solid(rrect(at[0] - half, at[1] - HALF, 2 * half, 2 * HALF, 3), 'sheet'),
      words(text, at[0], at[1] + 5, { anchor: 'middle', bold }),
    ];
  }
}
