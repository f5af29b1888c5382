import type { Face, Labelled } from '../kit/face.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { circle, rect, rrect, seg, ticks } from '../kit/path.ts';

/** The printer's slab: a window on the platen, a scale of 69 places, a carriage with a type wheel. x, y is its top left. */
export interface PrinterSpec extends Labelled {
  x: number;
  y: number;
  /** 574 x 96 close up (the keys go below, on the same slab), 132 x 50 alone. */
  w: number;
  h: number;
  /** The platen window, from x, y. */
  slot: { x: number; y: number; w: number; h: number };
  /** Height of the slab when it goes on below the platen (keyboard); default h. */
  slab?: number;
}

export interface PrinterValue {
  /** Place of the next character, 0 to 68. */
  column: number;
  /** Turn of the type wheel, degrees. */
  wheel: number;
  /** A character arrives now: the wheel's core is sea-green. */
  live: boolean;
}

const PLACES = 69;

const carriageSide = (h: number): number => (h > 44 ? 0.78 : 0.58) * h;

/** Centre of the carriage over a place. */
export function carriageX({ x, slot }: PrinterSpec, column: number): number {
  const side = 0.46 * slot.h;
  return x + slot.x + side + ((slot.w - 2 * side) * Math.max(0, Math.min(PLACES - 1, column))) / (PLACES - 1);
}

function staticOps(spec: PrinterSpec): Op[] {
  const { x, y, w, h, slot } = spec;
  const tall = spec.slab ?? h;
  const [sx, sy] = [x + slot.x, y + slot.y];
  const knobH = Math.min(34, 0.55 * h);
  const ky = y + Math.min(18, 0.22 * h);
  const big = slot.h > 40;
  const scaleY = sy + 0.45 * slot.h;
  let small = '';
  let tall5 = '';
  for (let i = 0; i < PLACES; i += big ? 1 : 3) {
    const cx = carriageX(spec, i);
    if (i % 10 === 0 && big) tall5 += seg(cx, scaleY, cx, scaleY + 0.13 * slot.h);
    else small += seg(cx, scaleY, cx, scaleY + 0.07 * slot.h);
  }
  const frame = rrect(sx, sy, slot.w, slot.h, 7);
  return [
    solid(rrect(x + 5, y + 6, w, tall, 6), 'shade'),
    solid(rrect(x - 9, ky, 14, knobH, 4) + rrect(x + w - 5, ky, 14, knobH, 4), 'cut', { snap: true }),
    shape(rrect(x, y, w, tall, 7), 'sheet', EDGE, 'ink', { snap: true }),
    solid(frame, 'g2', { snap: true }),
    ...within({ clip: frame }, [
      shape(rect(sx - 4, sy + 0.13 * slot.h, slot.w + 8, 0.32 * slot.h), 'sheet', FINE, 'ink', { snap: true }),
      line(small, big ? HAIR : FINE, 'ink', { cap: 'butt', snap: true }),
      ...(tall5 ? [line(tall5, FINE + 0.3, 'ink', { cap: 'butt', snap: true })] : []),
      line(seg(sx + 8, sy + 0.77 * slot.h, sx + slot.w - 8, sy + 0.77 * slot.h), big ? 3 : 2.4, 'ink', {
        cap: 'butt',
        snap: true,
      }),
    ]),
    line(frame, LINE, 'ink', { snap: true }),
    ...(spec.label ? [words(spec.label, x + 10, y + 21, { bold: true, size: 16 })] : []),
  ];
}

const liveOps = (spec: PrinterSpec, { column, wheel, live }: PrinterValue): Op[] => {
  const { y, slot } = spec;
  const side = carriageSide(slot.h);
  const cx = carriageX(spec, column);
  const cy = y + slot.y + 0.55 * slot.h;
  const r = 0.36 * side;
  const angles = Array.from({ length: 20 }, (_, i) => wheel + 18 * i);
  return [
    shape(rrect(cx - side / 2, cy - side / 2, side, side, 0.14 * side), 'sheet', side > 30 ? EDGE : LINE),
    ...(side > 22 ? [line(circle(cx, cy, r), FINE)] : []),
    line(ticks(cx, cy, 0.45 * r, 0.85 * r, angles), side > 30 ? FINE : HAIR, 'ink', { cap: 'butt' }),
    ...(live ? [solid(circle(cx, cy, 0.3 * r), 'sea')] : side > 22 ? [line(circle(cx, cy, 0.26 * r), FINE)] : []),
  ];
};

export const printer: Face<PrinterSpec, PrinterValue> = {
  natural: { w: 132, h: 50 },
  staticOps,
  liveOps,
  tileBox: (spec) => {
    const half = carriageSide(spec.slot.h) / 2 + 2.5;
    const cy = spec.y + spec.slot.y + 0.55 * spec.slot.h;
    return {
      left: carriageX(spec, 0) - half,
      top: cy - half,
      right: carriageX(spec, PLACES - 1) + half,
      bottom: cy + half,
    };
  },
};
