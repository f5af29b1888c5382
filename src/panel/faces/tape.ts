import type { Face } from '../kit/face.ts';
import { MONO } from '../kit/metrics.ts';
import { EDGE, FINE, LINE, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { circle, type Point, poly, rect, rrect } from '../kit/path.ts';

/** Five-unit tape drawn from its codes (unit 1 is bit 0, a hole is 1). All measures follow from the pitch. */
export interface Pitch {
  /** Distance between columns. */
  pitch: number;
}

/** Width of the tape in pitches. */
const WIDTH = 6.87;
/** Radius of a code hole and a feed hole, in pitches. */
const HOLE = 0.36;
const FEED = 0.215;

export const tapeWidth = (pitch: number): number => WIDTH * pitch;

/** Height of a row under the upper edge; row 2 is the feed, units are rows 0 1 3 4 5. */
export const rowAt = (row: number, pitch: number): number => (0.145 + 0.142 * row) * WIDTH * pitch;

const ROW_OF_UNIT = [0, 1, 3, 4, 5];

/** Holes of one column at x, upper edge y. */
export function holesAt(code: number, x: number, y: number, pitch: number): string {
  let d = '';
  for (let unit = 0; unit < 5; unit++)
    if ((code >> unit) & 1) d += circle(x, y + rowAt(ROW_OF_UNIT[unit]!, pitch), HOLE * pitch);
  return d;
}

/** The feed hole of one column. */
export const feedAt = (x: number, y: number, pitch: number): string => circle(x, y + rowAt(2, pitch), FEED * pitch);

/** How an end of a tape looks: the arrow of its leader, torn, or running on under something. */
export type TapeEnd = 'arrow' | 'torn' | 'on';

const TEETH: readonly Point[] = [
  [0, 0],
  [0.75, 0.13],
  [-0.35, 0.27],
  [0.4, 0.4],
  [-0.1, 0.55],
  [0.2, 0.72],
  [-0.25, 0.85],
  [0, 1],
];

/** Outline of a tape between x0 and x1, upper edge y. */
export function tapeOutline(x0: number, x1: number, y: number, pitch: number, left: TapeEnd, right: TapeEnd): Point[] {
  const h = tapeWidth(pitch);
  const torn = (x: number): Point[] => TEETH.map(([dx, dy]) => [x + dx * pitch, y + dy * h] as const);
  const l: Point[] =
    left === 'arrow'
      ? [
          [x0 + 2.3 * pitch, y + h],
          [x0, y + h / 2],
          [x0 + 2.3 * pitch, y],
        ]
      : left === 'torn'
        ? torn(x0).reverse()
        : [
            [x0, y + h],
            [x0, y],
          ];
  const r: Point[] =
    right === 'torn'
      ? torn(x1)
      : [
          [x1, y],
          [x1, y + h],
        ];
  return [...l, ...r];
}

export interface StripSpec {
  /** Where column 0 lies, upper edge, and the ends of the paper. */
  x: number;
  y: number;
  pitch: number;
  from: number;
  to: number;
  left: TapeEnd;
  right: TapeEnd;
}

/** A piece of tape with its holes; columns outside from..to are not drawn. Feed holes run along the whole paper. */
export function strip(spec: StripSpec, codes: readonly number[]): Op[] {
  const { x, y, pitch, from, to } = spec;
  const outline = tapeOutline(from, to, y, pitch, spec.left, spec.right);
  const cast = outline.map(([px, py]) => [px + 0.35 * pitch, py + 0.42 * pitch] as const);
  const first = Math.ceil((from + (spec.left === 'arrow' ? 1.1 : 0.3) * pitch - x) / pitch);
  const last = Math.floor((to - (spec.right === 'torn' ? 0.9 : 0.3) * pitch - x) / pitch);
  let holes = '';
  for (let i = first; i <= last; i++) {
    holes += feedAt(x + i * pitch, y, pitch);
    const code = codes[i];
    if (code) holes += holesAt(code, x + i * pitch, y, pitch);
  }
  return [
    solid(poly(cast, true), 'shade'),
    shape(poly(outline, true), 'sheet', pitch > 8 ? FINE + 0.2 : 0.9),
    ...(holes ? [solid(holes, 'ink')] : []),
  ];
}

/** A reader: tape runs to the left through a gate with a pin a unit. */
export interface ReaderSpec {
  /** Left end of the visible tape, upper edge. */
  x: number;
  y: number;
  /** 12 alone, 18.6 close up, 7 in the whole view. */
  pitch: number;
  /** Width of the visible stretch. */
  w: number;
  /** Centre of the gate from x. */
  gate: number;
  /** Print letters above; the row of type stands over the gate. */
  letters?: boolean;
}

export interface ReaderValue {
  codes: readonly number[];
  /** Column in the gate; fractions while it moves, length when the tape has run out; null without a tape. */
  at: number | null;
  /** The column in the gate goes out now. */
  live: boolean;
  /** What is printed above each column (with `letters`). */
  print?: readonly string[];
}

function gateOps({ x, y, pitch, gate }: ReaderSpec, code: number, live: boolean): Op[] {
  const gx = x + gate;
  const h = tapeWidth(pitch);
  const over = 0.75 * pitch;
  const big = pitch > 9;
  const pins = ROW_OF_UNIT.map((row, unit) => {
    const on = ((code >> unit) & 1) === 1;
    const d = circle(gx, y + rowAt(row, pitch), 0.38 * pitch);
    return shape(d, on ? (live ? 'sea' : 'ink') : 'sheet', big ? FINE + 0.2 : 0.8);
  });
  return [
    shape(
      rrect(gx - 1.42 * pitch, y - over, 2.84 * pitch, h + 2 * over, 0.4 * pitch),
      'sheet',
      big ? EDGE : LINE,
      'ink',
      { snap: true },
    ),
    ...pins,
  ];
}

function letterRow(spec: ReaderSpec, value: ReaderValue): Op[] {
  if (!spec.letters || !value.print || value.at === null) return [];
  const x0 = spec.x + spec.gate - value.at * spec.pitch;
  const size = Math.min(16, Math.floor(spec.pitch / MONO));
  return value.print.flatMap((text, i) => {
    const x = x0 + i * spec.pitch;
    if (!text || x < spec.x + spec.pitch || x > spec.x + spec.w - spec.pitch) return [];
    return [words(text, x, spec.y - 0.75 * spec.pitch - 7, { anchor: 'middle', bold: true, mono: true, size })];
  });
}

const readerOps = (spec: ReaderSpec, value: ReaderValue): Op[] => {
  const { x, y, pitch, w, gate } = spec;
  const h = tapeWidth(pitch);
  if (value.at === null) return gateOps(spec, 0, false);
  const x0 = x + gate - value.at * pitch;
  const [start, end] = [x0 - 6 * pitch, x0 + (value.codes.length + 6) * pitch];
  const [from, to] = [Math.max(x, start), Math.min(x + w, end)];
  const left = start > x ? 'arrow' : 'on';
  const right = end < x + w ? 'torn' : 'on';
  const clip = rect(x - 1, y - pitch - 2, w + 2 + pitch, h + 2 * pitch + 4);
  const paper = from < to ? within({ clip }, strip({ x: x0, y, pitch, from, to, left, right }, value.codes)) : [];
  const code = Number.isInteger(value.at) ? (value.codes[value.at] ?? 0) : 0;
  return [...paper, ...gateOps(spec, code, value.live), ...letterRow(spec, value)];
};

/** Value: the tape and how far it has gone. */
export const reader: Face<ReaderSpec, ReaderValue> = {
  natural: { w: 276, h: 110 },
  staticOps: () => [],
  liveOps: readerOps,
  tileBox: ({ x, y, pitch, w, letters }) => ({
    left: x - 2,
    top: y - pitch - 3 - (letters ? 24 : 0),
    right: x + w + pitch + 2,
    bottom: y + tapeWidth(pitch) + pitch + 4,
  }),
};
