/** Power spectrum of complex samples, and the bandwidth that holds a share of the power. */

import { cos } from '../numeric/elementary.ts';
import { fft } from '../numeric/fft.ts';

/** Power by frequency: `power[k]` belongs to (k - size/2) · rate/size Hz; the sum is the mean power of the signal. */
export interface Spectrum {
  readonly power: Float64Array;
  readonly step_Hz: number;
}

/** Mean of spectra of half-overlapping Hann-windowed pieces (Welch 1967). `size` is a power of two; a shorter signal gives zeros. */
export function powerSpectrum(re: Float64Array, im: Float64Array, rate: number, size: number): Spectrum {
  const power = new Float64Array(size);
  const window = Float64Array.from({ length: size }, (_, i) => 0.5 - 0.5 * cos((2 * Math.PI * i) / size));
  const gain = window.reduce((s, w) => s + w * w, 0) * size;
  let pieces = 0;
  for (let from = 0; from + size <= re.length; from += size / 2) {
    const x = re.slice(from, from + size).map((v, i) => v * window[i]!);
    const y = im.slice(from, from + size).map((v, i) => v * window[i]!);
    fft(x, y);
    for (let k = 0; k < size; k++) power[(k + size / 2) % size]! += (x[k]! * x[k]! + y[k]! * y[k]!) / gain;
    pieces += 1;
  }
  if (pieces > 0) for (let k = 0; k < size; k++) power[k] = power[k]! / pieces;
  return { power, step_Hz: rate / size };
}

/** Band outside which half of `1 - share` of the power lies on each side, Hz: with 0.99 the occupied bandwidth of ITU RR 1.153. */
export function occupiedBandwidth(spectrum: Spectrum, share = 0.99): number {
  const { power, step_Hz } = spectrum;
  const total = power.reduce((a, b) => a + b, 0);
  const outside = ((1 - share) / 2) * total;
  const edge = (at: (k: number) => number) => {
    let sum = 0;
    for (let k = 0; k < power.length; k++) {
      const p = power[at(k)]!;
      if (sum + p > outside) return k + (outside - sum) / p;
      sum += p;
    }
    return power.length / 2;
  };
  return (power.length - edge((k) => k) - edge((k) => power.length - 1 - k)) * step_Hz;
}

/** Strongest frequency of a spectrum between two, Hz. */
export function peakFrequency(spectrum: Spectrum, low: number, high: number): number {
  const { power, step_Hz } = spectrum;
  let best = low;
  let most = -1;
  for (let k = 0; k < power.length; k++) {
    const f = (k - power.length / 2) * step_Hz;
    if (f >= low && f <= high && power[k]! > most) {
      most = power[k]!;
      best = f;
    }
  }
  return best;
}
