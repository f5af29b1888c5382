/** Path strings: absolute M L C Q Z only, two decimals, so that bounds and snapping can read them back. */

export type Point = readonly [number, number];

/** Two decimals; a number that is not finite is a bug of the caller. */
export function num(v: number): string {
  if (!Number.isFinite(v)) throw new RangeError(`path number ${v}`);
  const r = Math.round(v * 100) / 100;
  return Object.is(r, -0) ? '0' : String(r);
}

const pt = (x: number, y: number): string => `${num(x)} ${num(y)}`;

/** A run of straight lines. */
export function poly(points: readonly Point[], close = false): string {
  return points.map(([x, y], i) => `${i ? 'L' : 'M'}${pt(x, y)}`).join('') + (close ? 'Z' : '');
}

/** One straight line. */
export const seg = (x1: number, y1: number, x2: number, y2: number): string =>
  poly([
    [x1, y1],
    [x2, y2],
  ]);

export const rect = (x: number, y: number, w: number, h: number): string =>
  poly(
    [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ],
    true,
  );

/** A rectangle with corner radii: top left, top right, bottom right, bottom left. */
export function corners(x: number, y: number, w: number, h: number, radii: readonly [number, number, number, number]) {
  const most = Math.min(w, h) / 2;
  const [a, b, c, d] = radii.map((r) => Math.min(r, most)) as [number, number, number, number];
  const k = 0.4477;
  const [x2, y2] = [x + w, y + h];
  return (
    `M${pt(x + a, y)}L${pt(x2 - b, y)}C${pt(x2 - b * k, y)} ${pt(x2, y + b * k)} ${pt(x2, y + b)}` +
    `L${pt(x2, y2 - c)}C${pt(x2, y2 - c * k)} ${pt(x2 - c * k, y2)} ${pt(x2 - c, y2)}` +
    `L${pt(x + d, y2)}C${pt(x + d * k, y2)} ${pt(x, y2 - d * k)} ${pt(x, y2 - d)}` +
    `L${pt(x, y + a)}C${pt(x, y + a * k)} ${pt(x + a * k, y)} ${pt(x + a, y)}Z`
  );
}

export const rrect = (x: number, y: number, w: number, h: number, r: number): string =>
  corners(x, y, w, h, [r, r, r, r]);

/** A point at a compass angle: 0 is up, clockwise. */
export function at(cx: number, cy: number, r: number, deg: number): Point {
  const a = (deg * Math.PI) / 180;
  return [cx + r * Math.sin(a), cy - r * Math.cos(a)];
}

/** Cubic pieces of at most 45 degrees along an ellipse from a0 to a1 (compass degrees), without the first M. */
function arcPieces(cx: number, cy: number, rx: number, ry: number, a0: number, a1: number): string {
  const n = Math.max(1, Math.ceil(Math.abs(a1 - a0) / 45));
  const step = ((a1 - a0) / n) * (Math.PI / 180);
  const k = (4 / 3) * Math.tan(step / 4);
  let out = '';
  for (let i = 0; i < n; i++) {
    const t = (a0 * Math.PI) / 180 + i * step;
    const [s, c, s2, c2] = [Math.sin(t), Math.cos(t), Math.sin(t + step), Math.cos(t + step)];
    out += `C${pt(cx + rx * (s + k * c), cy - ry * (c - k * s))} ${pt(cx + rx * (s2 - k * c2), cy - ry * (c2 + k * s2))} ${pt(cx + rx * s2, cy - ry * c2)}`;
  }
  return out;
}

const start = (cx: number, cy: number, rx: number, ry: number, deg: number): string => {
  const a = (deg * Math.PI) / 180;
  return `M${pt(cx + rx * Math.sin(a), cy - ry * Math.cos(a))}`;
};

/** An open arc between two compass angles. */
export const arc = (cx: number, cy: number, r: number, a0: number, a1: number): string =>
  start(cx, cy, r, r, a0) + arcPieces(cx, cy, r, r, a0, a1);

export const ellipse = (cx: number, cy: number, rx: number, ry: number): string =>
  `${start(cx, cy, rx, ry, 0)}${arcPieces(cx, cy, rx, ry, 0, 360)}Z`;

export const circle = (cx: number, cy: number, r: number): string => ellipse(cx, cy, r, r);

/** A piece of a ring between two radii and two compass angles. */
export function band(cx: number, cy: number, r0: number, r1: number, a0: number, a1: number): string {
  const [x, y] = at(cx, cy, r0, a1);
  return `${arc(cx, cy, r1, a0, a1)}L${pt(x, y)}${arcPieces(cx, cy, r0, r0, a1, a0)}Z`;
}

/** A cubic from one point to the next. */
export const curve = (from: Point, c1: Point, c2: Point, to: Point): string =>
  `M${pt(...from)}C${pt(...c1)} ${pt(...c2)} ${pt(...to)}`;

/** A smooth run through all points (Catmull-Rom, tension 1/6). */
export function smooth(points: readonly Point[], close = false): string {
  const n = points.length;
  const get = (i: number): Point => (close ? points[(i + n) % n]! : points[Math.max(0, Math.min(n - 1, i))]!);
  let out = `M${pt(...get(0))}`;
  for (let i = 0; i < (close ? n : n - 1); i++) {
    const [p0, p1, p2, p3] = [get(i - 1), get(i), get(i + 1), get(i + 2)];
    out += `C${pt(p1[0] + (p2[0] - p0[0]) / 6, p1[1] + (p2[1] - p0[1]) / 6)} ${pt(p2[0] - (p3[0] - p1[0]) / 6, p2[1] - (p3[1] - p1[1]) / 6)} ${pt(...p2)}`;
  }
  return close ? `${out}Z` : out;
}

/** Straight ticks across a ring, at the given compass angles. */
export const ticks = (cx: number, cy: number, r0: number, r1: number, angles: readonly number[]): string =>
  angles.map((a) => poly([at(cx, cy, r0, a), at(cx, cy, r1, a)])).join('');

/** n numbers from a to b, both ends taken. */
export const spread = (a: number, b: number, n: number): number[] =>
  Array.from({ length: n }, (_, i) => (n === 1 ? (a + b) / 2 : a + ((b - a) * i) / (n - 1)));
