import { expect, test } from 'vitest';
import { detectEnvelope, modulateInPlace } from '../../../src/core/samples/am.ts';
import { butterworthLowPass, filterInPlace, restOf } from '../../../src/core/samples/filter.ts';
import { addNoise } from '../../../src/core/samples/noise.ts';
import { articulation, intelligibility, voiceSnr } from '../../../src/core/samples/voice.ts';
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

test('words understood grow with the ratio, and a known list is understood sooner', () => {
  expect(articulation(3)).toBe(0.5);
  let last = -1;
  for (let snr = -15; snr <= 25; snr++) {
    const words = intelligibility(snr);
    expect(words).toBeGreaterThanOrEqual(last);
    expect(intelligibility(snr, 'spelling')).toBeGreaterThanOrEqual(words);
    last = words;
  }
  expect(intelligibility(-12)).toBe(0);
  expect(intelligibility(18)).toBe(0.98);
});
