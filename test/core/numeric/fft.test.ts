import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fft, inverseFft } from '../../../src/core/numeric/fft.ts';

const direct = (x: readonly number[], k: number) => {
  let re = 0;
  let im = 0;
  x.forEach((v, n) => {
    re += v * Math.cos((2 * Math.PI * k * n) / x.length);
    im -= v * Math.sin((2 * Math.PI * k * n) / x.length);
  });
  return [re, im] as const;
};

test('equals the defining sum', () => {
  const x = Array.from({ length: 32 }, (_, i) => ((i * 7919) % 101) / 50 - 1);
  const re = Float64Array.from(x);
  const im = new Float64Array(32);
  fft(re, im);
  for (let k = 0; k < 32; k++) {
    const [a, b] = direct(x, k);
    expect(re[k]).toBeCloseTo(a, 11);
    expect(im[k]).toBeCloseTo(b, 11);
  }
});

test('the inverse undoes it, and energy is kept (Parseval)', () => {
  const value = fc.double({ min: -10, max: 10, noNaN: true });
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 9 }), fc.infiniteStream(value), (bits, stream) => {
      const n = 1 << bits;
      const a = Float64Array.from({ length: n }, () => stream.next().value);
      const b = Float64Array.from({ length: n }, () => stream.next().value);
      const re = a.slice();
      const im = b.slice();
      fft(re, im);
      const energy = (x: Float64Array, y: Float64Array) => x.reduce((s, v, i) => s + v * v + y[i]! * y[i]!, 0);
      expect(energy(re, im) / n).toBeCloseTo(energy(a, b), 7);
      inverseFft(re, im);
      for (let i = 0; i < n; i++) {
        expect(re[i]).toBeCloseTo(a[i]!, 10);
        expect(im[i]).toBeCloseTo(b[i]!, 10);
      }
    }),
    { seed: 6, numRuns: 30 },
  );
});

test('lengths that are not powers of two throw', () => {
  expect(() => fft(new Float64Array(12), new Float64Array(12))).toThrow(RangeError);
});
