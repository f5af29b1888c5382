import { expect, test } from 'vitest';
import { detectEnvelope, modulateInPlace } from '../../../src/core/samples/am.ts';
import { butterworthLowPass, filterInPlace, restOf } from '../../../src/core/samples/filter.ts';
import { addNoise } from '../../../src/core/samples/noise.ts';
import {
  articulation,
  bandsPassed,
  passbandLoss_dB,
  understood,
  voiceChance,
  voiceSnr,
  wordSnr,
} from '../../../src/core/samples/voice.ts';
import type { Arrival, HeardWord } from '../../../src/core/signals.ts';
import { dice } from './dice.ts';

const RATE = 8000;
const tone = (n: number) => Float64Array.from({ length: n }, (_, i) => Math.sin((2 * Math.PI * 1000 * i) / RATE));

test('speech put on a carrier comes off it again, and the carrier level is found', () => {
  const [re, im] = [new Float64Array(RATE).fill(0.6), new Float64Array(RATE).fill(0.8)];
  modulateInPlace(re, im, tone(RATE), 0.5);
  const { state, audio } = detectEnvelope({ carrier: null }, re, im, RATE);
  const power = audio.subarray(2000).reduce((s, v) => s + v * v, 0) / (RATE - 2000);
  expect(Math.sqrt(2 * power)).toBeCloseTo(0.5, 1.7);
  expect(state.carrier).toBeCloseTo(1, 1);
  expect(() => modulateInPlace(re, im, audio, 1.5)).toThrow(RangeError);
});

test('the envelope never goes below nothing', () => {
  const [re, im] = [new Float64Array(4).fill(1), new Float64Array(4)];
  modulateInPlace(re, im, Float64Array.from([-3, -1, 0, 1]), 1);
  expect([...re]).toEqual([0, 0, 1, 2]);
});

// AM envelope detection above threshold: S/N out = m² C/N in the IF bandwidth; m 0.3 is 10.5 dB down (any text on modulation).
test('a strong carrier: depth² C/N', () => {
  expect(voiceSnr(80, 1, 6000)).toBeCloseTo(80 - 10 * Math.log10(6000), 1);
  expect(voiceSnr(80, 0.3, 6000) - voiceSnr(80, 1, 6000)).toBeCloseTo(-10.46, 2);
});

test('below threshold 1 dB of carrier is worth 2 dB of speech', () => {
  expect(voiceSnr(20, 0.8, 6000) - voiceSnr(10, 0.8, 6000)).toBeGreaterThan(19);
});

test('a carrier as weak as its noise: square-law moments, 2 m² over 2N + N² (any text on envelope detection)', () => {
  for (const [m, noise] of [
    [1, 1],
    [0.8, 2],
    [0.3, 0.5],
  ] as const)
    expect(voiceSnr(10 * Math.log10(6000 / noise), m, 6000)).toBeCloseTo(
      10 * Math.log10((2 * m * m) / (2 * noise + noise * noise)),
      9,
    );
});

test('the samples agree with the formula at C/N 20 dB', () => {
  const n = 8 * RATE;
  const bandwidth = 6000;
  const cn0_dB = 20 + 10 * Math.log10(bandwidth);
  const run = (audio: Float64Array) => {
    const [re, im] = [new Float64Array(n).fill(1), new Float64Array(n)];
    modulateInPlace(re, im, audio, 0.8);
    addNoise(re, im, RATE / 10 ** (cn0_dB / 10), dice(6), 0);
    const sections = butterworthLowPass(6, bandwidth / 2, RATE);
    filterInPlace(re, sections, restOf(sections));
    filterInPlace(im, sections, restOf(sections));
    const out = detectEnvelope({ carrier: null }, re, im, RATE).audio.subarray(RATE);
    return out;
  };
  const power = (x: Float64Array) => x.reduce((s, v) => s + v * v, 0) / x.length;
  const [speech, silence] = [power(run(tone(n))), power(run(new Float64Array(n)))];
  expect(10 * Math.log10((speech - silence) / silence)).toBeCloseTo(voiceSnr(cn0_dB, 0.8, bandwidth), -0.5);
});

test('articulation index of flat noise: nothing at -12 dB, all at +18 dB, half between (Kryter 1962, from memory)', () => {
  expect([-20, -12, 3, 18, 30].map(articulation)).toEqual([0, 0, 0.5, 1, 1]);
});

test('words of a list of 32: none, more than half, nearly all (the curve of ANSI S3.5-1969, from memory)', () => {
  expect(understood(0)).toBe(0);
  expect(Math.abs(understood(0.1) - 0.55)).toBeLessThan(0.05);
  expect(Math.abs(understood(0.3) - 0.92)).toBeLessThan(0.05);
  expect(understood(0.75)).toBeGreaterThan(0.99);
});

// Six of the twenty bands end at 1000 Hz and ten at 1660 Hz (French and Steinberg 1947, from memory).
test('a narrow passband, or one beside the carrier, lets fewer of the twenty bands through', () => {
  expect(bandsPassed(0, 2000)).toBeCloseTo(6 / 20, 9);
  expect(bandsPassed(0, 3600)).toBeCloseTo(10 / 20, 9);
  expect(bandsPassed(0, 6000)).toBeCloseTo(15 / 20, 9);
  expect(bandsPassed(1000, 6000)).toBeLessThan(bandsPassed(0, 6000));
  expect(bandsPassed(3001, 6000)).toBe(0);
});

test('a fourth-order Butterworth passband: 3 dB at its edge, 24 dB an octave beyond (any text on filters)', () => {
  expect(passbandLoss_dB(0, 3000)).toBe(0);
  expect(passbandLoss_dB(1500, 3000)).toBeCloseTo(3.01, 2);
  expect(passbandLoss_dB(-12_000, 3000) - passbandLoss_dB(6000, 3000)).toBeCloseTo(24.08, 1);
});

const RX = { tuned_Hz: 4_718_000, bandwidth_Hz: 6000, innerNoise_dB: -60 };
const word = (more: Partial<HeardWord> = {}): HeardWord => ({
  t0_us: 0,
  t1_us: 400_000,
  word: 'ALFA',
  by: 'voice',
  station: 'QV4M',
  f_Hz: RX.tuned_Hz,
  depth: 0.8,
  cn0_dB: 60,
  ...more,
});
const other = (more: Partial<Arrival> = {}): Arrival => ({
  station: 'QV9B',
  emission: 'N0N',
  f_Hz: RX.tuned_Hz,
  field_dBuV: 20,
  cn0_dB: 60,
  depth: 0,
  ...more,
});

test('a word alone on its frequency stands as the envelope detector has it', () => {
  expect(wordSnr(word(), [], RX)).toBeCloseTo(voiceSnr(60, 0.8, 6000), 4);
  expect(wordSnr(word(), [other({ station: 'QV4M', cn0_dB: 90 })], RX)).toBe(wordSnr(word(), [], RX));
  expect(voiceChance(word({ depth: 0 }), [], RX)).toBe(0);
});

test('another carrier as strong as the noise in the passband costs 3 dB of carrier; one outside the passband little', () => {
  const cn0_dB = 10 * Math.log10(6000);
  const beside = wordSnr(word(), [other({ cn0_dB })], RX);
  expect(beside).toBeCloseTo(voiceSnr(60 - 3.01, 0.8, 6000), 2);
  expect(wordSnr(word(), [other({ cn0_dB, f_Hz: RX.tuned_Hz + 5900 })], RX)).toBeGreaterThan(beside + 2.5);
});

test('what is understood falls with noise, with a narrow passband, off tune, and with distortion', () => {
  const best = voiceChance(word(), [], RX);
  expect(best).toBeGreaterThan(0.99);
  let last = best;
  for (let cn0_dB = 60; cn0_dB >= 10; cn0_dB -= 2) {
    const chance = voiceChance(word({ cn0_dB }), [], RX);
    expect(chance).toBeLessThanOrEqual(last);
    last = chance;
  }
  expect(last).toBe(0);
  for (const worse of [
    voiceChance(word(), [], { ...RX, bandwidth_Hz: 1200 }),
    voiceChance(word({ f_Hz: RX.tuned_Hz + 2500 }), [], RX),
    voiceChance(word(), [], RX, 0.5),
    voiceChance(word(), [], { ...RX, innerNoise_dB: 25 }),
  ])
    expect(worse).toBeLessThan(best - 0.002);
});
