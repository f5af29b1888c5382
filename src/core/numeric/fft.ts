/** Fast Fourier transform of complex signals whose length is a power of two. */
import { cos, sin } from './elementary.ts';

interface Twiddles {
  readonly c: Float64Array;
  readonly s: Float64Array;
}

const known = new Map<number, Twiddles>();

function twiddles(n: number): Twiddles {
  const made = known.get(n) ?? makeTwiddles(n);
  known.set(n, made);
  return made;
}

function makeTwiddles(n: number): Twiddles {
  const c = new Float64Array(n / 2);
  const s = new Float64Array(n / 2);
  for (let k = 0; k < n / 2; k++) {
    c[k] = cos((2 * Math.PI * k) / n);
    s[k] = sin((2 * Math.PI * k) / n);
  }
  return { c, s };
}

function reverseBits(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j]!, re[i]!];
      [im[i], im[j]] = [im[j]!, im[i]!];
    }
  }
}

/**
 * Forward transform in place, sum of x(n) e^(-j 2 pi k n / N), not scaled. Throws RangeError unless both arrays have the
 * same power-of-two length from 2.
 */
export function fft(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  if (n < 2 || (n & (n - 1)) !== 0 || im.length !== n) throw new RangeError(`FFT lengths ${n} and ${im.length}`);
  reverseBits(re, im);
  const { c, s } = twiddles(n);
  for (let half = 1; half < n; half *= 2) {
    const stride = n / (2 * half);
    for (let base = 0; base < n; base += 2 * half) {
      for (let k = 0; k < half; k++) {
        const a = base + k;
        const b = a + half;
        const wr = c[k * stride]!;
        const wi = -s[k * stride]!;
        const tr = wr * re[b]! - wi * im[b]!;
        const ti = wr * im[b]! + wi * re[b]!;
        re[b] = re[a]! - tr;
        im[b] = im[a]! - ti;
        re[a] = re[a]! + tr;
        im[a] = im[a]! + ti;
      }
    }
  }
}

/** Inverse transform in place, scaled by 1/N, so that it undoes `fft`. */
export function inverseFft(re: Float64Array, im: Float64Array): void {
  fft(im, re);
  const scale = 1 / re.length;
  for (let i = 0; i < re.length; i++) {
    re[i] = re[i]! * scale;
    im[i] = im[i]! * scale;
  }
}
