/** Complex arithmetic on plain pairs. Every function returns a new value; angles are in radians. */
import { atan2, cos, exp, hypot, ln, sin } from './elementary.ts';

/** A complex number re + j im. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** The complex number re + j im. */
export const complex = (re: number, im = 0): Complex => ({ re, im });

/** 0. */
export const ZERO: Complex = complex(0);
/** 1. */
export const ONE: Complex = complex(1);
/** The imaginary unit j. */
export const J: Complex = complex(0, 1);

/** a + b. */
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });

/** a - b. */
export const sub = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });

/** a times b. */
export const mul = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});

/** a times the real number k. */
export const scale = (a: Complex, k: number): Complex => ({ re: a.re * k, im: a.im * k });

/** -a. */
export const negate = (a: Complex): Complex => ({ re: -a.re, im: -a.im });

/** The mirror image of a in the real axis. */
export const conjugate = (a: Complex): Complex => ({ re: a.re, im: -a.im });

/** a divided by b, without overflow of |b|^2 (Smith's method); infinite or NaN parts when b is 0. */
export function div(a: Complex, b: Complex): Complex {
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const r = b.im / b.re;
    const d = b.re + b.im * r;
    return { re: (a.re + a.im * r) / d, im: (a.im - a.re * r) / d };
  }
  const r = b.re / b.im;
  const d = b.re * r + b.im;
  return { re: (a.re * r + a.im) / d, im: (a.im * r - a.re) / d };
}

/** 1 / a. */
export const reciprocal = (a: Complex): Complex => div(ONE, a);

/** Modulus |a|. */
export const modulus = (a: Complex): number => hypot(a.re, a.im);

/** Argument of a, -pi..pi. */
export const argument = (a: Complex): number => atan2(a.im, a.re);

/** The number of the given modulus and argument. */
export const polar = (r: number, phi: number): Complex => ({ re: r * cos(phi), im: r * sin(phi) });

/** e to the power a. */
export const cexp = (a: Complex): Complex => polar(exp(a.re), a.im);

/** Principal logarithm of a; -Infinity at 0. */
export const cln = (a: Complex): Complex => ({ re: ln(modulus(a)), im: argument(a) });

/** Principal square root of a: real part never negative, cut along the negative real axis. */
export function csqrt(a: Complex): Complex {
  const r = modulus(a);
  if (r === 0) return ZERO;
  const u = Math.sqrt((r + Math.abs(a.re)) / 2);
  const v = a.im / (2 * u);
  if (a.re >= 0) return { re: u, im: v };
  return { re: Math.abs(v), im: a.im < 0 ? -u : u };
}
