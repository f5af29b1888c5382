/** Who hears whom: fields, words, noise and carriers, as laws and against published values. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CarrierStep } from '../../../src/core/signals.ts';
import { CHANNEL_HZ, carrier, ISLE, OWN, over, POST, powerOf, radiation, surroundings } from './setting.ts';

const RATE = 2400;
const dB = (ratio: number) => 10 * Math.log10(ratio);

describe('fields', () => {
  const arrival = (at: string, from: string) =>
    over([carrier(from, CHANNEL_HZ, 1000)])
      .earOf(at)
      .arrivals(1)[0]!;

  it('lie between those over all ground and all sea', () => {
    // ITU-R P.368: a short monopole that radiates 1 kW over perfect ground gives 300 mV/m at 1 km, falling as the distance; over
    // sea at 5 MHz and 31 km the curve is still near that line, over average ground it lies far below.
    const inverse = 20 * Math.log10(300_000 / 31);
    const { field_dBuV } = arrival(OWN, POST);
    expect(field_dBuV).toBeLessThan(inverse);
    const onGround = new Map([[POST, [{ ground: 'average', km: 31 }]]]);
    const ground = over([carrier(POST, CHANNEL_HZ, 1000)], 1, { ...surroundings, routes: onGround }).earOf(OWN);
    expect(field_dBuV).toBeGreaterThan(ground.arrivals(1)[0]!.field_dBuV);
  });

  it('are the same both ways', () => {
    expect(arrival(OWN, POST).field_dBuV).toBe(arrival(POST, OWN).field_dBuV);
    expect(arrival(ISLE, POST).field_dBuV).toBe(arrival(POST, ISLE).field_dBuV);
  });

  it('rise 10 dB with ten times the power, and the ratio to the noise with them', () => {
    const at = (W: number) =>
      over([carrier(POST, CHANNEL_HZ, W)])
        .earOf(OWN)
        .arrivals(1)[0]!;
    expect(at(50).field_dBuV - at(5).field_dBuV).toBeCloseTo(10, 9);
    expect(at(50).cn0_dB - at(5).cn0_dB).toBeCloseTo(10, 9);
    const ear = over([carrier(POST)]).earOf(OWN);
    const [a] = ear.arrivals(1);
    expect(a!.field_dBuV - ear.noise_dBuV(CHANNEL_HZ)).toBeCloseTo(a!.cn0_dB, 9);
  });

  it('come strongest first, without the own station and without the silent', () => {
    const silent = radiation('QV2D', [{ t_us: 0, f_Hz: CHANNEL_HZ, power_W: 0 }]);
    const ear = over([carrier(OWN), carrier(ISLE), silent, carrier(POST)]).earOf(OWN);
    expect(ear.arrivals(1).map((a) => a.station)).toEqual([POST, ISLE]);
  });

  it('of a carrier begin and end with its steps', () => {
    const r = radiation(POST, [
      { t_us: 1000, f_Hz: CHANNEL_HZ, power_W: 5 },
      { t_us: 2000, f_Hz: CHANNEL_HZ, power_W: 0 },
    ]);
    const ear = over([r]).earOf(OWN);
    expect([999, 1000, 1999, 2000].map((t) => ear.arrivals(t).length)).toEqual([0, 1, 1, 0]);
  });

  it('of the night bring the sky wave of a distant station', () => {
    // 600 km at 3 MHz: nothing by day (absorption in the D layer), plain by night (common practice).
    const far = new Map([[POST, [{ ground: 'average', km: 600 }]]]);
    const at = (utc0_h: number) =>
      over([carrier(POST, 3_000_000, 50)], 1, {
        ...surroundings,
        routes: far,
        climate: { ...surroundings.climate, utc0_h },
      })
        .earOf(OWN)
        .arrivals(1)[0]!.cn0_dB;
    expect(at(1) - at(11.5)).toBeGreaterThan(20);
  });
});

describe('noise', () => {
  it('is that of ITU-R P.372 for a rural place', () => {
    // P.372-16, Table 1 and equation (12): Fam = 67.2 - 27.7 lg f = 48.5 dB at 4.718 MHz; equation (7) for a short monopole:
    // En = Fam + 20 lg f + B - 95.5 with B = 0 dB (1 Hz) gives -33.5 dB(uV/m); galactic noise adds a little.
    const fam = 67.2 - 27.7 * Math.log10(4.718);
    const en = fam + 20 * Math.log10(4.718) - 95.5;
    const here = over([]).earOf(OWN).noise_dBuV(CHANNEL_HZ);
    expect(here).toBeGreaterThan(en - 0.05);
    expect(here).toBeLessThan(en + 0.6);
  });

  it('has unit power in 1 Hz and no middle', () => {
    for (const rate of [2400, 4800]) {
      const x = over([]).earOf(OWN).samples(0, 20e6, CHANNEL_HZ, rate);
      expect(powerOf(x) / rate).toBeCloseTo(1, 1);
      const mean = x.re.reduce((a, b) => a + b, 0) / x.re.length;
      expect(Math.abs(mean) / Math.sqrt(rate)).toBeLessThan(0.02);
    }
  });

  it('is white', () => {
    const { re, im } = over([]).earOf(OWN).samples(0, 20e6, CHANNEL_HZ, RATE);
    for (const lag of [1, 2, 5]) {
      let sum = 0;
      for (let i = lag; i < re.length; i++) sum += re[i]! * re[i - lag]! + im[i]! * im[i - lag]!;
      expect(Math.abs(sum / re.length / RATE)).toBeLessThan(0.02);
    }
  });

  it('differs from seed to seed and from place to place', () => {
    const first = (seed: number, at: string) => over([], seed).earOf(at).samples(0, 10_000, CHANNEL_HZ, RATE).re[0];
    expect(new Set([first(1, OWN), first(2, OWN), first(1, POST)]).size).toBe(3);
  });
});

describe('carriers', () => {
  it('stand as far above the noise as their arrival says', () => {
    for (const power_W of [0.5, 8]) {
      const ear = over([carrier(POST, CHANNEL_HZ + 300, power_W)]).earOf(OWN);
      const signal = powerOf(ear.samples(0, 5e6, CHANNEL_HZ, RATE)) - RATE;
      expect(dB(signal)).toBeCloseTo(ear.arrivals(0)[0]!.cn0_dB, 0.5);
    }
  });

  it('turn at their distance from the middle', () => {
    const { re, im } = over([carrier(POST, CHANNEL_HZ - 200)])
      .earOf(OWN)
      .samples(0, 1e6, CHANNEL_HZ, RATE);
    // Projected on -200 Hz (negative: below the middle) all of the power is there.
    let [x, y] = [0, 0];
    for (let k = 0; k < re.length; k++) {
      const a = (2 * Math.PI * 200 * k) / RATE;
      x += re[k]! * Math.cos(a) - im[k]! * Math.sin(a);
      y += re[k]! * Math.sin(a) + im[k]! * Math.cos(a);
    }
    expect((x * x + y * y) / re.length ** 2 / powerOf({ re, im })).toBeGreaterThan(0.99);
  });

  it('beyond half the rate are not in the samples', () => {
    const bare = over([]).earOf(OWN).samples(0, 1e5, CHANNEL_HZ, RATE);
    expect(
      over([carrier(POST, CHANNEL_HZ + 1201)])
        .earOf(OWN)
        .samples(0, 1e5, CHANNEL_HZ, RATE),
    ).toEqual(bare);
  });

  it('keep their phase over a step of frequency', () => {
    const steps: CarrierStep[] = [
      { t_us: 0, f_Hz: CHANNEL_HZ - 200, power_W: 500 },
      { t_us: 51_237, f_Hz: CHANNEL_HZ + 200, power_W: 500 },
    ];
    const { re, im } = over([radiation(POST, steps)])
      .earOf(OWN)
      .samples(0, 100_000, CHANNEL_HZ, 9600);
    // Without a jump of phase no two neighbouring samples are further apart than one turn at 200 Hz, and noise.
    const size = Math.sqrt(powerOf({ re, im }));
    for (let i = 1; i < re.length; i++) {
      const turn = Math.atan2(im[i]! * re[i - 1]! - re[i]! * im[i - 1]!, re[i]! * re[i - 1]! + im[i]! * im[i - 1]!);
      expect(Math.abs(turn)).toBeLessThan((2 * Math.PI * 200) / 9600 + (6 * Math.sqrt(9600)) / size);
    }
  });

  it('keep their phase over a break', () => {
    const at = (steps: CarrierStep[]) =>
      over([radiation(POST, steps)])
        .earOf(OWN)
        .samples(60_000, 90_000, CHANNEL_HZ, RATE);
    const on = { t_us: 0, f_Hz: CHANNEL_HZ + 137, power_W: 8 };
    const unbroken = at([on]);
    const broken = at([on, { ...on, t_us: 40_001, power_W: 0 }, { ...on, t_us: 55_003 }]);
    for (const [i, x] of broken.re.entries()) expect(x).toBeCloseTo(unbroken.re[i]!, 3);
  });

  it('carry speech as amplitude', () => {
    const words = [{ t0_us: 0, t1_us: 400_000, word: 'KILO', by: 'voice' as const }];
    const at = (w: typeof words) =>
      over([radiation(POST, [{ t_us: 0, f_Hz: CHANNEL_HZ, power_W: 50 }], w, 'A3E')])
        .earOf(OWN)
        .samples(0, 800_000, CHANNEL_HZ, 9600);
    const spoken = at(words);
    const bare = at([]);
    const half = (x: { re: Float64Array; im: Float64Array }, from: number) => ({
      re: x.re.slice(from, from + 3840),
      im: x.im.slice(from, from + 3840),
    });
    expect(powerOf(half(spoken, 0)) / powerOf(half(bare, 0))).toBeGreaterThan(1.02);
    expect(half(spoken, 3840)).toEqual(half(bare, 3840));
  });

  it('fade when they come by the sky, mark and space not quite alike', () => {
    const far = { ...surroundings, routes: new Map([[POST, [{ ground: 'average', km: 600 }]]]) };
    const night = { ...far, climate: { ...far.climate, utc0_h: 1 } };
    const levels = (f_Hz: number) => {
      const ear = over([carrier(POST, f_Hz, 500)], 3, night).earOf(OWN);
      return Array.from({ length: 120 }, (_, n) => dB(powerOf(ear.samples(n * 2e6, n * 2e6 + 50_000, 3e6, RATE))));
    };
    const [mark, space] = [levels(3e6 - 200), levels(3e6 + 200)];
    expect(Math.max(...mark) - Math.min(...mark)).toBeGreaterThan(10);
    const apart = mark.map((x, n) => Math.abs(x - space[n]!));
    expect(Math.max(...apart)).toBeGreaterThan(1);
    const mean = mark.reduce((sum, x) => sum + 10 ** (x / 10), 0) / mark.length - RATE;
    const { cn0_dB } = over([carrier(POST, 3e6, 500)], 3, night)
      .earOf(OWN)
      .arrivals(0)[0]!;
    // Mean power is that of the arrival (ITU-R F.1487: both paths of equal mean power); 120 looks are good to about 1.5 dB.
    expect(Math.abs(dB(mean) - cn0_dB)).toBeLessThan(2);
  });
});

describe('words', () => {
  const words = [
    { t0_us: 0, t1_us: 400_000, word: 'KILO', by: 'voice' as const },
    { t0_us: 400_000, t1_us: 800_000, word: 'OVER', by: 'voice' as const },
  ];
  const talker = radiation(POST, [{ t_us: 0, f_Hz: CHANNEL_HZ, power_W: 8 }], words, 'A3E');

  it('are heard once, in the span in which they end', () => {
    const ear = over([talker]).earOf(OWN);
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(1, 399_999, 400_000, 400_001, 600_000, 800_000, 900_000), { maxLength: 8 }),
        (cuts) => {
          const at = [0, ...cuts.sort((a, b) => a - b), 1_000_000];
          const heard = at.slice(1).flatMap((t, i) => ear.words(at[i]!, t).map((w) => w.word));
          expect(heard).toEqual(['KILO', 'OVER']);
        },
      ),
      { seed: 7, numRuns: 50 },
    );
  });

  it('bring along what an ear needs', () => {
    const ear = over([talker]).earOf(OWN);
    const [word] = ear.words(0, 400_000);
    expect(word).toMatchObject({ station: POST, f_Hz: CHANNEL_HZ, depth: 0.8, by: 'voice' });
    expect(word!.cn0_dB).toBe(ear.arrivals(1)[0]!.cn0_dB);
  });

  it('keyed in Morse count although the key is up at their end', () => {
    const keyed = radiation(
      POST,
      [
        { t_us: 0, f_Hz: CHANNEL_HZ, power_W: 8 },
        { t_us: 100_000, f_Hz: CHANNEL_HZ, power_W: 0 },
      ],
      [{ t0_us: 0, t1_us: 100_000, word: 'E', by: 'morse' }],
      'A1A',
    );
    expect(over([keyed]).earOf(OWN).words(0, 200_000)).toHaveLength(1);
  });
});
