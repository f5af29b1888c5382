/** Turning a complex signal by a steady frequency. */
import { cos, sin } from '../numeric/elementary.ts';

// A rotation by repeated multiplication gains under 1e-12 in this many steps; then it starts afresh from the exact phase.
const FRESH = 4096;

/** The part of a phase in turns that is left after whole turns: 0 up to 1. */
export const fraction = (turns: number): number => turns - Math.floor(turns);

/**
 * Shifts a signal up by `frequency` Hz (down if negative), from a phase in turns, into `toRe` and `toIm`, which may be the
 * signal's own; returns the phase for the sample after the last, so that blocks join.
 */
export function shiftInto(
  toRe: Float64Array,
  toIm: Float64Array,
  re: Float64Array,
  im: Float64Array,
  frequency: number,
  rate: number,
  phase: number,
): number {
  const step = frequency / rate;
  const c = cos(2 * Math.PI * step);
  const s = sin(2 * Math.PI * step);
  let or = 1;
  let oi = 0;
  for (let i = 0; i < re.length; i++) {
    if (i % FRESH === 0) {
      const angle = 2 * Math.PI * fraction(phase + i * step);
      or = cos(angle);
      oi = sin(angle);
    }
    const x = re[i]!;
    const y = im[i]!;
    toRe[i] = x * or - y * oi;
    toIm[i] = x * oi + y * or;
    const t = or * c - oi * s;
    oi = or * s + oi * c;
    or = t;
  }
  return fraction(phase + re.length * step);
}

/** Shifts a signal in place as shiftInto does; no shift from phase 0 leaves it alone. */
export const shiftBy = (re: Float64Array, im: Float64Array, frequency: number, rate: number, phase = 0): number =>
  frequency === 0 && phase === 0 ? 0 : shiftInto(re, im, re, im, frequency, rate, phase);
