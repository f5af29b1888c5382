/** What single questions cost: demodulators, ground wave, whip, sky wave. */
import { Paths } from '../../src/core/ether/paths.ts';
import { grounds } from '../../src/core/physics/ground-wave/ground.ts';
import { groundWave } from '../../src/core/physics/ground-wave/ground-wave.ts';
import { skyWave } from '../../src/core/physics/sky-wave/sky-wave.ts';
import { whipSolution } from '../../src/core/physics/whip.ts';
import { converterAtRest, converterRun } from '../../src/core/samples/converter.ts';
import { fskAtRest, fskRun } from '../../src/core/samples/fsk.ts';
import { makeFskWav, readFsk } from '../../src/core/samples/listening.ts';
import { groups } from '../core/samples/dice.ts';
import { cpu_ms, percentile, type Table } from './table.ts';

const RATE = 8000;
const ROUNDS = 9;

/** Milliseconds a call, warm: the median of rounds of `times` calls. */
function each_ms(times: number, call: (i: number) => unknown): number {
  const round = (r: number) =>
    cpu_ms(() => {
      for (let i = 0; i < times; i++) call(r * times + i);
    }) / times;
  round(0);
  return percentile(
    Array.from({ length: ROUNDS }, (_, r) => round(r + 1)),
    0.5,
  );
}

function reader(): number {
  const sound = makeFskWav({ text: groups(1, 200) });
  return sound.length / RATE / (each_ms(1, () => readFsk(sound, RATE)) / 1000);
}

/** In blocks of a tenth of a second, as the station takes them. */
function converter(kind: 'tone filters' | 'discriminator'): number {
  const edges = Array.from({ length: 50 }, (_, i) => ({ t_us: i * 20_000, mark: i % 3 === 0 }));
  const { re, im } = fskRun(fskAtRest(), edges, RATE / 10, RATE, { shift: 850, sense: 'mark low' });
  let state = converterAtRest();
  const block = () => {
    state = converterRun(state, re, im, RATE, { shift: 850, sense: 'mark low', kind }).state;
  };
  return 100 / each_ms(600, block);
}

const somewhere = (i: number) => 1.5 + ((i * 0.618034) % 1) * 18.5;

function skyQuestion(i: number) {
  const rx: readonly [number, number] = [50 + (i % 7) / 10, 11 + (i % 11) / 10];
  return skyWave({ tx: [50, 10], rx, R12: 50, month: 1 + (i % 12), hour_UT: i % 24, f_MHz: 2 + (i % 9) });
}

/** Speed of kernels. */
export function speedTable(): Table {
  const ground = { eps_r: 15, sigma_S_per_m: 0.005 };
  const path = (i: number) => groundWave({ f_MHz: 5, d_km: 1 + ((i * 0.618034) % 1) * 999, ground }).E_dBuV_per_m;
  const climate = { month: 3, utc0_h: 8, at: [50, 10], R12: 50, noise: 'rural' } as const;
  const paths = new Paths(climate);
  const route = [{ ground: Object.keys(grounds)[0] as string, km: 40 }];
  return {
    title: 'What single questions cost (one core, warm, median)',
    rows: [
      { what: '`wav read` at 8 kHz', value: reader(), unit: 'x real time', bar: { least: 2000 } },
      {
        what: 'converter of the terminal unit at 8 kHz, tone filters',
        value: converter('tone filters'),
        unit: 'x real time',
      },
      {
        what: 'converter of the terminal unit at 8 kHz, discriminator',
        value: converter('discriminator'),
        unit: 'x real time',
      },
      { what: 'ground wave, one value', value: 1000 * each_ms(20_000, path), unit: 'us', bar: { most: 10 } },
      {
        what: 'whip, one impedance',
        value: each_ms(200, (i) => whipSolution({ f_MHz: 1.5 + (i % 100) / 10, h_m: 5.2, a_m: 0.01 })),
        unit: 'ms',
        bar: { most: 1 },
      },
      { what: 'sky wave, one answer', value: 1000 * each_ms(200, skyQuestion), unit: 'us' },
      {
        what: 'ether: a path at a frequency already asked',
        value: 1000 * each_ms(50_000, () => paths.fields(route, 4_718_000, 0)),
        unit: 'us',
      },
      {
        what: 'ether: a path at a new frequency',
        value: 1000 * each_ms(200, (i) => paths.fields(route, 1e6 * somewhere(i), 0)),
        unit: 'us',
      },
    ],
  };
}
