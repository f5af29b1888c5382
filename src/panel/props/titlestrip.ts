import { strip } from '../faces/tape.ts';
import type { Op } from '../kit/ops.ts';

/** KEYDOWN in the five-unit alphabet of ITU-T Rec. S.1, unit 1 = bit 0. */
export const KEYDOWN: readonly number[] = [0x0f, 0x01, 0x15, 0x09, 0x18, 0x13, 0x0c];

/** A piece of real tape with the name in it: x, y top left, torn at the right; its width follows from h. */
export function titleStrip(spec: { x: number; y: number; w: number; h: number; from?: number }, codes = KEYDOWN): Op[] {
  const pitch = spec.h / 6.87;
  const first = spec.x + (spec.from ?? 2.5 * pitch);
  return strip(
    { x: first, y: spec.y, pitch, from: spec.x, to: spec.x + spec.w - pitch, left: 'on', right: 'torn' },
    codes,
  );
}
