import type { Box } from '../kit/bounds.ts';
import { CAPITAL, textWidth, wrap } from '../kit/metrics.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { poly, rect, rrect, seg } from '../kit/path.ts';

/** A sheet of paper on the bench, turned a little. */
export interface SlipSpec {
  x: number;
  y: number;
  w: number;
  h: number;
  /** Degrees; an order lies a little askew. */
  tilt?: number;
}

/** Blank paper with its shadow. */
export function slipOps({ x, y, w, h, tilt = 0 }: SlipSpec, inside: readonly Op[] = []): Op[] {
  const matrix = turn(tilt, x + w / 2, y + h / 2);
  return [
    ...within({ matrix: turn(tilt, x + w / 2 + 5, y + h / 2 + 6) }, [solid(rect(x + 5, y + 6, w, h), 'shade')]),
    ...within({ matrix }, [shape(rect(x, y, w, h), 'sheet', LINE + 0.2, 'ink', { snap: true }), ...inside]),
  ];
}

/** An order: a heading over a rule, lines broken to the paper. Live where the words change. */
export function orderOps(spec: SlipSpec, title: string, text: string, leading = 19): Op[] {
  const { x, y, w } = spec;
  const lines = wrap(text, w - 28, 14);
  return slipOps({ tilt: -1.6, ...spec }, [
    words(title, x + 14, y + 27, { bold: true, size: 16 }),
    line(seg(x + 14, y + 36, x + w - 16, y + 36), FINE),
    ...lines.map((t, i) => words(t, x + 14, y + 58 + i * leading)),
  ]);
}

/** The slip that says what is next: a solid tab, a curled corner. */
export function nowOps({ x, y, w, h }: SlipSpec, tab: string, aside: string, text: string, leading = 20): Op[] {
  const c = 16;
  const outline = poly(
    [
      [x, y],
      [x + w, y],
      [x + w, y + h - c],
      [x + w - c, y + h],
      [x, y + h],
    ],
    true,
  );
  const curl = poly(
    [
      [x + w, y + h - c],
      [x + w - c - 1, y + h - c - 3],
      [x + w - c, y + h],
    ],
    true,
  );
  const tabW = textWidth(tab, 16) + 26;
  return [
    solid(rect(x + 5, y + 6, w, h), 'shade'),
    shape(outline, 'sheet', EDGE, 'ink', { snap: true }),
    shape(curl, 'g2', LINE),
    solid(rect(x - 1, y - 1, tabW, 25), 'cut', { snap: true }),
    words(tab, x + 12, y + 17, { bold: true, size: 16, fill: 'onCut' }),
    words(aside, x + tabW + 12, y + 17, { fill: 'ink2' }),
    ...wrap(text, w - 28, 14).map((t, i) => words(t, x + 14, y + 45 + i * leading)),
  ];
}

/** The station log: times at the left, entries at the right, never erased. */
export interface LogSpec extends SlipSpec {
  title?: string;
  leading?: number;
}

export function logSheet(spec: LogSpec): Op[] {
  const { x, y, w, h, leading = 23 } = spec;
  const head = 30;
  const rows = Math.floor((h - head - 1) / leading);
  const ruled = Array.from({ length: rows }, (_, i) => {
    const ry = y + head + (i + 1) * leading;
    return ry < y + h - 6 ? seg(x + 8, ry, x + w - 8, ry) : '';
  }).join('');
  return [
    solid(rrect(x + 4, y + 5, w, h, 4), 'shade'),
    shape(rrect(x, y, w, h, 4), 'sheet', LINE + 0.2, 'ink', { snap: true }),
    line(seg(x, y + head, x + w, y + head), LINE, 'ink', { cap: 'butt', snap: true }),
    line(seg(x + 66, y + head, x + 66, y + h), FINE, 'ink', { cap: 'butt', snap: true }),
    ...(ruled ? [line(ruled, HAIR, 'ink', { o: 0.75, snap: true })] : []),
    words(spec.title ?? 'Log', x + 14, y + 22, { bold: true, size: 16 }),
    words('UTC', x + w - 14, y + 22, { anchor: 'end', fill: 'ink2' }),
  ];
}

/** The last entries that fit, and a cursor in the next row. A live op list. */
export function logEntries(spec: LogSpec, entries: readonly { time: string; text: string }[], cursor = true): Op[] {
  const { x, y, h, leading = 23 } = spec;
  const rows = Math.floor((h - 31) / leading);
  const shown = entries.slice(Math.max(0, entries.length - rows + (cursor ? 1 : 0)));
  const base = (i: number): number => y + 30 + i * leading + leading / 2 + (CAPITAL * 14) / 2;
  const out = shown.flatMap((e, i): Op[] => [
    words(e.time, x + 12, base(i), { mono: true }),
    words(e.text, x + 76, base(i), { mono: true }),
  ]);
  if (cursor) out.push(solid(rect(x + 76, base(shown.length) - 12, 9, 14), 'ink', { snap: true }));
  return out;
}

/** Keys of the real keyboard in running text: a capped letter. Returns the ops and where the next word may begin. */
export function keyCap(text: string, x: number, baseline: number): { ops: Op[]; next: number } {
  const w = Math.max(24, textWidth(text, 14) + 14);
  return {
    ops: [
      shape(rrect(x, baseline - 17, w, 23, 4), 'sheet', LINE, 'ink', { snap: true }),
      line(seg(x + 4, baseline + 3, x + w - 4, baseline + 3), HAIR, 'ink', { snap: true }),
      words(text, x + w / 2, baseline, { bold: true, anchor: 'middle' }),
    ],
    next: x + w + 7,
  };
}

/** Warning triangle, w wide: radiates or can hurt. */
export function caution(x: number, y: number, w: number): Op[] {
  const h = 0.88 * w;
  const tri = poly(
    [
      [x, y - h / 2],
      [x + w / 2, y + h / 2],
      [x - w / 2, y + h / 2],
    ],
    true,
  );
  return [
    shape(tri, 'persimmon', 0.1 * w, 'persimmon'),
    line(seg(x, y - 0.12 * w, x, y + 0.13 * w), 0.1 * w, 'sheet'),
    solid(rect(x - 0.05 * w, y + 0.26 * w, 0.1 * w, 0.1 * w), 'sheet'),
  ];
}

/** Four corner brackets round the focused control, 6 off. */
export function focusOps(b: Box): Op[] {
  const [l, t, r, d] = [b.left - 6, b.top - 6, b.right + 6, b.bottom + 6];
  const k = 15;
  const c = (x: number, y: number, sx: number, sy: number): string =>
    poly([
      [x + sx * k, y],
      [x, y],
      [x, y + sy * k],
    ]);
  return [
    line(c(l, t, 1, 1) + c(r, t, -1, 1) + c(l, d, 1, -1) + c(r, d, -1, -1), 3, 'ink', {
      cap: 'butt',
      join: 'miter',
      snap: true,
    }),
  ];
}
