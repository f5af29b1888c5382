/** A recording on the air: the upper sideband of a suppressed carrier, as complex samples. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Ether } from '../../../src/core/ether/ether.ts';
import type { Recording } from '../../../src/core/samples/recording.ts';
import { CHANNEL_HZ, OWN, POST, powerOf, radiation, type Samples, surroundings } from './setting.ts';

const FROM_US = 123_457;
const tone = (f_Hz: number, rate = 8000, seconds = 2): Recording => ({
  rate,
  samples: Float64Array.from({ length: rate * seconds }, (_, i) => 0.3 * Math.sin((2 * Math.PI * f_Hz * i) / rate)),
});

function ear(recording: Recording, repeats = true, power_W = 1e6) {
  const sound = { name: 'a.wav', carrier_Hz: CHANNEL_HZ - 2000, repeats };
  const r = radiation(POST, [{ t_us: FROM_US, f_Hz: CHANNEL_HZ, power_W, sound }], [], 'J3E');
  return new Ether(surroundings, 5, () => [r], {}, new Map([['a.wav', recording]])).earOf(OWN);
}

/** Power at an offset from the middle, by correlation over whole samples. */
function powerAt({ re, im }: Samples, offset_Hz: number, rate: number): number {
  let [p, q] = [0, 0];
  for (let k = 0; k < re.length; k++) {
    const turn = (-2 * Math.PI * offset_Hz * k) / rate;
    p += re[k]! * Math.cos(turn) - im[k]! * Math.sin(turn);
    q += re[k]! * Math.sin(turn) + im[k]! * Math.cos(turn);
  }
  return (p * p + q * q) / re.length ** 2;
}
const dB = (ratio: number) => 10 * Math.log10(ratio);

describe('a recording on the air', () => {
  // Single sideband by definition (Radio Regulations, Appendix 1, J3E): a tone of f stands at the carrier plus f and nowhere else.
  it('is a tone at the suppressed carrier plus its own frequency, with the mean power that arrives', () => {
    fc.assert(
      fc.property(fc.integer({ min: -40, max: 40 }), fc.constantFrom(8000, 11_025, 48_000), (twenties, wavRate) => {
        const offset = twenties * 20;
        const e = ear(tone(2000 + offset, wavRate));
        const got = e.samples(1_000_000, 1_400_000, CHANNEL_HZ, 2400);
        const cn0_dB = e.arrivals(1_000_000)[0]!.cn0_dB;
        expect(dB(powerAt(got, offset, 2400))).toBeCloseTo(cn0_dB, 0);
        // 4 kHz lower, where the lower sideband would be.
        const below = e.samples(1_000_000, 1_400_000, CHANNEL_HZ - 4000, 2400);
        expect(dB(powerOf(below) / 2400)).toBeLessThan(10);
      }),
      { seed: 3, numRuns: 30 },
    );
  });

  it('fills no place where its band does not reach', () => {
    const far = ear(tone(2000)).samples(1_000_000, 1_200_000, CHANNEL_HZ + 40_000, 2400);
    expect(dB(powerOf(far) / 2400)).toBeCloseTo(0, 0);
  });

  it('is silent before it begins and, unrepeated, after its end', () => {
    const e = ear(tone(2000, 8000, 0.5), false);
    for (const t of [0, 700_000]) {
      expect(dB(powerOf(e.samples(t, t + 100_000, CHANNEL_HZ, 2400)) / 2400)).toBeCloseTo(0, 0);
    }
  });

  it('is the same however time is chopped', () => {
    const noisy: Recording = {
      rate: 8000,
      samples: Float64Array.from({ length: 3000 }, (_, i) => ((i * 7919) % 200) / 100 - 1),
    };
    const cuts = fc.array(fc.integer({ min: 0, max: 900_000 }), { maxLength: 6 });
    fc.assert(
      fc.property(cuts, fc.constantFrom(1200, 2400, 9600), fc.boolean(), (list, rate, repeats) => {
        const at = [0, ...list.sort((a, b) => a - b), 900_000];
        const whole = ear(noisy, repeats).samples(0, 900_000, CHANNEL_HZ, rate);
        const chopped = ear(noisy, repeats);
        const pieces = at.slice(1).map((t, i) => chopped.samples(at[i]!, t, CHANNEL_HZ, rate));
        expect(Float64Array.from(pieces.flatMap((p) => Array.from(p.re)))).toEqual(whole.re);
        expect(Float64Array.from(pieces.flatMap((p) => Array.from(p.im)))).toEqual(whole.im);
      }),
      { seed: 4, numRuns: 25 },
    );
  });
});
