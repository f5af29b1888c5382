/** Where a control is touched. */
import type { Control } from '../core/station/box.ts';
import type { Box } from './kit/bounds.ts';
import type { Spot } from './layout/layout.ts';

const LEAST = 32;

/** Where a face is touched: its ink, at least 32 square. */
export function hitBox(control: Control, spot: Spot): Box {
  if (spot.hit) return spot.hit;
  const { x, y, s } = spot;
  const face = spot.as ?? control.face;
  const around = (l: number, t: number, r: number, b: number): Box => ({
    left: x - l,
    top: y - t,
    right: x + r,
    bottom: y + b,
  });
  const box =
    face === 'tiller'
      ? around(0.95 * s, 1.15 * s + 6, 0.95 * s, 0.3 * s)
      : face === 'plunger'
        ? around(0.6 * s, 1.25 * s, 0.6 * s, 0.5 * s)
        : face === 'pins'
          ? around(0, 0, 6 * s, 3 * (spot.h ?? 34))
          : face === 'limpet' || face === 'fine'
            ? around(1.2 * s, 1.2 * s, 1.2 * s, 1.2 * s)
            : face === 'caged'
              ? around(s, s, s, 1.3 * s)
              : face === 'key'
                ? around(0, 0, 0.62 * s, s)
                : face === 'microphone'
                  ? around(0.34 * s, 0, 0.34 * s, 1.05 * s)
                  : face === 'fuse'
                    ? around(0.58 * s, 0.32 * s, 0.58 * s, 0.32 * s)
                    : face === 'push'
                      ? around(0.55 * s, 0.55 * s, 0.55 * s, 0.55 * s)
                      : around(s, s, s, s);
  const [dx, dy] = [Math.max(0, LEAST - (box.right - box.left)) / 2, Math.max(0, LEAST - (box.bottom - box.top)) / 2];
  return { left: box.left - dx, top: box.top - dy, right: box.right + dx, bottom: box.bottom + dy };
}
