/** Filters: Butterworth low-pass as biquads, linear-phase FIR by windowed sinc. Taps and sections are plain numbers. */
import { cos, sin, tan } from '../numeric/elementary.ts';
import { sinc } from '../numeric/special.ts';

/** One second-order section with a0 = 1: y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y''. */
export interface Biquad {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

function checkCut(cut: number, rate: number): void {
  if (!(cut > 0 && cut < rate / 2))
    throw new RangeError(`cut-off ${cut} Hz must be above 0 and under half of ${rate} Hz`);
}

/** Butterworth low-pass of even order, 3.01 dB down at `cut` Hz, by the bilinear transform with its frequency corrected. */
export function butterworthLowPass(order: number, cut: number, rate: number): Biquad[] {
  checkCut(cut, rate);
  if (!(order >= 2 && order % 2 === 0)) throw new RangeError(`order must be even from 2, got ${order}`);
  const w = tan((Math.PI * cut) / rate);
  return Array.from({ length: order / 2 }, (_, k) => {
    const damping = 2 * sin((Math.PI * (2 * k + 1)) / (2 * order));
    const a0 = 1 + damping * w + w * w;
    const g = (w * w) / a0;
    return { b0: g, b1: 2 * g, b2: g, a1: (2 * (w * w - 1)) / a0, a2: (1 - damping * w + w * w) / a0 };
  });
}

/** Memory of a cascade: two numbers a section. */
export const restOf = (sections: readonly Biquad[]): number[] => new Array(2 * sections.length).fill(0);

/** Filters a real signal in place through a cascade; `memory` is read and left ready for the next block. */
export function filterInPlace(x: Float64Array, sections: readonly Biquad[], memory: number[]): void {
  for (let k = 0; k < sections.length; k++) {
    const { b0, b1, b2, a1, a2 } = sections[k]!;
    let p = memory[2 * k]!;
    let q = memory[2 * k + 1]!;
    for (let i = 0; i < x.length; i++) {
      const v = x[i]!;
      const y = b0 * v + p;
      p = b1 * v - a1 * y + q;
      q = b2 * v - a2 * y;
      x[i] = y;
    }
    memory[2 * k] = p;
    memory[2 * k + 1] = q;
  }
}

/** Filters both parts of a complex signal as filterInPlace does each; side by side they take little longer than one, which waits for itself. */
export function filterComplex(
  re: Float64Array,
  im: Float64Array,
  sections: readonly Biquad[],
  mI: number[],
  mQ: number[],
): void {
  for (let k = 0; k < sections.length; k++) {
    const { b0, b1, b2, a1, a2 } = sections[k]!;
    let [p, q] = [mI[2 * k]!, mI[2 * k + 1]!];
    let [r, s] = [mQ[2 * k]!, mQ[2 * k + 1]!];
    for (let i = 0; i < re.length; i++) {
      const v = re[i]!;
      const w = im[i]!;
      const y = b0 * v + p;
      const z = b0 * w + r;
      p = b1 * v - a1 * y + q;
      r = b1 * w - a1 * z + s;
      q = b2 * v - a2 * y;
      s = b2 * w - a2 * z;
      re[i] = y;
      im[i] = z;
    }
    mI[2 * k] = p;
    mI[2 * k + 1] = q;
    mQ[2 * k] = r;
    mQ[2 * k + 1] = s;
  }
}

const square = (x: number): number => x * x;

/** Power gain of a cascade at a frequency, 0..1. */
export function cascadeGain(sections: readonly Biquad[], frequency: number, rate: number): number {
  const w = (2 * Math.PI * frequency) / rate;
  const [c1, s1, c2, s2] = [cos(w), sin(w), cos(2 * w), sin(2 * w)];
  return sections.reduce((gain, { b0, b1, b2, a1, a2 }) => {
    const above = square(b0 + b1 * c1 + b2 * c2) + square(b1 * s1 + b2 * s2);
    const below = square(1 + a1 * c1 + a2 * c2) + square(a1 * s1 + a2 * s2);
    return (gain * above) / below;
  }, 1);
}

/** Group delay of a cascade at 0 Hz, samples: minus the slope of its phase, section by section. */
export const delayAtZero = (sections: readonly Biquad[]): number =>
  sections.reduce(
    (sum, { b0, b1, b2, a1, a2 }) => sum + (b1 + 2 * b2) / (b0 + b1 + b2) - (a1 + 2 * a2) / (1 + a1 + a2),
    0,
  );

/** Low-pass taps by sinc under a Hamming window, gain 1 at 0 Hz, 6 dB down at `cut` Hz; an odd count keeps the delay whole. */
export function firLowPass(taps: number, cut: number, rate: number): number[] {
  checkCut(cut, rate);
  if (!(taps >= 3 && taps % 2 === 1)) throw new RangeError(`taps must be odd from 3, got ${taps}`);
  const middle = (taps - 1) / 2;
  const raw = Array.from(
    { length: taps },
    (_, i) => sinc((2 * cut * (i - middle)) / rate) * (0.54 - 0.46 * cos((2 * Math.PI * i) / (taps - 1))),
  );
  const sum = raw.reduce((a, b) => a + b, 0);
  return raw.map((x) => x / sum);
}

/** Filters a real signal through taps; `history` holds the last taps - 1 inputs, oldest first, and is left ready for the next block. */
export function firRun(x: Float64Array, taps: readonly number[], history: number[]): Float64Array {
  const keep = taps.length - 1;
  const line = new Float64Array(keep + x.length);
  line.set(history.slice(-keep), keep - Math.min(keep, history.length));
  line.set(x, keep);
  const out = new Float64Array(x.length);
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    for (let k = 0; k <= keep; k++) sum += taps[k]! * line[i + keep - k]!;
    out[i] = sum;
  }
  history.length = 0;
  for (let i = line.length - keep; i < line.length; i++) history.push(line[i]!);
  return out;
}
