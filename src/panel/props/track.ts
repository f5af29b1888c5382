import { FINE, HAIR, LINE, line, type Op, shape } from '../kit/ops.ts';
import { circle, type Point, poly } from '../kit/path.ts';

/** A printed track along which the signal meets the controls. */
export interface TrackSpec {
  /** Corners of the line; several lines make branches. */
  lines: readonly (readonly Point[])[];
  /** Weight of the signal line; default 6. In the whole view 4.6. */
  w?: number;
  /** Terminals: a small ring at these points, filled while the signal is in the track. */
  ends?: readonly Point[];
  /** Over the dark cut a sheet line runs under the green one. */
  onCut?: boolean;
}

/** Hollow when idle, sea-green when the signal is in it. A live op list: it belongs under the controls' tiles. */
export function trackOps({ lines, w = 6, ends = [], onCut = false }: TrackSpec, live: boolean): Op[] {
  const d = lines.map((l) => poly(l)).join('');
  const flat = { cap: 'butt', snap: true } as const;
  const rings = ends.map(([x, y]) => shape(circle(x, y, 5), live ? 'sea' : 'sheet', LINE));
  if (live)
    return [
      ...(onCut ? [line(d, w + 3, 'sheet', { cap: 'butt', snap: true, join: 'miter' })] : []),
      line(d, w, 'sea', { ...flat, join: 'miter' }),
      ...rings,
    ];
  return [
    line(d, Math.max(4, w - 1.4), onCut ? 'onCut' : 'ink', { ...flat, join: 'miter' }),
    line(d, Math.max(4, w - 1.4) - 2 * FINE, onCut ? 'cut' : 'sheet', { ...flat, join: 'miter' }),
    ...rings,
  ];
}

/** Two dash-dot lines tie elevation and plan, as on an engineer's sheet. */
export const tie = (points: readonly Point[]): Op =>
  line(poly(points), HAIR + 0.2, 'ink', { cap: 'butt', dash: [9, 3, 2, 3], snap: true });
