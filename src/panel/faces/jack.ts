import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { circle, type Point, rrect, smooth } from '../kit/path.ts';

/** A socket: three rings. x, y is its centre; r 20 alone, 13 in a row, 9 in the whole view. */
export interface JackSpec extends Labelled {
  x: number;
  y: number;
  r: number;
  /** Default above. */
  side?: 'above' | 'under';
}

/** A socket never moves; what is plugged into it belongs to the cord. */
export function jackOps({ x, y, r, label, side }: JackSpec): Op[] {
  const w = r > 15 ? LINE : 1.3;
  const drop = side === 'under' ? r + 19 : -r - 8;
  return [
    shape(circle(x, y, r), 'sheet', w),
    shape(circle(x, y, 0.62 * r), 'g1', w - 0.3),
    solid(circle(x, y, 0.32 * r), 'ink'),
    ...(label ? [words(label, x, y + drop, { anchor: 'middle' })] : []),
  ];
}

/** A cord between two sockets. */
export interface CordSpec {
  a: Point;
  b: Point;
  /** Radius of the sockets. */
  r: number;
  /** Length of the cord over the straight distance; default 1.9. */
  slack?: number;
}

export type CordState = 'out' | 'patched' | 'live';

/** Half width over parameter of the catenary of length L over span h and drop v: sqrt(L² - v²) = 2a sinh(h / 2a). */
function parameter(h: number, v: number, length: number): number {
  const want = Math.sqrt(length * length - v * v);
  let [lo, hi] = [h / 40, h * 40];
  for (let i = 0; i < 60; i++) {
    const a = (lo + hi) / 2;
    if (2 * a * Math.sinh(h / (2 * a)) > want) lo = a;
    else hi = a;
  }
  return (lo + hi) / 2;
}

/** Points of a hanging cord, y down. Two ends one above the other get a narrow loop. */
export function catenary(from: Point, to: Point, length: number, n = 13): Point[] {
  const [a, b] = from[0] <= to[0] ? [from, to] : [to, from];
  const h = Math.max(4, b[0] - a[0]);
  const v = b[1] - a[1];
  const p = parameter(h, v, Math.max(length, Math.hypot(h, v) * 1.02));
  // Lowest at x0, from z(h) - z(0) = 2 a sinh(h / 2a) sinh((h/2 - x0) / a); y down turns the sign of v.
  const x0 = h / 2 + p * Math.asinh(v / (2 * p * Math.sinh(h / (2 * p))));
  const y = (x: number): number => -p * Math.cosh((x - x0) / p);
  return Array.from({ length: n }, (_, i) => {
    const t = (1 - Math.cos((Math.PI * i) / (n - 1))) / 2;
    return [a[0] + t * (b[0] - a[0]), a[1] + y(t * h) - y(0)] as const;
  });
}

const plug = ([x, y]: Point, r: number): Op => solid(rrect(x - 0.4 * r, y - 0.9 * r, 0.8 * r, 1.8 * r, 0.2 * r), 'ink');

const liveOps = ({ a, b, r, slack = 1.9 }: CordSpec, state: CordState): Op[] => {
  if (state === 'out') return [];
  const [p, q]: [Point, Point] = [
    [a[0], a[1] + 0.7 * r],
    [b[0], b[1] + 0.7 * r],
  ];
  const d = smooth(catenary(p, q, slack * Math.hypot(q[0] - p[0], q[1] - p[1])));
  const w = 0.38 * r + 1;
  return [line(d, w + 2.4, 'ink'), line(d, w - 0.4, state === 'live' ? 'sea' : 'sheet'), plug(a, r), plug(b, r)];
};

/** Value: out (nothing drawn), patched, or live (a signal runs in it). */
export const cord: Face<CordSpec, CordState> = {
  natural: { w: 116, h: 90 },
  staticOps: () => [],
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, ['patched', 'live'], 2),
};
