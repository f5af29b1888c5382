import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  En_dBuV_per_m_1Hz,
  environments,
  externalNoise,
  galacticNoise,
  manMadeNoise,
  noiseField_dBuV_per_m,
  sumOfFigures_dB,
  systemNoiseFigure_dB,
} from '../../../src/core/physics/noise/noise.ts';
import { num, rowsOf } from './csv.ts';

const check = (law: fc.IProperty<unknown>) => fc.assert(law, { seed: 372, numRuns: 300 });
const figure = fc.record({
  Fam_dB: fc.double({ min: 0, max: 90, noNaN: true }),
  Du_dB: fc.double({ min: 0, max: 12, noNaN: true }),
  Dl_dB: fc.double({ min: 0, max: 12, noNaN: true }),
});

describe('noise against ITU-R P.372-16', () => {
  // test/vectors/noise-check.csv: computed with the P.372 reference program's constants, rounded to 0.001 dB.
  it('agrees with every row to the rounding', () => {
    for (const row of rowsOf('noise-check.csv')) {
      const f = num(row, 'f_MHz');
      const galactic = galacticNoise(f).Fam_dB;
      const rural = manMadeNoise(f, 'rural').Fam_dB;
      const both = sumOfFigures_dB([rural, galactic]);
      const expectations: [number, string][] = [
        [manMadeNoise(f, 'city').Fam_dB, 'Fam_city_dB'],
        [manMadeNoise(f, 'residential').Fam_dB, 'Fam_residential_dB'],
        [rural, 'Fam_rural_dB'],
        [manMadeNoise(f, 'quiet-rural').Fam_dB, 'Fam_quiet-rural_dB'],
        [galactic, 'Fam_galactic_dB'],
        [both, 'Fa_rural_plus_galactic_dB'],
        [En_dBuV_per_m_1Hz(both, f), 'En_rural_plus_galactic_1Hz_dBuVm_short_monopole'],
        [noiseField_dBuV_per_m(both, f, 2700), 'En_same_in_2700Hz'],
      ];
      for (const [value, column] of expectations)
        expect(Math.abs(value - num(row, column)), column).toBeLessThan(0.001);
    }
  });
  // test/vectors/skywave-check.csv: P.372 reference, rural.
  it('agrees with the rural and galactic columns of the sky-wave table', () => {
    for (const row of rowsOf('skywave-check.csv')) {
      const f = num(row, 'f_MHz');
      expect(Math.abs(manMadeNoise(f, 'rural').Fam_dB - num(row, 'FaM - Man-made noise (dB)'))).toBeLessThan(0.0051);
      expect(Math.abs(galacticNoise(f).Fam_dB - num(row, 'FaG - Galactic noise (dB)'))).toBeLessThan(0.0051);
    }
  });
  // The same table's total. Its atmospheric deciles are not in the table: winter mornings (atmospherics 30 dB down) leave the
  // log-normal sum of the other two; at noon at the equinox the atmospherics vary by more than 12 dB and powers are added.
  it('agrees with the total of the reference to 0.01 dB, narrow and wide', () => {
    let compared = 0;
    for (const row of rowsOf('skywave-check.csv')) {
      const f = num(row, 'f_MHz');
      const atmospheric = num(row, 'FaA - Atmospheric noise (dB)');
      const rural = manMadeNoise(f, 'rural');
      const isWinterMorning = row['month'] === '1' && atmospheric < rural.Fam_dB - 30;
      const isEquinoxNoon = row['month'] === '3' && row['hour_UTC'] === '12' && f === 3;
      if (!isWinterMorning && !isEquinoxNoon) continue;
      compared++;
      const wide = { Fam_dB: atmospheric, Du_dB: isEquinoxNoon ? 16 : 0, Dl_dB: 0 };
      const total = externalNoise([rural, galacticNoise(f), wide]).Fam_dB;
      expect(Math.abs(total - num(row, 'FamT - Total noise (dB)'))).toBeLessThan(0.01);
    }
    expect(compared).toBeGreaterThan(15);
  });
  // 10 MHz rural with a lossy 5 m whip (4.4 dB assumed) and a 12 dB receiver: f = fa - 1 + fc fr, worked by hand.
  it('adds the receiver behind a lossy aerial', () => {
    const F = systemNoiseFigure_dB(39.871, { aerialLoss_dB: 4.4, lineLoss_dB: 0, receiverFigure_dB: 12 });
    expect(F).toBeCloseTo(10 * Math.log10(9707.3 - 1 + 43.652), 3);
    expect(systemNoiseFigure_dB(39.871, { aerialLoss_dB: 0, lineLoss_dB: 0, receiverFigure_dB: 0 })).toBeCloseTo(
      39.871,
      9,
    );
  });
});

describe('laws of noise', () => {
  it('sums figures without deciles as powers', () => {
    check(
      fc.property(fc.array(figure, { minLength: 1, maxLength: 5 }), (figures) => {
        const steady = figures.map(({ Fam_dB }) => ({ Fam_dB, Du_dB: 0, Dl_dB: 0 }));
        const sum = sumOfFigures_dB(figures.map(({ Fam_dB }) => Fam_dB));
        expect(externalNoise(steady).Fam_dB).toBeCloseTo(sum, 9);
      }),
    );
  });
  it('leaves one noise alone as it is', () => {
    check(
      fc.property(figure, (one) => {
        const same = externalNoise([one]);
        expect(same.Fam_dB).toBeCloseTo(one.Fam_dB, 6);
        expect(same.Du_dB).toBeCloseTo(one.Du_dB, 6);
        expect(same.Dl_dB).toBeCloseTo(one.Dl_dB, 6);
      }),
    );
  });
  it('does not care about the order, nor by how much all are raised', () => {
    check(
      fc.property(figure, figure, (a, b) => {
        const sum = externalNoise([a, b]);
        expect(externalNoise([b, a]).Fam_dB).toBeCloseTo(sum.Fam_dB, 9);
        const raised = [a, b].map((one) => ({ ...one, Fam_dB: one.Fam_dB + 20 }));
        expect(externalNoise(raised).Fam_dB).toBeCloseTo(sum.Fam_dB + 20, 9);
      }),
    );
  });
  it('falls with frequency in every environment, and the noisier environment is noisier', () => {
    for (let f = 1; f < 30; f++) {
      const levels = environments.map((place) => manMadeNoise(f, place).Fam_dB);
      expect([...levels].sort((a, b) => b - a)).toEqual(levels);
      for (const place of environments) {
        expect(manMadeNoise(f + 1, place).Fam_dB).toBeLessThan(manMadeNoise(f, place).Fam_dB);
      }
    }
  });
  it('refuses nonsense', () => {
    expect(() => manMadeNoise(0, 'city')).toThrow(RangeError);
    expect(() => galacticNoise(Number.NaN)).toThrow(RangeError);
    expect(() => externalNoise([])).toThrow(RangeError);
    expect(() => noiseField_dBuV_per_m(50, 5, 0)).toThrow(RangeError);
    expect(sumOfFigures_dB([])).toBe(Number.NEGATIVE_INFINITY);
  });
});
