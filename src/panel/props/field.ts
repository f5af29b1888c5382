import { line, type Op } from '../kit/ops.ts';
import { type Point, smooth } from '../kit/path.ts';

/**
 * Field lines of a short vertical current over perfect ground (Hertz 1889; any antenna text): contours of
 * sin²θ (cos u / kr + sin u), u = kr - ωt. On a contour of level c, sin²θ = c / F(r), so each run of r where F exceeds c
 * is one line that stands on the ground at both ends. The wavelength is not to scale.
 */
export interface FieldSpec {
  /** Foot of the whip. */
  x: number;
  y: number;
  /** Drawn wavelength. */
  wavelength: number;
  /** Farthest radius drawn. */
  reach: number;
  /** Turns of the carrier, 0 to 1: the lines walk outward as it grows. */
  phase: number;
  /** Levels of contour; the first is the thin outer one. Default 0.24 and 0.62. */
  levels?: readonly number[];
  /** Height over width of the drawing; 1 keeps circles, more lifts them. Default 1. */
  lift?: number;
}

/** Radii at which F passes the level, found on a grid and halved twelve times. */
function runs(f: (r: number) => number, level: number, from: number, to: number): [number, number][] {
  const step = (to - from) / 600;
  const above = (r: number): boolean => f(r) > level;
  const cross = (a: number, b: number): number => {
    const up = above(b);
    for (let i = 0; i < 12; i++) {
      const m = (a + b) / 2;
      if (above(m) === up) b = m;
      else a = m;
    }
    return (a + b) / 2;
  };
  const out: [number, number][] = [];
  let open: number | null = above(from) ? from : null;
  for (let r = from; r < to; r += step) {
    const [now, next] = [above(r), above(r + step)];
    if (!now && next) open = cross(r, r + step);
    if (now && !next && open !== null) {
      out.push([open, cross(r, r + step)]);
      open = null;
    }
  }
  if (open !== null) out.push([open, to]);
  return out;
}

/** One line to the right of the whip, from its outer foot to its inner one. */
function contour(f: (r: number) => number, level: number, [a, b]: [number, number], n = 25): Point[] {
  return Array.from({ length: n }, (_, i) => {
    const r = (a + b) / 2 + ((b - a) / 2) * Math.cos((Math.PI * i) / (n - 1));
    const s = Math.min(1, Math.sqrt(level / Math.max(level, f(r))));
    return [r * s, r * Math.sqrt(Math.max(0, 1 - s * s))] as const;
  });
}

/** Points of every line right of the whip, in sheet units from its foot, y up. Level is kept for the weight. */
export function fieldLines(spec: FieldSpec): { level: number; points: Point[] }[] {
  const k = (2 * Math.PI) / spec.wavelength;
  const wt = 2 * Math.PI * spec.phase;
  const near = spec.wavelength * 0.06;
  return (spec.levels ?? [0.24, 0.62]).flatMap((level) =>
    [1, -1].flatMap((sign) => {
      const f = (r: number): number => sign * (Math.cos(k * r - wt) / (k * r) + Math.sin(k * r - wt));
      return runs(f, level, near, spec.reach).map((run) => ({ level, points: contour(f, level, run) }));
    }),
  );
}

/** Both sides, in persimmon: it radiates. */
export function fieldOps(spec: FieldSpec, weight = 1): Op[] {
  const lift = spec.lift ?? 1;
  return fieldLines(spec).map(({ level, points }) => {
    const side = (s: number): string => smooth(points.map(([x, y]) => [spec.x + s * x, spec.y - lift * y] as const));
    return line(side(1) + side(-1), (level < 0.4 ? 1.5 : 2.6) * weight, 'persimmon');
  });
}
