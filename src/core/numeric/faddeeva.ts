/**
 * The Faddeeva function w(z) = exp(-z^2) erfc(-jz) = exp(-z^2) [1 + (2j/sqrt pi) int_0^z exp(t^2) dt].
 * Near the origin: J. A. C. Weideman, "Computation of the complex error function", SIAM J. Numer. Anal. 31 (1994);
 * far from it: Laplace's continued fraction (Abramowitz and Stegun 7.1.4).
 */
import { add, type Complex, cexp, complex, div, mul, negate, reciprocal, scale, sub } from './complex.ts';
import { cos, exp, tan } from './elementary.ts';

const SQRT_PI = Math.sqrt(Math.PI);
const TERMS = 40;
const MAP_LENGTH = Math.sqrt(TERMS / Math.SQRT2);
const FAR = 7;
const FRACTION_DEPTH = 20;

const expansion = weidemanCoefficients();

/** Coefficients of (L^2 + t^2) exp(-t^2), t = L tan(theta/2), as a cosine series in theta; highest power first. */
function weidemanCoefficients(): readonly number[] {
  const points = 4 * TERMS;
  const coefficients: number[] = [];
  for (let n = TERMS; n >= 1; n--) {
    let sum = 0;
    for (let k = 1 - points / 2; k < points / 2; k++) {
      const theta = (2 * Math.PI * k) / points;
      const t = MAP_LENGTH * tan(theta / 2);
      sum += exp(-t * t) * (MAP_LENGTH * MAP_LENGTH + t * t) * cos(n * theta);
    }
    coefficients.push(sum / points);
  }
  return coefficients;
}

/** w(z) for Im z >= 0 and |z| below FAR. */
function near(z: Complex): Complex {
  const below = complex(MAP_LENGTH + z.im, -z.re);
  const ratio = div(complex(MAP_LENGTH - z.im, z.re), below);
  let re = 0;
  let im = 0;
  for (const a of expansion) {
    const next = re * ratio.re - im * ratio.im + a;
    im = re * ratio.im + im * ratio.re;
    re = next;
  }
  return add(scale(div(complex(re, im), mul(below, below)), 2), scale(reciprocal(below), 1 / SQRT_PI));
}

/** c in w(z) = (j / sqrt pi) / (z - c), for Im z >= 0 and |z| from FAR up. */
function fractionTail(z: Complex): Complex {
  let re = 0;
  let im = 0;
  for (let n = FRACTION_DEPTH; n >= 1; n--) {
    const below_re = z.re - re;
    const below_im = z.im - im;
    const k = n / 2 / (below_re * below_re + below_im * below_im);
    re = k * below_re;
    im = -k * below_im;
  }
  return complex(re, im);
}

const isFar = (z: Complex): boolean => z.re * z.re + z.im * z.im >= FAR * FAR;

/** w(z) for any z; overflows to infinity where exp(-z^2) does, deep in the lower half plane. Relative error about 1e-12. */
export function faddeeva(z: Complex): Complex {
  if (z.im < 0) return sub(scale(cexp(negate(mul(z, z))), 2), faddeeva(negate(z)));
  if (!isFar(z)) return near(z);
  return mul(complex(0, 1 / SQRT_PI), reciprocal(sub(z, fractionTail(z))));
}

/** 1 + j sqrt(pi) z w(z), Sommerfeld's flat-earth attenuation, for Im z >= 0; no cancellation at large |z|. */
export function sommerfeld(z: Complex): Complex {
  if (z.im < 0) throw new RangeError(`sommerfeld needs Im z >= 0, got ${z.re} + ${z.im}j`);
  if (isFar(z)) {
    const tail = fractionTail(z);
    return div(negate(tail), sub(z, tail));
  }
  return add(complex(1), mul(complex(0, SQRT_PI), mul(z, near(z))));
}
