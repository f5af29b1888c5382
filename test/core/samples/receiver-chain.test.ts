import fc from 'fast-check';
import { expect, test } from 'vitest';
import { agcAtRest, agcInPlace } from '../../../src/core/samples/agc.ts';
import { addNoise } from '../../../src/core/samples/noise.ts';
import {
  AUDIO_RATE,
  FULL_dBuV,
  intermediateRate,
  type ReceiverSettings,
  type ReceiverState,
  receive,
  receiverAtRest,
} from '../../../src/core/samples/receiver-chain.ts';
import { dice } from './dice.ts';

const SET: ReceiverSettings = { bandwidth_Hz: 3000, agc: 'off', bfo_Hz: 0, limiter: false, volume_dB: 0 };
const dB = (ratio: number) => 10 * Math.log10(ratio);

type Z = { re: Float64Array; im: Float64Array };
const silence = (count: number): Z => ({ re: new Float64Array(count), im: new Float64Array(count) });

/** A carrier `offset_Hz` from the middle, `uV` strong, with `audio(t)` as its modulation. */
function carrier(bandwidth_Hz: number, seconds: number, offset_Hz: number, uV: number, audio = (_t: number) => 0): Z {
  const rate = intermediateRate(bandwidth_Hz);
  const z = silence(Math.round(seconds * rate));
  for (let i = 0; i < z.re.length; i++) {
    const a = uV * (1 + audio(i / rate));
    z.re[i] = a * Math.cos((2 * Math.PI * offset_Hz * i) / rate);
    z.im[i] = a * Math.sin((2 * Math.PI * offset_Hz * i) / rate);
  }
  return z;
}

// Volume already up: it glides within the first block otherwise.
const loud = (): ReceiverState => ({ ...receiverAtRest(), volume: 1 });
const hear = ({ re, im }: Z, set: Partial<ReceiverSettings> = {}, state = loud()) =>
  receive(state, re, im, { ...SET, ...set });

/** Complex amplitude of one frequency in the samples from `from` to `to`, seconds. */
function tone(x: Float64Array, f_Hz: number, from = 0, to = x.length / AUDIO_RATE): { size: number; turns: number } {
  let [c, s, n] = [0, 0, 0];
  for (let i = Math.round(from * AUDIO_RATE); i < Math.round(to * AUDIO_RATE); i++, n++) {
    c += x[i]! * Math.cos((2 * Math.PI * f_Hz * i) / AUDIO_RATE);
    s += x[i]! * Math.sin((2 * Math.PI * f_Hz * i) / AUDIO_RATE);
  }
  return { size: (2 * Math.hypot(c, s)) / n, turns: Math.atan2(c, s) / (2 * Math.PI) };
}

const power = (x: Float64Array, from = 0, to = x.length / AUDIO_RATE): number => {
  const part = x.subarray(Math.round(from * AUDIO_RATE), Math.round(to * AUDIO_RATE));
  return part.reduce((sum, v) => sum + v * v, 0) / part.length;
};

/** Frequency of a steady note by how far its phase runs between two looks, Hz; right if it is within half a hertz of `near`. */
function noteOf(x: Float64Array, near: number): number {
  const runs = tone(x, near, 2, 3).turns - tone(x, near, 1, 2).turns;
  return near - (runs - Math.round(runs));
}

test('a carrier at the edge of the passband is 3 dB down, beyond it falls as the formula says (Butterworth, 4th order: |H|² = 1/(1 + (2f/B)^8))', () => {
  for (const bandwidth_Hz of [500, 1200, 3000, 6000]) {
    const rate = intermediateRate(bandwidth_Hz);
    const heard = (offset: number) => {
      // The BFO brings every offset to the same 600 Hz, where the audio filter is flat.
      const z = carrier(bandwidth_Hz, 1, offset, 100);
      return tone(hear(z, { bandwidth_Hz, bfo_Hz: offset - 600 }).audio, 600, 0.5, 1).size;
    };
    const middle = heard(0);
    const edge = bandwidth_Hz / 2;
    expect(2 * dB(heard(edge) / middle)).toBeCloseTo(-3.0103, 1);
    expect(2 * dB(heard(-edge) / middle)).toBeCloseTo(-3.0103, 1);
    const out = 1.2 * edge;
    const warped = Math.tan((Math.PI * out) / rate) / Math.tan((Math.PI * edge) / rate);
    expect(2 * dB(heard(out) / middle)).toBeCloseTo(-dB(1 + warped ** 8), 1);
  }
});

test('the beat note is |f_signal - f_BFO|, to a thousandth of a hertz, at every bandwidth', () => {
  for (const [bandwidth_Hz, offset, bfo_Hz] of [
    [500, 137.25, -700.5],
    [1200, -400, 1000],
    [3000, 75, 0],
    [3000, 1200, -1250.125],
    [6000, -2500, 740],
  ] as const) {
    const { audio } = hear(carrier(bandwidth_Hz, 3, offset, 100), { bandwidth_Hz, bfo_Hz });
    const want = Math.abs(offset - bfo_Hz);
    expect(Math.abs(noteOf(audio, want) - want)).toBeLessThan(1e-3);
    // And nothing else: no image of the change of rates, no folding.
    const size = tone(audio, want, 1, 3).size;
    expect(dB(power(audio, 1, 3) / (size ** 2 / 2))).toBeLessThan(0.001);
  }
});

test('at zero beat there is nothing to hear, at 20 Hz hardly anything', () => {
  const note = power(hear(carrier(3000, 2, 500, 100)).audio, 1, 2);
  expect(power(hear(carrier(3000, 2, 0, 100)).audio, 1, 2) / note).toBeLessThan(1e-9);
  expect(dB(power(hear(carrier(3000, 2, 20, 100)).audio, 1, 2) / note)).toBeLessThan(-6);
});

test('a carrier of full strength just fills the audio, a hundred times as much does not overflow it', () => {
  const full = 10 ** (FULL_dBuV / 20);
  expect(tone(hear(carrier(3000, 2, 500, full)).audio, 500, 1, 2).size).toBeCloseTo(1, 2);
  for (const set of [{}, { bfo_Hz: null }, { agc: 'slow' as const }])
    for (const v of hear(
      carrier(3000, 1, 500, 100 * full, (t) => Math.sin(2000 * t)),
      set,
    ).audio)
      expect(Math.abs(v)).toBeLessThanOrEqual(1);
});

test('AGC: 60 dB more in is 3 dB more out', () => {
  const out = (uV: number, agc: 'fast' | 'slow') =>
    2 * dB(tone(hear(carrier(3000, 2, 500, uV), { agc }).audio, 500, 1, 2).size);
  for (const agc of ['fast', 'slow'] as const) {
    expect(out(10_000, agc) - out(10, agc)).toBeCloseTo(3, 1);
    expect(out(10_000, agc) - out(10, agc)).toBeLessThan(6);
  }
});

test('AGC: the rise follows its time constant, the fall its decibels a second', () => {
  const rate = 8000;
  for (const [agc, attack_s, release_dB_s] of [
    ['fast', 0.002, 300],
    ['slow', 0.005, 25],
  ] as const) {
    const run = (level_dBuV: number, uV: number, seconds: number) => {
      const z = { re: new Float64Array(Math.round(seconds * rate)).fill(uV), im: new Float64Array(seconds * rate) };
      return agcInPlace({ level_dBuV }, z.re, new Float64Array(z.re.length), rate, agc).level_dBuV;
    };
    // 1 - 1/e of a step of 60 dB after one time constant.
    expect(run(0, 1000, attack_s)).toBeCloseTo(60 * (1 - Math.exp(-1)), 0);
    expect(run(60, 1, 0.1)).toBeCloseTo(60 - release_dB_s * 0.1, 6);
    expect(run(60, 1, 10)).toBeCloseTo(0, 9);
  }
  expect(agcAtRest().level_dBuV).toBeLessThan(0);
});

test('AM: SNR out = m² C/N in the passband (envelope detector, strong carrier; any text on communication theory)', () => {
  const bandwidth_Hz = 3000;
  const rate = intermediateRate(bandwidth_Hz);
  // Noise bandwidth of a Butterworth of order n: (pi/2n)/sin(pi/2n) of the 3 dB width.
  const width = (bandwidth_Hz * (Math.PI / 8)) / Math.sin(Math.PI / 8);
  // The detector's 30 Hz and the audio's 40 Hz corner take a little of the noise and nothing of the note (sum over 1 Hz steps).
  let [all, kept] = [0, 0];
  for (let f = 0.5; f < 4000; f++) {
    const through = 1 / (1 + (f / 1500) ** 8);
    all += through;
    kept += (through * f ** 4) / ((f * f + 30 ** 2) * (f * f + 40 ** 2));
  }
  const lost_dB = -dB(kept / all);
  for (const [m, cn_dB] of [
    [0.3, 30],
    [0.8, 25],
  ] as const) {
    const z = carrier(bandwidth_Hz, 20, 0, 100, (t) => m * Math.sin(2 * Math.PI * 700 * t));
    addNoise(z.re, z.im, (100 ** 2 / 10 ** (cn_dB / 10) / width) * rate, dice(5), 0);
    const { audio } = hear(z, { bandwidth_Hz, bfo_Hz: null });
    const signal = tone(audio, 700, 1, 20).size ** 2 / 2;
    const noise = power(audio, 1, 20) - signal;
    expect(Math.abs(dB(signal / noise) - (2 * dB(m) + cn_dB) - lost_dB)).toBeLessThan(0.2);
  }
});

test('hiss follows the bandwidth: 10 log of the ratio', () => {
  const hiss = (bandwidth_Hz: number) => {
    const rate = intermediateRate(bandwidth_Hz);
    const z = silence(20 * rate);
    addNoise(z.re, z.im, rate, dice(6), 0);
    return dB(power(hear(z, { bandwidth_Hz, bfo_Hz: 1700 }).audio, 1, 20));
  };
  expect(Math.abs(hiss(1200) - hiss(500) - dB(1200 / 500))).toBeLessThan(0.3);
  expect(Math.abs(hiss(3000) - hiss(1200) - dB(3000 / 1200))).toBeLessThan(0.3);
});

test('the limiter cuts crashes down to the signal and leaves full modulation alone', () => {
  const z = carrier(6000, 3, 0, 100, (t) => 0.95 * Math.sin(2 * Math.PI * 500 * t));
  const rate = intermediateRate(6000);
  const clean = hear(z, { bandwidth_Hz: 6000, bfo_Hz: null, limiter: true }).audio;
  const plain = hear(z, { bandwidth_Hz: 6000, bfo_Hz: null, limiter: false }).audio;
  expect(dB(power(clean, 2, 3) / power(plain, 2, 3))).toBeCloseTo(0, 2);
  for (let i = 2 * rate; i < z.re.length; i += rate / 10) z.re[i] = 100 * 100;
  const peak = (limiter: boolean) => {
    const { audio } = hear(z, { bandwidth_Hz: 6000, bfo_Hz: null, limiter });
    return audio.subarray(2 * AUDIO_RATE + 8).reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  };
  const signal = plain.subarray(2 * AUDIO_RATE).reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  expect(peak(false) / signal).toBeGreaterThan(8);
  expect(peak(true) / signal).toBeLessThan(1.5);
});

test('volume: 20 dB less is a tenth, silent is silent, and a change glides', () => {
  const z = carrier(3000, 1, 500, 100);
  const full = tone(hear(z).audio, 500, 0.5, 1).size;
  const later = (volume_dB: number | null) => {
    const first = hear(z, { volume_dB }).state;
    return tone(hear(z, { volume_dB }, first).audio, 500, 0.5, 1).size;
  };
  expect(later(-20) / full).toBeCloseTo(0.1, 3);
  expect(later(null)).toBe(0);
});

test('blocks join: any chopping gives the same audio, and the state is plain JSON', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(500, 1200, 3000, 6000),
      fc.constantFrom<number | null>(null, 0, -730),
      fc.constantFrom<'off' | 'fast' | 'slow'>('off', 'fast', 'slow'),
      fc.boolean(),
      fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 12 }),
      (bandwidth_Hz, bfo_Hz, agc, limiter, lengths) => {
        const set = { ...SET, bandwidth_Hz, bfo_Hz, agc, limiter };
        const z = carrier(bandwidth_Hz, 0.3, 210, 300, (t) => 0.5 * Math.sin(2000 * t));
        addNoise(z.re, z.im, 1e4, dice(7), 0);
        // The first block glides up from silence: let both begin behind it.
        const begun = hear({ re: z.re.slice(0, 64), im: z.im.slice(0, 64) }, set).state;
        const whole = receive(begun, z.re.slice(64), z.im.slice(64), set).audio;
        const pieces: number[] = [];
        let state: ReceiverState = begun;
        for (let at = 64, i = 0; at < z.re.length; i++) {
          const to = Math.min(z.re.length, at + (i < lengths.length ? lengths[i]! : 1000));
          const part = receive(state, z.re.slice(at, to), z.im.slice(at, to), set);
          state = JSON.parse(JSON.stringify(part.state)) as ReceiverState;
          pieces.push(...part.audio);
          at = to;
        }
        expect(pieces.length).toBe(whole.length);
        // The BFO's phase is summed block by block: equal to a few times the last digit.
        expect(pieces.reduce((most, v, i) => Math.max(most, Math.abs(v - whole[i]!)), 0)).toBeLessThan(1e-12);
      },
    ),
    { seed: 31, numRuns: 30 },
  );
});

test('a change of bandwidth in the middle of a note neither breaks nor deafens', () => {
  let state = loud();
  for (const bandwidth_Hz of [6000, 500, 3000, 1200, 500]) {
    const got = hear(carrier(bandwidth_Hz, 0.5, 0, 100), { bandwidth_Hz, bfo_Hz: -800 }, state);
    state = got.state;
    expect(got.audio.length).toBe(AUDIO_RATE / 2);
    expect(tone(got.audio, 800, 0.25, 0.5).size).toBeCloseTo(100 / 10 ** (FULL_dBuV / 20), 3);
  }
});

test('a bandwidth that does not fit throws with its number', () => {
  expect(() => intermediateRate(0)).toThrow('got 0');
  expect(() => intermediateRate(7000)).toThrow('got 7000');
  expect(() => intermediateRate(Number.NaN)).toThrow(RangeError);
});
