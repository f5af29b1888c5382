import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  argument,
  type Complex,
  cexp,
  cln,
  complex,
  conjugate,
  csqrt,
  div,
  J,
  modulus,
  mul,
  negate,
  ONE,
  polar,
  reciprocal,
  scale,
  sub,
} from '../../../src/core/numeric/complex.ts';

const part = fc.double({ min: -1e3, max: 1e3, noNaN: true });
const number = fc.tuple(part, part).map(([re, im]) => complex(re, im));
const far = (a: Complex, b: Complex) => modulus(sub(a, b)) / (1 + modulus(a));
const check = (law: fc.IProperty<unknown>) => fc.assert(law, { seed: 33, numRuns: 300 });

describe('complex arithmetic', () => {
  it('obeys the laws of a field', () => {
    check(
      fc.property(number, number, number, (a, b, c) => {
        expect(far(mul(a, add(b, c)), add(mul(a, b), mul(a, c)))).toBeLessThan(1e-9);
        expect(far(sub(add(a, b), b), a)).toBeLessThan(1e-9);
        if (modulus(b) > 1e-3) expect(far(mul(div(a, b), b), a)).toBeLessThan(1e-9);
      }),
    );
  });
  it('has j squared equal to -1 and a product with the conjugate equal to the squared modulus', () => {
    expect(mul(J, J)).toEqual(complex(-1, 0));
    check(
      fc.property(number, (a) => {
        expect(far(mul(a, conjugate(a)), complex(modulus(a) ** 2))).toBeLessThan(1e-12);
      }),
    );
  });
  it('keeps the principal root: it squares back, and its real part is not negative', () => {
    check(
      fc.property(number, (a) => {
        const root = csqrt(a);
        expect(root.re).toBeGreaterThanOrEqual(0);
        expect(far(mul(root, root), a)).toBeLessThan(1e-12);
      }),
    );
    expect(csqrt(complex(-4, 0))).toEqual(complex(0, 2));
    expect(csqrt(complex(0))).toEqual(complex(0));
  });
  it('has logarithm and exponential, polar form and modulus as inverses', () => {
    check(
      fc.property(number, (a) => {
        if (modulus(a) < 1e-6) return;
        expect(far(cexp(cln(a)), a)).toBeLessThan(1e-12);
        expect(far(polar(modulus(a), argument(a)), a)).toBeLessThan(1e-12);
      }),
    );
  });
  it('divides without overflow', () => {
    expect(div(complex(1e200, 1e200), complex(1e200, 1e200))).toEqual(complex(1, 0));
    expect(div(complex(0, 4), complex(0, 2))).toEqual(complex(2, 0));
    expect(reciprocal(complex(2))).toEqual(scale(ONE, 0.5));
    expect(negate(complex(1, -2))).toEqual(complex(-1, 2));
  });
});
