import type { Ink } from './palette.ts';

/** `shade` is a cast shadow (a palette may drop it); `hatch` is a meaning (always drawn). Both are 45 degree lines of ink. */
export type Fill = Ink | 'shade' | 'hatch';

/** [a b c d e f] as in SVG and Canvas: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

export interface Style {
  fill?: Fill;
  stroke?: Ink;
  /** Line weight in sheet units. */
  w?: number;
  cap?: 'butt' | 'round';
  join?: 'miter' | 'round';
  /** Opacity 0 to 1, of fill and stroke. */
  o?: number;
  dash?: readonly number[];
  /** The painter may move every point to the device grid: for boxes and axis-parallel lines. */
  snap?: boolean;
}

/** A path: d holds only absolute M L C Q Z. */
export interface PathOp extends Style {
  d: string;
}

export interface TextOp {
  text: string;
  x: number;
  /** Baseline. */
  y: number;
  size: number;
  fill: Ink;
  bold?: boolean;
  mono?: boolean;
  anchor?: 'start' | 'middle' | 'end';
  o?: number;
}

export interface PushOp {
  push: { matrix?: Matrix; clip?: string };
}

export interface PopOp {
  pop: true;
}

export type Op = PathOp | TextOp | PushOp | PopOp;

/** Line weights: texture, detail, small objects, boxes and sheets. */
export const HAIR = 0.7;
export const FINE = 1.1;
export const LINE = 1.6;
export const EDGE = 2.4;

/** A filled path. */
export const solid = (d: string, fill: Fill, more: Style = {}): PathOp => ({ d, fill, ...more });

/** A stroked path, round caps and joins. */
export const line = (d: string, w: number = FINE, stroke: Ink = 'ink', more: Style = {}): PathOp => ({
  d,
  stroke,
  w,
  cap: 'round',
  join: 'round',
  ...more,
});

/** A filled and outlined path. */
export const shape = (d: string, fill: Fill, w: number = LINE, stroke: Ink = 'ink', more: Style = {}): PathOp => ({
  ...line(d, w, stroke, more),
  fill,
});

/** Words. 14 is the floor of type. */
export function words(
  text: string,
  x: number,
  y: number,
  more: Partial<Omit<TextOp, 'text' | 'x' | 'y'>> = {},
): TextOp {
  return { text, x, y, size: 14, fill: 'ink', ...more };
}

/** Draws ops inside a clip, a matrix or both. */
export const within = (push: PushOp['push'], ops: readonly Op[]): Op[] => [{ push }, ...ops, { pop: true }];

/** A turn of deg clockwise about a point. */
export function turn(deg: number, x: number, y: number): Matrix {
  const a = (deg * Math.PI) / 180;
  const [c, s] = [Math.cos(a), Math.sin(a)];
  return [c, s, -s, c, x - c * x + s * y, y - s * x - c * y];
}

/** Moves and scales: the drawing's origin comes to x, y. */
export const place = (x: number, y: number, kx = 1, ky = kx): Matrix => [kx, 0, 0, ky, x, y];

/** Applies `inner` first, then `outer`. */
export const times = (outer: Matrix, inner: Matrix): Matrix => {
  const [a, b, c, d, e, f] = outer;
  const [p, q, r, s, t, u] = inner;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
};
