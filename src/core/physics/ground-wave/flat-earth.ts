/**
 * Near distances: Sommerfeld's flat-earth attenuation with the first two curvature terms.
 * ITU-R P.368-10 (flat earth with curvature correction); L. A. Berry, "User's guide to low-frequency radio coverage programs", 1978; D. A. Hill and J. R. Wait, Radio Science 15 (1980).
 */
import { add, type Complex, complex, csqrt, div, modulus, mul, scale, sub } from '../../numeric/complex.ts';
import { sommerfeld } from '../../numeric/faddeeva.ts';
import { heightFactor, type Surface } from './ground.ts';

const ONE = complex(1);
const times_j = (a: Complex): Complex => complex(-a.im, a.re);

/** [1 - j sqrt(pi p) - (1 + 2p) F] / (4 q^3), the first curvature term. */
function firstTerm(p: Complex, root: Complex, F: Complex, q3: Complex): Complex {
  const bracket = sub(sub(ONE, root), mul(add(ONE, scale(p, 2)), F));
  return div(bracket, scale(q3, 4));
}

/** [1 - j sqrt(pi p)(1 - p) - 2p + 5p^2/6 + (p^2/2 - 1) F] / (4 q^6), the second. */
function secondTerm(p: Complex, root: Complex, F: Complex, q3: Complex): Complex {
  const p2 = mul(p, p);
  const plain = add(sub(sub(ONE, mul(root, sub(ONE, p))), scale(p, 2)), scale(p2, 5 / 6));
  const bracket = add(plain, mul(sub(scale(p2, 0.5), ONE), F));
  return div(bracket, scale(mul(q3, q3), 4));
}

/** Attenuation |F| against a perfect flat earth, for distances under about 80 / f_MHz^(1/3) km. */
export function flatEarthAttenuation(on: Surface, d_m: number, h_tx_m: number, h_rx_m: number): number {
  const z = scale(mul(complex(-0.5, 0.5), on.delta), Math.sqrt(on.k_per_m * d_m));
  const p = mul(z, z);
  const F = sommerfeld(z);
  const root = times_j(csqrt(scale(p, Math.PI)));
  const q3 = mul(on.q, mul(on.q, on.q));
  const corrected = add(F, add(firstTerm(p, root, F, q3), secondTerm(p, root, F, q3)));
  return modulus(corrected) * heightFactor(on, h_tx_m) * heightFactor(on, h_rx_m);
}
