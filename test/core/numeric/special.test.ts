import { expect, test } from 'vitest';
import { erfc, lnBesselI0, sinc, upperTail } from '../../../src/core/numeric/special.ts';

// Abramowitz & Stegun table 9.8 (e^-x I0(x)) and table 7.1 (erf), from memory, and standard normal tables.
test('ln I0 against tabled values', () => {
  expect(Math.exp(lnBesselI0(1))).toBeCloseTo(1.2660658778, 9);
  expect(Math.exp(lnBesselI0(2))).toBeCloseTo(2.2795853023, 9);
  expect(Math.exp(lnBesselI0(10) - 10)).toBeCloseTo(0.1278333372, 9);
  expect(lnBesselI0(0)).toBe(0);
});

test('the two ways to ln I0 meet at 25', () => {
  const slope = lnBesselI0(25.0001) - lnBesselI0(24.9999);
  expect(slope).toBeCloseTo(0.0002 * 0.9798, 6);
});

test('erfc and the tail of the normal law', () => {
  expect(erfc(0.5)).toBeCloseTo(1 - 0.5204998778, 9);
  expect(erfc(1)).toBeCloseTo(1 - 0.8427007929, 9);
  expect(erfc(2)).toBeCloseTo(0.004677735, 9);
  expect(erfc(-1)).toBeCloseTo(1.8427007929, 9);
  expect(upperTail(1.959964)).toBeCloseTo(0.025, 7);
  expect(upperTail(3.090232)).toBeCloseTo(0.001, 8);
  expect(sinc(0.5)).toBeCloseTo(2 / Math.PI, 12);
});
