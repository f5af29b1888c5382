import fc from 'fast-check';
import { expect, test } from 'vitest';
import { keyEdgesOf, keyEnvelope, withoutGlitches } from '../../../src/core/samples/keying.ts';
import { powerSpectrum } from '../../../src/core/samples/spectrum.ts';
import { morseEdges } from '../../../src/core/telegraphy/morse.ts';

test('an envelope begins to rise at its edge, is half up half-way, and stays within 0..1', () => {
  const edges = [
    { t_us: 10_000, down: true },
    { t_us: 60_000, down: false },
  ];
  const x = keyEnvelope(edges, 0, 800, 8000, 5000);
  expect(x[80]).toBe(0);
  expect(x[100]).toBeCloseTo(0.5, 9);
  expect(x[120]).toBe(1);
  expect(x[480]).toBe(1);
  expect(x[500]).toBeCloseTo(0.5, 9);
  expect(x[520]).toBeCloseTo(0, 12);
});

test('shaped keying keeps more than 99.99 % of its power within 200 Hz of the carrier; hard keying does not', () => {
  const { edges } = morseEdges('PARIS PARIS PARIS', 100_000, 25);
  const outside = (rise_us: number) => {
    const x = keyEnvelope(edges, 0, 65_536, 8000, rise_us);
    const { power, step_Hz } = powerSpectrum(x, new Float64Array(x.length), 8000, 8192);
    const total = power.reduce((a, b) => a + b, 0);
    return power.reduce((s, p, k) => s + (Math.abs((k - 4096) * step_Hz) > 200 ? p : 0), 0) / total;
  };
  expect(outside(5000)).toBeLessThan(1e-4);
  expect(outside(0)).toBeGreaterThan(1e-3);
});

test('the key is found again in its envelope, to a millisecond', () => {
  fc.assert(
    fc.property(fc.integer({ min: 5, max: 30 }), (wpm) => {
      const { edges, end_us } = morseEdges('QV4M', 200_000, wpm);
      const x = keyEnvelope(edges, 0, Math.ceil(end_us / 2000) + 200, 500);
      const found = keyEdgesOf(x, 500);
      expect(found.map((e) => e.down)).toEqual(edges.map((e) => e.down));
      for (const [i, e] of found.entries()) expect(Math.abs(e.t_us - edges[i]!.t_us - 2500)).toBeLessThan(1000);
    }),
    { seed: 8, numRuns: 20 },
  );
});

test('a click and a drop-out are taken out', () => {
  const at = (...list: number[]) => list.map((t_us, i) => ({ t_us, down: i % 2 === 0 }));
  expect(withoutGlitches(at(0, 100, 105, 200), 20)).toEqual(at(0, 200));
  expect(withoutGlitches(at(0, 100, 150, 155, 300, 400), 20)).toEqual(at(0, 100, 300, 400));
});
