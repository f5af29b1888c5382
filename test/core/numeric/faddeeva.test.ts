import { describe, expect, it } from 'vitest';
import { add, complex, modulus, mul, ONE, sub } from '../../../src/core/numeric/complex.ts';
import { faddeeva, sommerfeld } from '../../../src/core/numeric/faddeeva.ts';

/** re z, im z, re w, im w from scipy.special.wofz (SciPy 1.17.1). */
const WOFZ = [
  [0, 0, 1, 0],
  [1, 0, 0.36787944117144233, 0.6071577058413937],
  [0, 1, 0.427583576155807, 0],
  [-1, 1, 0.30474420525691254, -0.2082189382028316],
  [0.1, 0.01, 0.9790865265534255, 0.11013063795281983],
  [-0.3, 0.002, 0.9120601194179516, -0.3178213613300265],
  [2, 0.001, 0.018547236370405538, 0.3399528312073787],
  [-3.5, 0.1, 0.005339924882782209, -0.1686453008191369],
  [0, 4, 0.1369994576250614, 0],
  [5, 5, 0.05696543988817737, 0.05583874277539143],
  [-6.9, 0.05, 0.0006122045375629825, -0.08264932215986641],
  [-7.1, 0.05, 0.0005771104105843732, -0.0802720021933119],
  [-12, 3, 0.011163889644607903, -0.04436123799496351],
  [30, 0.5, 0.0003138749836928479, 0.01881154486772567],
  [-200, 80, 0.0009727663252713327, -0.002431863400128431],
  [0, 1e4, 5.641895807268084e-5, 0],
  [1, -1, -1.1370378783511972, 2.026813791854195],
  [-0.5, -2, -35.6353035120019, -77.38014237534546],
  [3, -0.2, -0.015533683463403869, 0.1999079970765194],
  [6.5, 0.5, 0.006884619519930825, 0.0873143668568981],
  [-4.9, 4.9, 0.05815018448608133, -0.056953237968819806],
] as const;

describe('Faddeeva function', () => {
  it.each(WOFZ)('w(%f + %fj) agrees with SciPy to 1e-11', (x, y, re, im) => {
    const w = faddeeva(complex(x, y));
    expect(modulus(sub(w, complex(re, im))) / Math.hypot(re, im)).toBeLessThan(1e-11);
  });
  it.each(WOFZ.filter(([, y]) => y >= 0))('sommerfeld(%f + %fj) is 1 + j sqrt(pi) z w(z)', (x, y, re, im) => {
    const plain = add(ONE, mul(complex(0, Math.sqrt(Math.PI)), mul(complex(x, y), complex(re, im))));
    expect(modulus(sub(sommerfeld(complex(x, y)), plain))).toBeLessThan(1e-10);
  });
  it('refuses the lower half plane in the flat-earth form', () => {
    expect(() => sommerfeld(complex(1, -1))).toThrow(RangeError);
  });
  it('has sommerfeld(z) tending to -1/(2 z^2) far out', () => {
    const z = complex(-3000, 400);
    const limit = mul(complex(-2), mul(z, z));
    expect(modulus(sub(mul(sommerfeld(z), limit), ONE))).toBeLessThan(1e-6);
  });
});
