/** Samples are a function of absolute time: however they are asked for, and however far the phase marks have followed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CarrierStep, SpokenWord } from '../../../src/core/signals.ts';
import { CHANNEL_HZ, OWN, over, POST, radiation, type Samples, surroundings } from './setting.ts';

const RATE = 2400;
const END_US = 1_000_000;

const steps = fc
  .array(
    fc.record({
      t_us: fc.integer({ min: 0, max: END_US }),
      f_Hz: fc.constantFrom(CHANNEL_HZ - 200, CHANNEL_HZ + 200, CHANNEL_HZ + 913.7, CHANNEL_HZ + 9000),
      power_W: fc.constantFrom(0, 0.3, 8),
    }),
    { maxLength: 12 },
  )
  .map((list): CarrierStep[] => list.sort((a, b) => a.t_us - b.t_us));

const cuts = fc
  .array(fc.integer({ min: 0, max: END_US }), { maxLength: 6 })
  .map((list) => [0, ...list.sort((a, b) => a - b), END_US]);

const words: SpokenWord[] = [{ t0_us: 100_000, t1_us: 500_000, word: 'KILO', by: 'voice' }];

function joined(pieces: readonly Samples[]): Samples {
  return {
    re: Float64Array.from(pieces.flatMap((p) => Array.from(p.re))),
    im: Float64Array.from(pieces.flatMap((p) => Array.from(p.im))),
  };
}

// By night over 300 km the ground wave and a fading sky wave are both there.
const around = {
  ...surroundings,
  routes: new Map([[POST, [{ ground: 'sea', km: 300 }]]]),
  climate: { ...surroundings.climate, utc0_h: 20 },
};

describe('samples', () => {
  it('are the same however the time is chopped', () => {
    fc.assert(
      fc.property(steps, cuts, (list, at) => {
        const ear = () => over([radiation(POST, list, words, 'A3E+F1B')], 5, around).earOf(OWN);
        const whole = ear().samples(0, END_US, CHANNEL_HZ, RATE);
        const chopped = ear();
        const pieces = at.slice(1).map((t, i) => chopped.samples(at[i]!, t, CHANNEL_HZ, RATE));
        expect(joined(pieces)).toEqual(whole);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it('are the same wherever the marks have got to, and with the passed steps forgotten', () => {
    fc.assert(
      fc.property(steps, cuts, (list, at) => {
        const plain = over([radiation(POST, list)], 5, around)
          .earOf(OWN)
          .samples(900_000, END_US, CHANNEL_HZ, RATE);
        const left = [...list];
        const ether = over([radiation(POST, left)], 5, around);
        // Marks follow 1.5 s behind now.
        for (const t of at) ether.follow(Math.round(0.9 * t) + 1_500_000);
        while (left.length > 1 && left[1]!.t_us <= 900_000) left.shift();
        expect(ether.earOf(OWN).samples(900_000, END_US, CHANNEL_HZ, RATE)).toEqual(plain);
      }),
      { seed: 12, numRuns: 60 },
    );
  });

  it('go on alike from saved marks', () => {
    const list: CarrierStep[] = [
      { t_us: 0, f_Hz: CHANNEL_HZ - 200, power_W: 8 },
      { t_us: 333_333, f_Hz: CHANNEL_HZ + 200, power_W: 8 },
    ];
    const ether = over([radiation(POST, list)]);
    ether.follow(2_000_000);
    const saved = JSON.parse(JSON.stringify(ether.state));
    const ask = (e: typeof ether) => e.earOf(OWN).samples(1_900_000, 2_000_000, CHANNEL_HZ, RATE);
    expect(ask(over([radiation(POST, list)], 1, surroundings, saved))).toEqual(ask(ether));
  });

  it('do not depend on what else was asked', () => {
    const r = radiation(POST, [{ t_us: 0, f_Hz: CHANNEL_HZ, power_W: 8 }], words, 'A3E');
    const ear = over([r], 5, around).earOf(OWN);
    const first = ear.samples(200_000, 300_000, CHANNEL_HZ, RATE);
    ear.arrivals(5);
    ear.words(0, 600_000);
    ear.samples(0, 900_000, CHANNEL_HZ + 100, 4800);
    expect(ear.samples(200_000, 300_000, CHANNEL_HZ, RATE)).toEqual(first);
  });
});
