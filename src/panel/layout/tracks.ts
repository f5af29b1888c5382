/** Tracks as live pieces: hollow when idle; sea-green where a signal runs, solid ink where power stands. */
import type { Sight } from '../host.ts';
import { grow, inkBox } from '../kit/bounds.ts';
import { LINE, line, type Op, shape } from '../kit/ops.ts';
import { circle, type Point, poly } from '../kit/path.ts';
import { type TrackSpec, trackOps } from '../props/track.ts';
import { live, type Piece } from '../tiles.ts';

/** A signal track. */
export const signalTrack = (id: string, spec: TrackSpec, isLive: (s: Sight) => boolean): Piece =>
  live(id, grow(inkBox([...trackOps(spec, true), ...trackOps(spec, false)]), 1), isLive, (on) => trackOps(spec, on));

function barOps(lines: readonly (readonly Point[])[], ends: readonly Point[], on: boolean): Op[] {
  const d = lines.map((l) => poly(l)).join('');
  const flat = { cap: 'butt', snap: true, join: 'miter' } as const;
  return [
    line(d, on ? 5.4 : 4.6, 'ink', flat),
    ...(on ? [] : [line(d, 2.4, 'sheet', flat)]),
    ...ends.map(([x, y]) => shape(circle(x, y, 5), on ? 'ink' : 'sheet', LINE)),
  ];
}

/** A power bar: hollow when dead, solid when volts stand on it. */
export const powerBar = (
  id: string,
  lines: readonly (readonly Point[])[],
  ends: readonly Point[],
  isLive: (s: Sight) => boolean,
): Piece => live(id, grow(inkBox(barOps(lines, ends, true)), 2), isLive, (on) => barOps(lines, ends, on));
