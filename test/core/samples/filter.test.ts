import { expect, test } from 'vitest';
import {
  butterworthLowPass,
  cascadeGain,
  filterInPlace,
  firLowPass,
  firRun,
  restOf,
} from '../../../src/core/samples/filter.ts';
import { dice } from './dice.ts';

const dB = (gain: number) => 10 * Math.log10(gain);

test('Butterworth: |H|² = 1/(1 + (f/fc)^2n) with f warped by the bilinear transform (any text on filters)', () => {
  for (const order of [2, 4, 6]) {
    const sections = butterworthLowPass(order, 300, 8000);
    expect(dB(cascadeGain(sections, 300, 8000))).toBeCloseTo(-3.0103, 4);
    for (const f of [50, 150, 600, 1200]) {
      const ratio = Math.tan((Math.PI * f) / 8000) / Math.tan((Math.PI * 300) / 8000);
      expect(cascadeGain(sections, f, 8000)).toBeCloseTo(1 / (1 + ratio ** (2 * order)), 9);
    }
  }
});

test('a filtered tone has the gain that the formula says', () => {
  const sections = butterworthLowPass(4, 300, 8000);
  const x = Float64Array.from({ length: 8000 }, (_, i) => Math.sin((2 * Math.PI * 400 * i) / 8000));
  filterInPlace(x, sections, restOf(sections));
  const power = x.subarray(4000).reduce((s, v) => s + v * v, 0) / 4000;
  expect(2 * power).toBeCloseTo(cascadeGain(sections, 400, 8000), 4);
});

test('blocks join: in pieces as at once, biquads and FIR', () => {
  const noise = dice(1);
  const x = Float64Array.from({ length: 1000 }, (_, i) => noise(i));
  const sections = butterworthLowPass(4, 500, 8000);
  const taps = firLowPass(31, 500, 8000);
  const whole = x.slice();
  filterInPlace(whole, sections, restOf(sections));
  const wholeFir = firRun(x, taps, []);
  const memory = restOf(sections);
  const history: number[] = [];
  for (let at = 0; at < 1000; at += 7) {
    const piece = x.slice(at, at + 7);
    const fir = firRun(piece, taps, history);
    filterInPlace(piece, sections, memory);
    expect(piece).toEqual(whole.slice(at, at + 7));
    expect(fir).toEqual(wholeFir.slice(at, at + 7));
  }
});

test('windowed sinc: gain 1 at 0 Hz, half at the cut, 50 dB down beyond (Hamming window, 53 dB in any text)', () => {
  const taps = firLowPass(101, 1000, 8000);
  const gain = (f: number) => taps.reduce((s, h, i) => s + h * Math.cos((2 * Math.PI * f * (i - 50)) / 8000), 0);
  expect(gain(0)).toBeCloseTo(1, 12);
  expect(gain(1000)).toBeCloseTo(0.5, 2);
  for (let f = 1200; f < 4000; f += 37) expect(Math.abs(gain(f))).toBeLessThan(10 ** (-50 / 20));
});

test('a cut beyond half the rate throws', () => {
  expect(() => butterworthLowPass(2, 4000, 8000)).toThrow(RangeError);
  expect(() => firLowPass(10, 100, 8000)).toThrow(RangeError);
});
