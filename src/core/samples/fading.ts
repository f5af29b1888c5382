/**
 * Fading of a sky-wave path: Watterson's model with two equal paths (ITU-R F.1487). Each path's gain is a complex normal
 * process with a Gaussian Doppler spectrum, made as a moving sum of dice, so it is a function of absolute time alone.
 */
import { exp } from '../numeric/elementary.ts';
import type { NormalSource } from './noise.ts';

/** A fading path. */
export interface Fading {
  /** Delay of the second path behind the first, seconds. 0 makes flat Rayleigh fading. */
  readonly delay_s: number;
  /** Doppler spread of each path, Hz: twice the standard deviation of its spectrum. Above 0. */
  readonly spread_Hz: number;
}

/** Conditions of ITU-R F.1487 for mid latitudes (figures from memory). */
export const MID_LATITUDE: Readonly<Record<'quiet' | 'moderate' | 'disturbed', Fading>> = {
  quiet: { delay_s: 0.0005, spread_Hz: 0.1 },
  moderate: { delay_s: 0.001, spread_Hz: 0.5 },
  disturbed: { delay_s: 0.002, spread_Hz: 1 },
};

// The kernel reaches this many of its own widths to each side; beyond it is under 4e-4 of its middle.
const REACH = 4;

/**
 * Complex gain of path 0 or 1 at an absolute time, mean power 1. Spectrum exp(-f²/2s²) needs a kernel exp(-4 pi² s² t²);
 * dice stand one kernel width apart, which puts the first image of the spectrum 60 dB down.
 */
export function pathGain(fading: Fading, path: 0 | 1, t_s: number, noise: NormalSource): readonly [number, number] {
  if (!(fading.spread_Hz > 0)) throw new RangeError(`Doppler spread must be above 0 Hz, got ${fading.spread_Hz}`);
  const width = 1 / (2 * Math.PI * (fading.spread_Hz / 2) * Math.SQRT2);
  const at = t_s / width;
  let re = 0;
  let im = 0;
  let power = 0;
  for (let k = Math.ceil(at - REACH); k <= at + REACH; k++) {
    const weight = exp(-0.5 * (at - k) * (at - k));
    power += weight * weight;
    re += weight * noise(4 * k + 2 * path);
    im += weight * noise(4 * k + 2 * path + 1);
  }
  const scale = Math.sqrt(0.5 / power);
  return [re * scale, im * scale];
}

/** Memory of a fading line; plain JSON. */
export interface FadingState {
  /** Absolute index of the next sample. */
  readonly sample: number;
  /** The last samples in, oldest first, for the delayed path. */
  readonly lateRe: readonly number[];
  readonly lateIm: readonly number[];
}

/** A line with nothing in it. */
export const fadingAtRest = (sample = 0): FadingState => ({ sample, lateRe: [], lateIm: [] });

function delayed(x: Float64Array, late: readonly number[], delay: number): Float64Array {
  const out = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) out[i] = i >= delay ? x[i - delay]! : (late[late.length + i - delay] ?? 0);
  return out;
}

const lastOf = (late: readonly number[], x: Float64Array, delay: number): number[] =>
  delay === 0 ? [] : [...late, ...x.subarray(Math.max(0, x.length - delay))].slice(-delay);

/** Gains are worked out this often and drawn straight between; at 10 Hz of spread the error is under 1 %. */
const GAIN_STEP_s = 0.004;

/** Puts fading on a block in place; mean power is kept. */
export function fadeInPlace(
  state: FadingState,
  re: Float64Array,
  im: Float64Array,
  rate: number,
  fading: Fading,
  noise: NormalSource,
): FadingState {
  const delay = Math.round(fading.delay_s * rate);
  const next = {
    sample: state.sample + re.length,
    lateRe: lastOf(state.lateRe, re, delay),
    lateIm: lastOf(state.lateIm, im, delay),
  };
  const dre = delayed(re, state.lateRe, delay);
  const dim = delayed(im, state.lateIm, delay);
  const paths = fading.delay_s > 0 ? 2 : 1;
  const scale = Math.sqrt(1 / paths);
  let step = -1;
  let [a0, a1, b0, b1] = [ZERO, ZERO, ZERO, ZERO];
  for (let i = 0; i < re.length; i++) {
    const t = (state.sample + i) / rate / GAIN_STEP_s;
    const now = Math.floor(t);
    if (now !== step || i === 0) {
      step = now;
      a0 = pathGain(fading, 0, now * GAIN_STEP_s, noise);
      a1 = pathGain(fading, 0, (now + 1) * GAIN_STEP_s, noise);
      b0 = paths === 2 ? pathGain(fading, 1, now * GAIN_STEP_s, noise) : ZERO;
      b1 = paths === 2 ? pathGain(fading, 1, (now + 1) * GAIN_STEP_s, noise) : ZERO;
    }
    const f = t - now;
    const [ar, ai] = [a0[0] + f * (a1[0] - a0[0]), a0[1] + f * (a1[1] - a0[1])];
    const [br, bi] = [b0[0] + f * (b1[0] - b0[0]), b0[1] + f * (b1[1] - b0[1])];
    const [x, y] = [re[i]!, im[i]!];
    re[i] = scale * (ar * x - ai * y + br * dre[i]! - bi * dim[i]!);
    im[i] = scale * (ar * y + ai * x + br * dim[i]! + bi * dre[i]!);
  }
  return next;
}

const ZERO: readonly [number, number] = [0, 0];
