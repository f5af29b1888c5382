import type { Face } from '../kit/face.ts';
import { EDGE, FINE, type Op, shape, solid } from '../kit/ops.ts';
import { circle, rrect } from '../kit/path.ts';
import { rowAt, tapeWidth } from './tape.ts';

/** The punch block at the right end of a tape: five blocks, the ones chosen driven in. x, y is where the tape's upper edge meets it. */
export interface PunchSpec {
  x: number;
  y: number;
  pitch: number;
}

const ROWS = [0, 1, 3, 4, 5];

const liveOps = ({ x, y, pitch }: PunchSpec, code: number): Op[] =>
  ROWS.flatMap((row, unit) => {
    const cy = y + rowAt(row, pitch);
    const on = (code >> unit) & 1;
    const w = 1.1 * pitch;
    return [
      shape(
        rrect(x + (on ? 0.6 : 0.4) * pitch, cy - 0.3 * pitch, w, 0.6 * pitch, 0.22 * pitch),
        on ? 'ink' : 'g1',
        FINE,
      ),
      solid(circle(x + 2.05 * pitch, cy, (on ? 0.27 : 0.17) * pitch), 'ink'),
    ];
  });

/** Value: the code being cut, 0 at rest. */
export const punch: Face<PunchSpec, number> = {
  natural: { w: 48, h: 150 },
  staticOps: ({ x, y, pitch }) => {
    const h = tapeWidth(pitch);
    return [
      solid(rrect(x + 5, y - 0.55 * pitch + 6, 2.5 * pitch, h + 1.1 * pitch, 6), 'shade'),
      shape(rrect(x, y - 0.55 * pitch, 2.5 * pitch, h + 1.1 * pitch, 6), 'sheet', EDGE, 'ink', { snap: true }),
      solid(circle(x + 2.05 * pitch, y + rowAt(2, pitch), 0.12 * pitch), 'ink'),
    ];
  },
  liveOps,
  tileBox: ({ x, y, pitch }) => ({
    left: x + 0.3 * pitch,
    top: y,
    right: x + 2.4 * pitch + 2,
    bottom: y + tapeWidth(pitch),
  }),
};
