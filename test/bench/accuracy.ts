/** The computed world beside the published references in test/vectors. */
import { readFileSync } from 'node:fs';
import { type GroundName, grounds } from '../../src/core/physics/ground-wave/ground.ts';
import { groundWave } from '../../src/core/physics/ground-wave/ground-wave.ts';
import { mixedGroundWave } from '../../src/core/physics/ground-wave/mixed-path.ts';
import { galacticNoise, manMadeNoise, sumOfFigures_dB } from '../../src/core/physics/noise/noise.ts';
import { ionosphere } from '../../src/core/physics/sky-wave/ionosphere.ts';
import { type SkyWave, skyWave } from '../../src/core/physics/sky-wave/sky-wave.ts';
import { WHIP_KH_MAX, whipSolution } from '../../src/core/physics/whip.ts';
import { num, rowsOf } from '../core/physics/csv.ts';
import { percentile, type Row, type Table } from './table.ts';

type Line = Record<string, string>;

function groundErrors(): number[] {
  return rowsOf('groundwave-check.csv').map((row) => {
    const { E_dBuV_per_m } = groundWave({
      f_MHz: num(row, 'f_MHz'),
      d_km: num(row, 'd_km'),
      ground: { eps_r: num(row, 'eps_r'), sigma_S_per_m: num(row, 'sigma_S_per_m') },
      h_tx_m: num(row, 'h_tx_m'),
      h_rx_m: num(row, 'h_rx_m'),
      N_s: num(row, 'N_s'),
      pol: row['pol'] as 'V',
    });
    return Math.abs(E_dBuV_per_m - num(row, 'E_lfmf_dBuVm_at_1kW'));
  });
}

function mixedErrors(): number[] {
  return rowsOf('groundwave-mixed.csv').map((row) => {
    const sections = (row['path(tx->rx, ground:km)'] ?? '').split('+').map((part) => {
      const [name, km] = part.split(':');
      // The rows call 15, 0.001 S/m "dry"; ITU-R P.368 calls it medium dry.
      return { ground: grounds[(name === 'dry' ? 'mediumDry' : name) as GroundName], d_km: Number(km) };
    });
    const { E_dBuV_per_m } = mixedGroundWave({ f_MHz: num(row, 'f_MHz'), sections });
    return Math.abs(E_dBuV_per_m - num(row, 'E_dBuVm_at_1kW_Millington_over_LFMF_h0'));
  });
}

function noiseErrors(): number[] {
  return rowsOf('noise-check.csv').flatMap((row) => {
    const f = num(row, 'f_MHz');
    const galactic = galacticNoise(f).Fam_dB;
    const made = (['city', 'residential', 'rural', 'quiet-rural'] as const).map((e) => manMadeNoise(f, e).Fam_dB);
    return [
      ...['city', 'residential', 'rural', 'quiet-rural'].map((e, i) => made[i]! - num(row, `Fam_${e}_dB`)),
      galactic - num(row, 'Fam_galactic_dB'),
      sumOfFigures_dB([made[2]!, galactic]) - num(row, 'Fa_rural_plus_galactic_dB'),
    ].map(Math.abs);
  });
}

/** Lines of numbers in the order f, h, a, R, X; further columns are passed over. */
function whipLines(name: string): number[][] {
  const text = readFileSync(new URL(`../vectors/${name}`, import.meta.url), 'utf8');
  return text
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number));
}

function whipErrors() {
  const lines = [...whipLines('whip-check.csv'), ...whipLines('whip-nec2.csv')] as [
    number,
    number,
    number,
    number,
    number,
  ][];
  const inside = lines.filter(([f, h]) => (2 * Math.PI * f * h) / 299.792458 <= WHIP_KH_MAX);
  const solved = inside.map(([f_MHz, h_m, a_m, R, X]) => ({ ...whipSolution({ f_MHz, h_m, a_m }), R, X }));
  return {
    R: solved.map((s) => 100 * Math.abs(s.R_ohm / s.R - 1)),
    // Within 1 % or 3 ohm, whichever is more: as a share of that.
    X: solved.map((s) => Math.abs(s.X_ohm - s.X) / Math.max(0.01 * Math.abs(s.X), 3)),
    power: solved.map((s) => Math.abs(s.farFieldR_ohm / s.R_ohm - 1)),
  };
}

function ionoErrors(): number[] {
  return rowsOf('iono-check.csv').flatMap((row) => {
    const at = ionosphere(num(row, 'lat'), num(row, 'lng'), num(row, 'month'), num(row, 'hour_UTC'), num(row, 'R12'));
    const off = (got: number | null, want: number) => 100 * Math.abs((got ?? Number.NaN) / want - 1);
    return [off(at.foF2_MHz, num(row, 'foF2_MHz')), off(at.M3000F2, num(row, 'M3000F2'))];
  });
}

function skyAnswer(row: Line): SkyWave {
  const answer = skyWave({
    tx: [num(row, 'tx_lat'), num(row, 'tx_lng')],
    rx: [num(row, 'rx_lat'), num(row, 'rx_lng')],
    R12: num(row, 'R12'),
    month: num(row, 'month'),
    hour_UT: num(row, 'hour_UTC'),
    f_MHz: num(row, 'f_MHz'),
    reference: true,
  });
  if (answer.MUF_MHz === null) throw new RangeError(answer.reason);
  return answer;
}

const FIELD = 'E - Path Field Strength (dB(1uV/m))';

function skyRows(): Row[] {
  const answers = rowsOf('skywave-check.csv').map((row) => ({ row, answer: skyAnswer(row) }));
  const strong = answers.filter(({ row }) => num(row, FIELD) > -10);
  const muf = answers.map(
    ({ row, answer }) => 100 * Math.abs(answer.MUF_MHz / num(row, 'BMUF - Path basic MUF (MHz)') - 1),
  );
  const field = strong.map(({ row, answer }) => Math.abs(answer.E_dBuV_per_m - num(row, FIELD)));
  const same = answers.filter(({ row, answer }) => answer.mode === row['Dominant mode']).length;
  const source = `ITU-R P.533-14 program, ${answers.length} rows`;
  return [
    { what: 'basic MUF, 95 % of rows within', value: percentile(muf, 0.95), unit: '%', bar: { most: 0.5 }, source },
    {
      what: 'sky-wave field above -10 dBuV/m, 90 % of rows within',
      value: percentile(field, 0.9),
      unit: 'dB',
      bar: { most: 0.1 },
      source,
    },
    { what: 'sky-wave field, worst row', value: Math.max(...field), unit: 'dB', source },
    { what: 'same dominant mode', value: (100 * same) / answers.length, unit: '%', bar: { least: 99 }, source },
  ];
}

/** Accuracy of the computed world. */
export function accuracyTable(): Table {
  const ground = groundErrors();
  const whip = whipErrors();
  const iono = ionoErrors();
  const nec = `NEC2, ${whip.R.length} rows`;
  return {
    title: 'The computed world beside its references',
    rows: [
      {
        what: 'ground wave, worst row',
        value: Math.max(...ground),
        unit: 'dB',
        bar: { most: 0.1 },
        source: `ITU-R P.368-10 program, ${ground.length} rows`,
      },
      { what: 'ground wave, 95 % of rows within', value: percentile(ground, 0.95), unit: 'dB' },
      {
        what: 'mixed paths, worst row',
        value: Math.max(...mixedErrors()),
        unit: 'dB',
        bar: { most: 0.1 },
        source: 'Millington over the same',
      },
      {
        what: 'noise, its parts and their sum, worst',
        value: Math.max(...noiseErrors()),
        unit: 'dB',
        bar: { most: 0.01 },
        source: 'ITU-R P.372 constants',
      },
      { what: 'whip R, worst row', value: Math.max(...whip.R), unit: '%', bar: { most: 4 }, source: nec },
      {
        what: 'whip X, worst row as a share of 1 % or 3 ohm',
        value: Math.max(...whip.X),
        unit: '',
        bar: { most: 1 },
        source: nec,
      },
      {
        what: 'whip far field against Re Z, worst',
        value: Math.max(...whip.power),
        unit: '',
        bar: { most: 1e-4 },
        source: 'conservation of energy',
      },
      {
        what: 'foF2 and M(3000)F2, 95 % of points within',
        value: percentile(iono, 0.95),
        unit: '%',
        bar: { most: 0.6 },
        source: `ITU-R P.1239 maps, ${iono.length} values`,
      },
      { what: 'foF2 and M(3000)F2, worst point', value: Math.max(...iono), unit: '%', bar: { most: 1.5 } },
      ...skyRows(),
    ],
  };
}
