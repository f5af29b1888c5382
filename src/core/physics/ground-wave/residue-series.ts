/**
 * Far distances: the residue series of diffraction round the effective Earth (van der Pol and Bremmer; ITU-R P.368-10).
 * Its roots t_s solve W'(t) = q W(t), W an Airy function. No Airy function is evaluated: along q the roots obey
 * dt/dq = 1/(t - q^2), starting from the zeros of Ai' (q = 0) or, in 1/q, from the zeros of Ai (q infinite).
 */
import { add, type Complex, complex, modulus, mul, polar, reciprocal, scale, sub } from '../../numeric/complex.ts';
import { cos, exp, pow, sin } from '../../numeric/elementary.ts';
import type { Surface } from './ground.ts';

/** Magnitudes of the first zeros of Ai and Ai' (Abramowitz and Stegun, table 10.13). */
const AI_ZEROS = [
  2.3381074104597674, 4.08794944413097, 5.520559828095515, 6.786708090071912, 7.944133587112781, 9.022650853340979,
  10.040174341558087, 11.008524303733262, 11.936015563236262, 12.828776752865757,
];
const AI_PRIME_ZEROS = [
  1.0187929716474715, 3.2481975821798375, 4.820099211178738, 6.163307355639325, 7.372177255049634, 8.488486734019721,
  9.535449052433547, 10.527660396957407, 11.475056633480245, 12.384788371845747,
];
const STEPS = 24;
const MOST_ROOTS = 200;
const NEGLIGIBLE = 1e-5;

/** Magnitude of the s-th zero of Ai, s from 1 (Abramowitz and Stegun 10.4.94, 10.4.105 beyond the table). */
function airyZero(s: number): number {
  const z = (3 * Math.PI * (4 * s - 1)) / 8;
  return AI_ZEROS[s - 1] ?? pow(z, 2 / 3) * (1 + (5 / 48 - 5 / 36 / (z * z)) / (z * z));
}

/** Magnitude of the s-th zero of Ai', s from 1 (Abramowitz and Stegun 10.4.95, 10.4.106 beyond the table). */
function airyPrimeZero(s: number): number {
  const z = (3 * Math.PI * (4 * s - 3)) / 8;
  return AI_PRIME_ZEROS[s - 1] ?? pow(z, 2 / 3) * (1 - (7 / 48 - 35 / 288 / (z * z)) / (z * z));
}

/** Fourth-order Runge-Kutta of dt/du = slope(u, t) along the straight line from 0 to `end`. */
function follow(start: Complex, end: Complex, slope: (u: Complex, t: Complex) => Complex): Complex {
  const h = scale(end, 1 / STEPS);
  let t = start;
  for (let i = 0; i < STEPS; i++) {
    const u = scale(end, i / STEPS);
    const middle = scale(end, (i + 0.5) / STEPS);
    const k1 = mul(h, slope(u, t));
    const k2 = mul(h, slope(middle, add(t, scale(k1, 0.5))));
    const k3 = mul(h, slope(middle, add(t, scale(k2, 0.5))));
    const k4 = mul(h, slope(scale(end, (i + 1) / STEPS), add(t, k3)));
    t = add(t, scale(add(add(k1, k4), scale(add(k2, k3), 2)), 1 / 6));
  }
  return t;
}

/** The s-th root t of W'(t) = q W(t), s from 1. */
export function residueRoot(q: Complex, s: number): Complex {
  const size = modulus(q);
  if (size * size <= airyPrimeZero(s)) {
    const start = polar(airyPrimeZero(s), -Math.PI / 3);
    return follow(start, q, (u, t) => reciprocal(sub(t, mul(u, u))));
  }
  const start = polar(airyZero(s), -Math.PI / 3);
  return follow(start, reciprocal(q), (u, t) => reciprocal(sub(complex(1), mul(t, mul(u, u)))));
}

/** W(t - y) / W(t), the gain at normalised height y, from W'' = tW and W' = qW at t: its Taylor series in y. */
function heightGain(t: Complex, q: Complex, y: number): Complex {
  let before = complex(0);
  let last = complex(1);
  let next = complex(-q.re, -q.im);
  let sum = last;
  let power = 1;
  for (let n = 0; n < 60; n++) {
    power *= y;
    const term = scale(next, power);
    sum = add(sum, term);
    if (n > 2 && modulus(term) <= 1e-9 * modulus(sum)) break;
    const following = scale(sub(mul(t, last), before), 1 / ((n + 1) * (n + 2)));
    before = last;
    last = next;
    next = following;
  }
  return sum;
}

interface Residue {
  readonly t: Complex;
  /** 1 / (t - q^2) times the height gains of both aerials. */
  readonly weight: Complex;
}

/** One surface's residues for one pair of aerial heights, found as they are needed and kept. */
export class ResidueSeries {
  private readonly on: Surface;
  private readonly heights_m: readonly number[];
  private readonly residues: Residue[] = [];

  constructor(on: Surface, h_tx_m: number, h_rx_m: number) {
    this.on = on;
    this.heights_m = [h_tx_m, h_rx_m].filter((h_m) => h_m > 0);
  }

  private residue(i: number): Residue {
    const known = this.residues[i];
    if (known) return known;
    const { q, k_per_m, nu } = this.on;
    const t = residueRoot(q, i + 1);
    let weight = reciprocal(sub(t, mul(q, q)));
    for (const h_m of this.heights_m) weight = mul(weight, heightGain(t, q, (k_per_m * h_m) / nu));
    const found = { t, weight };
    this.residues.push(found);
    return found;
  }

  /** Attenuation |F| against a perfect flat earth, for distances over about 80 / f_MHz^(1/3) km. */
  attenuation(d_m: number): number {
    const x = (this.on.nu * d_m) / this.on.a_e_m;
    let re = 0;
    let im = 0;
    for (let i = 0; i < MOST_ROOTS; i++) {
      const { t, weight } = this.residue(i);
      const size = exp(x * t.im);
      const c = size * cos(x * t.re);
      const s = -size * sin(x * t.re);
      const term_re = c * weight.re - s * weight.im;
      const term_im = c * weight.im + s * weight.re;
      re += term_re;
      im += term_im;
      if (Math.abs(term_re) + Math.abs(term_im) < NEGLIGIBLE * (Math.abs(re) + Math.abs(im))) break;
    }
    return Math.sqrt(Math.PI * x * (re * re + im * im));
  }
}
