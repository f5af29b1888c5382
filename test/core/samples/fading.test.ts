import { expect, test } from 'vitest';
import { fadeInPlace, fadingAtRest, MID_LATITUDE, pathGain } from '../../../src/core/samples/fading.ts';
import { gaussian, gaussianPair } from '../../../src/core/samples/noise.ts';
import { dice } from './dice.ts';

const FADING = { delay_s: 0.001, spread_Hz: 1 };
const GAINS = Array.from({ length: 40_000 }, (_, i) => pathGain(FADING, 0, i * 0.05, dice(2)));
const mean = (xs: readonly number[]) => xs.reduce((a, b) => a + b, 0) / xs.length;

test('a path has mean power 1 and its amplitude is Rayleigh: P(|g|² < x) = 1 - e^-x', () => {
  const powers = GAINS.map(([a, b]) => a * a + b * b);
  expect(mean(powers)).toBeCloseTo(1, 1);
  for (const x of [0.1, 0.5, 1, 2]) expect(mean(powers.map((p) => (p < x ? 1 : 0)))).toBeCloseTo(1 - Math.exp(-x), 1.5);
});

test('its Doppler spectrum is Gaussian with 2 sigma = the spread: correlation exp(-2 (pi sigma t)²)', () => {
  for (const lag of [2, 4, 6, 8]) {
    const pairs = GAINS.slice(lag).map(([a, b], i) => a * GAINS[i]![0] + b * GAINS[i]![1]);
    const t = lag * 0.05;
    expect(mean(pairs)).toBeCloseTo(Math.exp(-2 * (Math.PI * (FADING.spread_Hz / 2) * t) ** 2), 1);
  }
});

test('the two paths are independent, and the same instant gives the same gain', () => {
  const other = GAINS.map((_, i) => pathGain(FADING, 1, i * 0.05, dice(2)));
  expect(Math.abs(mean(GAINS.map(([a], i) => a * other[i]![0])))).toBeLessThan(0.03);
  expect(pathGain(FADING, 0, 12.34, dice(2))).toEqual(pathGain(FADING, 0, 12.34, dice(2)));
});

test('in pieces as at once, through JSON', () => {
  const make = () =>
    [
      Float64Array.from({ length: 4000 }, (_, i) => Math.cos(i * 0.3)),
      Float64Array.from({ length: 4000 }, (_, i) => Math.sin(i * 0.3)),
    ] as const;
  const [re, im] = make();
  fadeInPlace(fadingAtRest(), re, im, 4000, MID_LATITUDE.disturbed, dice(4));
  const [pr, pi] = make();
  let state = fadingAtRest();
  for (let at = 0; at < 4000; at += 333)
    state = fadeInPlace(
      JSON.parse(JSON.stringify(state)),
      pr.subarray(at, at + 333),
      pi.subarray(at, at + 333),
      4000,
      MID_LATITUDE.disturbed,
      dice(4),
    );
  expect(pr).toEqual(re);
  expect(pi).toEqual(im);
});

test('two paths act on a tone as |a + b e^(-j 2 pi f t)|² / 2, so with 2 ms between them it repeats every 500 Hz', () => {
  const fading = { delay_s: 0.002, spread_Hz: 0.01 };
  const [[ar, ai], [br, bi]] = [pathGain(fading, 0, 0.05, dice(8)), pathGain(fading, 1, 0.05, dice(8))];
  for (let f = 0; f <= 1000; f += 50) {
    const re = Float64Array.from({ length: 401 }, (_, i) => Math.cos((2 * Math.PI * f * i) / 8000));
    const im = Float64Array.from({ length: 401 }, (_, i) => Math.sin((2 * Math.PI * f * i) / 8000));
    fadeInPlace(fadingAtRest(), re, im, 8000, fading, dice(8));
    const [c, s] = [Math.cos(2 * Math.PI * f * 0.002), -Math.sin(2 * Math.PI * f * 0.002)];
    const power = ((ar + br * c - bi * s) ** 2 + (ai + br * s + bi * c) ** 2) / 2;
    expect(re[400]! ** 2 + im[400]! ** 2).toBeCloseTo(power, 6);
  }
});

test('a pair from Box and Muller has independent parts of unit variance', () => {
  const u = (i: number) => (i + 0.5) / 200;
  const pairs = Array.from({ length: 40_000 }, (_, i) => gaussianPair(u(i % 200), u(Math.floor(i / 200))));
  expect(mean(pairs.map(([a]) => a * a))).toBeCloseTo(1, 1);
  expect(mean(pairs.map(([a, b]) => a * b))).toBeCloseTo(0, 6);
  expect(gaussian(u(3), u(7))).toBe(gaussianPair(u(3), u(7))[0]);
});
