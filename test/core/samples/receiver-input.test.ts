import { expect, test } from 'vitest';
import { METER_DECAY_s, meterRun, sUnits } from '../../../src/core/samples/level-meter.ts';
import { receive, receiverAtRest } from '../../../src/core/samples/receiver-chain.ts';
import {
  addSteady,
  calibratorNear,
  inputAtRest,
  inputInPlace,
  type Listening,
} from '../../../src/core/samples/receiver-input.ts';
import { upsample } from '../../../src/core/samples/resample.ts';
import { dice } from './dice.ts';

const LISTENING: Listening = {
  tuned_Hz: 4_718_000,
  outside_dBuV: 0,
  inner_dB: -60,
  desensed_dB: 0,
  gain_dB: 0,
  deaf: false,
  leak_dBuV: null,
  calibrator_ppm: null,
  settings: { bandwidth_Hz: 3000, agc: 'off', bfo_Hz: 0, limiter: false, volume_dB: 0 },
};
const RATE = 8000;
const zeros = (n: number) => ({ re: new Float64Array(n), im: new Float64Array(n) });
const powerOf = ({ re, im }: ReturnType<typeof zeros>) =>
  re.reduce((s, x, i) => s + x * x + im[i]! ** 2, 0) / re.length;
const dB = (ratio: number) => 10 * Math.log10(ratio);

test('calibrator: the 60th multiple of 250 kHz, 5 parts in a million high, beats 75 Hz at 15 MHz', () => {
  const [harmonic, ...others] = calibratorNear(15e6, 3000, 5);
  expect(others).toEqual([]);
  expect(harmonic!.f_Hz - 15e6).toBeCloseTo(75, 6);
  const z = zeros(3 * RATE);
  const listening = { ...LISTENING, tuned_Hz: 15e6, calibrator_ppm: 5 };
  inputInPlace(inputAtRest(), z.re, z.im, 0, RATE, listening, () => 0);
  const { audio } = receive(receiverAtRest(), z.re, z.im, listening.settings);
  let crossings = 0;
  for (let i = RATE + 1; i < 3 * RATE; i++) if (audio[i]! >= 0 !== audio[i - 1]! >= 0) crossings++;
  expect(crossings / 4).toBeCloseTo(75, 0);
});

test('calibrator: every multiple in reach, none below the first', () => {
  expect(calibratorNear(4.6e6, 200_000, 0).map((c) => c.f_Hz)).toEqual([4.5e6, 4.75e6]);
  expect(calibratorNear(100_000, 200_000, 0).map((c) => c.f_Hz)).toEqual([250_000]);
  expect(calibratorNear(4.6e6, 3000, 0)).toEqual([]);
});

test('noise of unit power in 1 Hz comes out at the level that is told, own noise beside it', () => {
  const noise = dice(3);
  const level = (over: Partial<Listening>) => {
    const z = zeros(160_000);
    for (let i = 0; i < z.re.length; i++) {
      z.re[i] = noise(2 * i + 1e6) * Math.sqrt(RATE / 2);
      z.im[i] = noise(2 * i + 1e6 + 1) * Math.sqrt(RATE / 2);
    }
    inputInPlace(inputAtRest(), z.re, z.im, 0, RATE, { ...LISTENING, ...over }, noise);
    return dB(powerOf(z) / RATE);
  };
  expect(level({ outside_dBuV: -20 })).toBeCloseTo(-20, 1);
  expect(level({ inner_dB: 0 })).toBeCloseTo(3.01, 1);
  expect(Math.abs(level({ deaf: true, inner_dB: -10 }) + 10)).toBeLessThan(0.1);
});

test('a blocked first valve costs a signal as many decibels against the own noise', () => {
  const signal = (desensed_dB: number) => {
    const z = zeros(4000);
    z.re.fill(10);
    inputInPlace(inputAtRest(), z.re, z.im, 0, RATE, { ...LISTENING, desensed_dB }, () => 0);
    return dB(powerOf(z));
  };
  expect(signal(0) - signal(23)).toBeCloseTo(23, 6);
});

test('a step of the dial turns no phase: the carrier goes on where it stood', () => {
  const f_Hz = 4_718_400;
  const at = (tuned_Hz: number, first: number, n: number) => {
    const z = zeros(n);
    addSteady(z.re, z.im, first, RATE, tuned_Hz, { f_Hz, uV: 1 });
    return z;
  };
  let state = inputAtRest();
  let last = 0;
  for (const [block, tuned_Hz] of [4_718_000, 4_718_005, 4_718_010, 4_717_940.3].entries()) {
    const first = 1_000_003 + 160 * block;
    const z = at(tuned_Hz, first, 161);
    state = inputInPlace(state, z.re, z.im, first, RATE, { ...LISTENING, tuned_Hz }, () => 0);
    const phase = (i: number) => Math.atan2(z.im[i]!, z.re[i]!);
    const gap = (phase(0) - last) / (2 * Math.PI);
    if (block > 0) expect(Math.abs(gap - Math.round(gap))).toBeLessThan(1e-5);
    // The sample after the last belongs to the next block: its phase here is where that block must begin.
    last = phase(160);
  }
});

test('the set is muted but not spared: a leak from the own sender is in the samples', () => {
  const z = zeros(100);
  inputInPlace(inputAtRest(), z.re, z.im, 0, RATE, { ...LISTENING, deaf: true, leak_dBuV: 90 }, () => 0);
  expect(dB(powerOf(z))).toBeCloseTo(90, 6);
});

test('S units: S9 is 50 uV, -73 dBm at 50 ohm; S1 is 0.2 uV, -121 dBm; 6 dB each (IARU Region 1 Technical Recommendation R.1)', () => {
  const dBm = (uV: number) => dB((uV * 1e-6) ** 2 / 50 / 1e-3);
  // Half of an EMF drops across the source's own 50 ohm, the other half stands across the receiver's.
  const across = (uV: number) => sUnits(2 * uV);
  expect(dBm(50)).toBeCloseTo(-73, 1);
  expect(across(50)).toEqual({ s: 9, over_dB: 0 });
  expect(across(25).s).toBeCloseTo(8, 2);
  expect(dBm(0.199)).toBeCloseTo(-121, 0);
  expect(across(0.199).s).toBeCloseTo(1, 1);
  expect(across(500).over_dB).toBeCloseTo(20, 6);
  expect(across(0)).toEqual({ s: 0, over_dB: 0 });
});

test('the meter rises with 10 ms and falls with half a second or more (R.1)', () => {
  const run = (from: number, uV: number, seconds: number) => {
    const n = Math.round(seconds * RATE);
    return meterRun({ uV: from }, new Float64Array(n).fill(uV), new Float64Array(n), RATE).uV;
  };
  expect(run(0, 50, 0.01)).toBeCloseTo(50 * (1 - Math.exp(-1)), 1);
  expect(METER_DECAY_s).toBeGreaterThanOrEqual(0.5);
  expect(run(50, 0, 0.5)).toBeCloseTo(50 / Math.E, 1);
});

test('samples between: a note keeps frequency and size, its images are 50 dB down (Hamming window, 53 dB in any text)', () => {
  for (const factor of [2, 4, 8]) {
    const f = 0.3;
    const x = Float64Array.from({ length: 2000 }, (_, i) => Math.cos(2 * Math.PI * f * i));
    const out = upsample(x, factor, []).subarray(24 * factor);
    const size = (g: number) => {
      let [c, s] = [0, 0];
      out.forEach((v, i) => {
        c += v * Math.cos(2 * Math.PI * g * i);
        s += v * Math.sin(2 * Math.PI * g * i);
      });
      return (2 * Math.hypot(c, s)) / out.length;
    };
    expect(size(f / factor)).toBeCloseTo(1, 2);
    for (let image = 1; image < factor; image++)
      expect(2 * dB(size((image - (image % 2 === 1 ? f : -f)) / factor))).toBeLessThan(-46);
  }
});
