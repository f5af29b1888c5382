/** Noise for sample streams. The dice belong to the kernel: a source here is a function of an absolute index. */
import { cos, ln, sin } from '../numeric/elementary.ts';
import { dbToRatio } from '../quantity/quantity.ts';

/** Independent standard normal values by absolute index (a whole number, negative too): the same index, the same value. */
export type NormalSource = (index: number) => number;

/** A standard normal value from two uniform ones (Box & Muller 1958); `uniformA` in (0, 1], `uniformB` in [0, 1). */
export const gaussian = (uniformA: number, uniformB: number): number =>
  Math.sqrt(-2 * ln(Math.max(uniformA, 1e-300))) * cos(2 * Math.PI * uniformB);

/** Two independent standard normal values from two uniform ones. */
export function gaussianPair(uniformA: number, uniformB: number): readonly [number, number] {
  const r = Math.sqrt(-2 * ln(Math.max(uniformA, 1e-300)));
  return [r * cos(2 * Math.PI * uniformB), r * sin(2 * Math.PI * uniformB)];
}

/** Adds white complex noise in place: `power` is its mean |z|², over the whole sample rate; `first` is the absolute index of sample 0. */
export function addNoise(re: Float64Array, im: Float64Array, power: number, noise: NormalSource, first: number): void {
  const sigma = Math.sqrt(power / 2);
  for (let i = 0; i < re.length; i++) {
    re[i] = re[i]! + sigma * noise(2 * (first + i));
    im[i] = im[i]! + sigma * noise(2 * (first + i) + 1);
  }
}

/** Adds white real noise in place: `power` is its mean square; `first` is the absolute index of sample 0. */
export function addRealNoise(x: Float64Array, power: number, noise: NormalSource, first = 0): void {
  const sigma = Math.sqrt(power);
  for (let i = 0; i < x.length; i++) x[i] = x[i]! + sigma * noise(first + i);
}

/** Noise on a recording. */
export interface AddedNoise {
  /** Energy of one element over one-sided noise density, dB. */
  readonly ebN0_dB: number;
  readonly noise: NormalSource;
}

/** Scales in place so that no sample is beyond ±0.9. */
export function fitInPlace(x: Float64Array): void {
  let peak = 0;
  for (const v of x) peak = Math.max(peak, Math.abs(v));
  if (peak === 0) return;
  const gain = 0.9 / peak;
  for (let i = 0; i < x.length; i++) x[i] = x[i]! * gain;
}

/** Mean square of white noise over half the rate that gives an Eb/N0 with a tone of amplitude 1 and an element of a length. */
export const noisePower = (ebN0_dB: number, element_s: number, rate: number): number =>
  ((element_s / 2 / dbToRatio(ebN0_dB)) * rate) / 2;
