/** Turning a complex signal by a steady frequency. */
import { cos, sin } from '../numeric/elementary.ts';

// A rotation by repeated multiplication gains under 1e-12 in this many steps; then it starts afresh from the exact phase.
const FRESH = 4096;

/** The part of a phase in turns that is left after whole turns: 0 up to 1. */
export const fraction = (turns: number): number => turns - Math.floor(turns);

/**
 * Shifts a signal up by `frequency` Hz in place (down if negative), from a phase in turns; returns the phase for the
 * sample after the last, so that blocks join.
 */
export function shiftBy(re: Float64Array, im: Float64Array, frequency: number, rate: number, phase = 0): number {
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
    re[i] = x * or - y * oi;
    im[i] = x * oi + y * or;
    const t = or * c - oi * s;
    oi = or * s + oi * c;
    or = t;
  }
  return fraction(phase + re.length * step);
}
