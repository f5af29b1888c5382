/** A small world for tests of the ether: own station, a post over ground and sea, another farther off. */
import { Ether, type EtherState, type Surroundings } from '../../../src/core/ether/ether.ts';
import type { CarrierStep, Emission, Radiation, SpokenWord } from '../../../src/core/signals.ts';

export const OWN = 'QV4M';
export const POST = 'QV7K';
export const ISLE = 'QV9B';
export const CHANNEL_HZ = 4_718_000;

/** Forenoon of an October day at 52 N 10 E. */
export const surroundings: Surroundings = {
  own: OWN,
  climate: { month: 10, utc0_h: 9.5, at: [52, 10], R12: 60, noise: 'rural' },
  routes: new Map([
    [
      POST,
      [
        { ground: 'average', km: 9 },
        { ground: 'sea', km: 22 },
      ],
    ],
    [ISLE, [{ ground: 'average', km: 47 }]],
  ]),
};

export const radiation = (
  station: string,
  steps: CarrierStep[],
  words: SpokenWord[] = [],
  emission: Emission = 'F1B',
): Radiation => ({ station, emission, steps, words, depth: 0.8 });

export const carrier = (station: string, f_Hz = CHANNEL_HZ, power_W = 8): Radiation =>
  radiation(station, [{ t_us: 0, f_Hz, power_W }]);

/** The ether over these radiations. */
export const over = (radiations: readonly Radiation[], seed = 1, around = surroundings, from?: EtherState): Ether =>
  new Ether(around, seed, () => radiations, from);

export type Samples = { re: Float64Array; im: Float64Array };
/** Mean power of samples. */
export const powerOf = ({ re, im }: Samples): number =>
  re.reduce((sum, x, i) => sum + x * x + (im[i] as number) ** 2, 0) / re.length;
