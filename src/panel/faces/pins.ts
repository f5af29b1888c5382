import { type Box, grow } from '../kit/bounds.ts';
import type { Face, Labelled } from '../kit/face.ts';
import { textWidth } from '../kit/metrics.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { arc, circle, type Point } from '../kit/path.ts';

/** A board of holes, one for each word, and a pin in one of them. The first word stands under the rows of the others. x, y is the top left. */
export interface PinsSpec extends Labelled {
  x: number;
  y: number;
  words: readonly string[];
  /** From hole to hole, and from row to row. */
  pitch: number;
  row: number;
  /** Default 14; 0 prints no words. */
  size?: number;
  /** Distance of the label's baseline below y. */
  labelDrop?: number;
}

/** Holes in a row. */
export const PINS_A_ROW = 6;
const radius = (pitch: number): number => Math.min(6, 0.27 * pitch);

/** What belongs to each word: its hole and where it is printed. */
export function pinCells({ x, y, words: all, pitch, row }: PinsSpec): Box[] {
  const rows = Math.ceil((all.length - 1) / PINS_A_ROW);
  return all.map((_, i) => {
    if (i === 0)
      return {
        left: x,
        top: y + rows * row,
        right: x + 3 * pitch,
        bottom: y + rows * row + Math.min(row, 1.2 * pitch),
      };
    const [column, down] = [(i - 1) % PINS_A_ROW, Math.floor((i - 1) / PINS_A_ROW)];
    const [left, top] = [x + column * pitch, y + down * row];
    return { left, top, right: left + pitch, bottom: top + row };
  });
}

/** The hole of each word. */
export const pinHoles = (spec: PinsSpec): Point[] =>
  pinCells(spec).map(({ left, top, bottom }, i) => [
    left + spec.pitch / 2,
    i === 0 ? (top + bottom) / 2 : bottom - radius(spec.pitch) - 3,
  ]);

function printed(spec: PinsSpec, chosen: number): Op[] {
  const size = spec.size ?? 14;
  if (!size) return [];
  const r = radius(spec.pitch);
  return pinHoles(spec).map(([px, py], i) => {
    const style = { size, bold: i === chosen, fill: i === chosen ? 'ink' : 'ink2' } as const;
    return i === 0
      ? words(spec.words[0]!, px + spec.pitch / 2 + 2, py + 0.36 * size, style)
      : words(spec.words[i]!, px, py - r - 5, { ...style, anchor: 'middle' });
  });
}

/** The pin's head stands over its hole, lit from the upper left. */
const pin = (px: number, py: number, r: number): Op[] => [
  solid(circle(px + 0.35 * r, py + 0.4 * r, 1.25 * r), 'shade'),
  solid(circle(px, py, 1.25 * r), 'ink'),
  line(arc(px, py, 0.7 * r, 285, 345), r > 3 ? FINE : 0.6, 'sheet'),
];

const liveOps = (spec: PinsSpec, value: number): Op[] => {
  const chosen = Math.round(value);
  const [px, py] = pinHoles(spec)[chosen]!;
  return [...printed(spec, chosen), ...pin(px, py, radius(spec.pitch))];
};

/** Value: the index of the word. */
export const pins: Face<PinsSpec, number> = {
  natural: { w: 120, h: 94 },
  staticOps(spec) {
    const r = radius(spec.pitch);
    const holes = pinHoles(spec).map(([px, py]) => shape(circle(px, py, r), 'g1', r > 3 ? LINE : 0.8));
    const middle = spec.x + (PINS_A_ROW * spec.pitch) / 2;
    return spec.label
      ? [...holes, words(spec.label, middle, spec.y + (spec.labelDrop ?? -8), { bold: true, anchor: 'middle' })]
      : holes;
  },
  liveOps,
  tileBox(spec) {
    const cells = pinCells(spec);
    const right = Math.max(...cells.map((c) => c.right), spec.x + 1.6 * spec.pitch + textWidth(spec.words[0]!, 14));
    return grow({ left: spec.x, top: spec.y, right, bottom: Math.max(...cells.map((c) => c.bottom)) }, 2);
  },
};
