import { EDGE, type Op, shape, solid } from '../kit/ops.ts';
import { num } from '../kit/path.ts';

/** The sheet that opens when one looks inside a link: its tab folds up round the link's window and name in the ribbon. */
export interface InsideSpec {
  x: number;
  y: number;
  w: number;
  h: number;
  /** The tab's left edge and width; it rises `rise` above the sheet (38 reaches the names, 84 the windows). */
  tab: { x: number; w: number };
  rise?: number;
}

/** Outline, clockwise from the left end of the upper edge; the tab flares into the sheet. */
export function insidePath({ x, y, w, h, tab, rise = 38 }: InsideSpec): string {
  const r = 7;
  const k = 3;
  const p = (px: number, py: number): string => `${num(px)} ${num(py)}`;
  const [l, t] = [tab.x, y - rise];
  const e = tab.x + tab.w;
  const bend = (ax: number, ay: number, bx: number, by: number, to: string): string =>
    `C${p(ax, ay)} ${p(bx, by)} ${to}`;
  return (
    `M${p(x + r, y)}L${p(l - r, y)}${bend(l - k, y, l, y - k, p(l, y - r))}` +
    `L${p(l, t + r)}${bend(l, t + k, l + k, t, p(l + r, t))}L${p(e - r, t)}${bend(e - k, t, e, t + k, p(e, t + r))}` +
    `L${p(e, y - r)}${bend(e, y - k, e + k, y, p(e + r, y))}L${p(x + w - r, y)}${bend(x + w - k, y, x + w, y + k, p(x + w, y + r))}` +
    `L${p(x + w, y + h - r)}${bend(x + w, y + h - k, x + w - k, y + h, p(x + w - r, y + h))}L${p(x + r, y + h)}${bend(x + k, y + h, x, y + h - k, p(x, y + h - r))}` +
    `L${p(x, y + r)}${bend(x, y + k, x + k, y, p(x + r, y))}Z`
  );
}

/** The sheet with its shadow; what is inside is drawn over it. */
export const insideOps = (spec: InsideSpec): Op[] => [
  solid(insidePath({ ...spec, x: spec.x + 5, y: spec.y + 6, tab: { ...spec.tab, x: spec.tab.x + 5 } }), 'shade'),
  shape(insidePath(spec), 'sheet', EDGE, 'ink', { snap: true }),
];
