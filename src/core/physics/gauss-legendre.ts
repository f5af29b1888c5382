import { cos } from '../numeric/elementary.ts';

/** Abscissas in -1..1 and weights that sum to 2. */
export type GaussRule = { readonly x: readonly number[]; readonly w: readonly number[] };

/** Legendre polynomial P_n and its slope at x, by the three-term recurrence (Abramowitz & Stegun 22.7.10, 22.8.5). */
function legendre(n: number, x: number): [value: number, slope: number] {
  let before = 1;
  let now = x;
  for (let m = 2; m <= n; m++) [before, now] = [now, ((2 * m - 1) * x * now - (m - 1) * before) / m];
  return [now, (n * (x * now - before)) / (x * x - 1)];
}

/** The Gauss-Legendre rule of n points, n from 2 to 64, exact for polynomials up to degree 2n - 1 (Abramowitz & Stegun 25.4.29). */
export function gaussLegendre(n: number): GaussRule {
  if (!Number.isInteger(n) || n < 2 || n > 64) throw new RangeError(`a Gauss rule has 2 to 64 points, got ${n}`);
  const x: number[] = [];
  const w: number[] = [];
  for (let i = 0; i < n; i++) {
    let root = -cos((Math.PI * (i + 0.75)) / (n + 0.5));
    for (let pass = 0; pass < 8; pass++) {
      const [value, slope] = legendre(n, root);
      root -= value / slope;
    }
    const slope = legendre(n, root)[1];
    x.push(root);
    w.push(2 / ((1 - root * root) * slope * slope));
  }
  return { x, w };
}
