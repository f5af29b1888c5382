/** Special functions that detection theory needs. */
import { exp, ln, sin } from './elementary.ts';

// Series of I0(x) = sum (x/2)^2k / (k!)^2, Abramowitz & Stegun 9.6.10; all terms are positive, so nothing cancels.
function i0Series(x: number): number {
  const q = (x * x) / 4;
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= q / (k * k);
    sum += term;
  }
  return sum;
}

/** Natural logarithm of the modified Bessel function I0, for any x; even in x. */
export function lnBesselI0(x: number): number {
  const a = Math.abs(x);
  if (a < 25) return ln(i0Series(a));
  // Abramowitz & Stegun 9.7.1, four terms: at 25 the next term is below 1e-6.
  const y = 1 / (8 * a);
  return a - 0.5 * ln(2 * Math.PI * a) + ln(1 + y * (1 + y * (4.5 + y * (37.5 + y * 459.375))));
}

function erfSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum); n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

// Continued fraction of erfc, Abramowitz & Stegun 7.1.14, from the far end.
function erfcFraction(x: number): number {
  let f = x;
  for (let k = 80; k > 0; k--) f = x + k / 2 / f;
  return exp(-x * x) / (Math.sqrt(Math.PI) * f);
}

/** Complementary error function; 2 far to the left, 0 far to the right. */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  return x < 2 ? 1 - erfSeries(x) : erfcFraction(x);
}

/** Probability that a standard normal variable is above x. */
export const upperTail = (x: number): number => erfc(x / Math.SQRT2) / 2;

/** sin(pi x) / (pi x), 1 at 0. */
export const sinc = (x: number): number => (x === 0 ? 1 : sin(Math.PI * x) / (Math.PI * x));
