import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bits, die, normal, streamOf, throwsOf, uniform } from '../../../src/core/kernel/dice.ts';

const N = 40_000;
const counted = Array.from({ length: N }, (_, i) => i);

describe('dice', () => {
  it('names streams by FNV-1a (published test vectors of the algorithm: "" and "foobar")', () => {
    expect(streamOf('')).toBe(0x811c9dc5);
    expect(streamOf('foobar')).toBe(0xbf9cf968);
  });

  it('gives the same value for the same question, in any order', () => {
    fc.assert(
      fc.property(fc.nat(), fc.string(), fc.nat(), (seed, name, i) => {
        const first = uniform(seed, name, i);
        uniform(seed, name, i + 1);
        expect(uniform(seed, name, i)).toBe(first);
        expect(first >= 0 && first < 1).toBe(true);
      }),
      { seed: 3 },
    );
  });

  it('throws one stream over and over as it throws it once', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.integer({ min: 0, max: 2 ** 32 - 1 }), (seed, stream, i) => {
        expect(throwsOf(seed, stream)(i)).toBe(bits(seed, stream, i));
      }),
      { seed: 4 },
    );
  });

  it('is even: chi-square of 256 bins under the 99.9 % point of 255 degrees of freedom (330.5, from memory)', () => {
    const bins = new Array<number>(256).fill(0);
    for (const i of counted) bins[bits(7, streamOf('even'), i) >>> 24]!++;
    const want = N / 256;
    expect(bins.reduce((s, n) => s + ((n - want) * (n - want)) / want, 0)).toBeLessThan(330.5);
  });

  it('is normal: mean 0, variance 1, fourth moment 3, each within five standard errors', () => {
    const x = counted.map((i) => normal(7, streamOf('bell'), i));
    const mean = (f: (v: number) => number) => x.reduce((s, v) => s + f(v), 0) / N;
    expect(Math.abs(mean((v) => v))).toBeLessThan(5 / Math.sqrt(N));
    expect(Math.abs(mean((v) => v * v) - 1)).toBeLessThan(5 * Math.sqrt(2 / N));
    expect(Math.abs(mean((v) => v ** 4) - 3)).toBeLessThan(5 * Math.sqrt(96 / N));
  });

  it('keeps streams and neighbours apart (correlation within five standard errors)', () => {
    const corr = (a: (i: number) => number, b: (i: number) => number) =>
      counted.reduce((s, i) => s + (a(i) - 0.5) * (b(i) - 0.5), 0) / N / (1 / 12);
    expect(
      Math.abs(
        corr(
          (i) => uniform(1, 'a', i),
          (i) => uniform(1, 'b', i),
        ),
      ),
    ).toBeLessThan(5 / Math.sqrt(N));
    expect(
      Math.abs(
        corr(
          (i) => uniform(1, 'a', i),
          (i) => uniform(1, 'a', i + 1),
        ),
      ),
    ).toBeLessThan(5 / Math.sqrt(N));
    expect(
      Math.abs(
        corr(
          (i) => uniform(1, 'a', i),
          (i) => uniform(2, 'a', i),
        ),
      ),
    ).toBeLessThan(5 / Math.sqrt(N));
  });

  it('throws a die of a whole number of faces only', () => {
    expect(die(1, 'x', 0, 1)).toBe(0);
    expect(() => die(1, 'x', 0, 0)).toThrow(RangeError);
  });
});
