import { CAPITAL } from '../kit/metrics.ts';
import { EDGE, FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { corners, num, rect, rrect, seg } from '../kit/path.ts';

/** A box: a sheet hung by two hooks on a rail, a brow with name and present value, one clipped corner. */
export interface SlabSpec {
  x: number;
  y: number;
  w: number;
  h: number;
  name: string;
  /** Which corner is clipped; default bottom left. */
  clip?: 'left' | 'right' | 'none';
  /** Centres of the hooks from x; default at 1/8 and 7/8. */
  hooks?: readonly number[];
  /** Height of the brow; 28 close up, 24 in the whole view. */
  brow?: number;
}

/** The sheet's outline. */
export function slabPath({ x, y, w, h, clip = 'left' }: SlabSpec): string {
  const r = 5;
  const c = Math.min(20, 0.12 * h + 4);
  if (clip === 'none') return rrect(x, y, w, h, r);
  const k = 0.45 * r;
  const n = num;
  const top = `M${n(x)} ${n(y + r)}C${n(x)} ${n(y + k)} ${n(x + k)} ${n(y)} ${n(x + r)} ${n(y)}L${n(x + w - r)} ${n(y)}C${n(x + w - k)} ${n(y)} ${n(x + w)} ${n(y + k)} ${n(x + w)} ${n(y + r)}`;
  if (clip === 'right')
    return `${top}L${n(x + w)} ${n(y + h - c)}L${n(x + w - c)} ${n(y + h)}L${n(x + r)} ${n(y + h)}C${n(x + k)} ${n(y + h)} ${n(x)} ${n(y + h - k)} ${n(x)} ${n(y + h - r)}Z`;
  return `${top}L${n(x + w)} ${n(y + h - r)}C${n(x + w)} ${n(y + h - k)} ${n(x + w - k)} ${n(y + h)} ${n(x + w - r)} ${n(y + h)}L${n(x + c)} ${n(y + h)}L${n(x)} ${n(y + h - c)}Z`;
}

/** A rail along the wall from x to x + w. */
export const rail = (x: number, y: number, w: number): Op[] => [
  shape(rect(x, y, w, 5.5), 'sheet', FINE, 'ink', { snap: true }),
];

function hook(x: number, y: number): Op[] {
  return [
    shape(corners(x - 5, y - 12, 10, 14, [5, 5, 0, 0]), 'sheet', LINE, 'ink', { snap: true }),
    line(seg(x, y - 8.5, x, y - 6), FINE, 'sheet'),
  ];
}

/** The box without its controls; the brow's value is live (`slabValue`). */
export function slabOps(spec: SlabSpec): Op[] {
  const { x, y, w, brow = 28 } = spec;
  const hooks = spec.hooks ?? [w / 8, (7 * w) / 8];
  const size = 16;
  return [
    solid(slabPath({ ...spec, x: x + 5, y: y + 6 }), 'shade'),
    ...hooks.flatMap((dx) => hook(x + dx, y)),
    shape(slabPath(spec), 'sheet', EDGE, 'ink', { snap: true }),
    line(seg(x + 1, y + brow, x + w - 1, y + brow), FINE, 'ink', { snap: true, o: 0.85 }),
    words(spec.name, x + 10, y + brow / 2 + (CAPITAL * size) / 2, { bold: true, size }),
  ];
}

/** The present value in the brow, right-hand side; a live op. */
export function slabValue({ x, y, w, brow = 28 }: SlabSpec, text: string): Op[] {
  const size = brow < 28 ? 14 : 16;
  return text
    ? [words(text, x + w - 10, y + brow / 2 + (CAPITAL * size) / 2, { mono: true, size, anchor: 'end' })]
    : [];
}
