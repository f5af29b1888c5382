import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaussLegendre } from '../../../src/core/physics/gauss-legendre.ts';
import { WHIP_KH_MAX, whipImpedance, whipProblem, whipSolution } from '../../../src/core/physics/whip.ts';
import { whipGain_dBi } from '../../../src/core/physics/whip-pattern.ts';
import { whipPower } from '../../../src/core/physics/whip-power.ts';

type Row = { f_MHz: number; h_m: number; a_m: number; R: number; X: number };

function rows(name: string): Row[] {
  const text = readFileSync(new URL(`../../vectors/${name}`, import.meta.url), 'utf8');
  return text
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const [f_MHz, h_m, a_m, R, X] = line.split(',').map(Number) as [number, number, number, number, number];
      return { f_MHz, h_m, a_m, R, X };
    });
}

const kh = (r: { f_MHz: number; h_m: number }) => (2 * Math.PI * r.f_MHz * r.h_m) / 299.792458;

// Both tables: NEC2 (Debian nec2c 1.3), perfect ground, 41 segments, applied-field source on segment 1.
const table = [...rows('whip-check.csv'), ...rows('whip-nec2.csv')].filter((r) => kh(r) <= WHIP_KH_MAX);

describe('whip impedance against NEC2', () => {
  it.each(table)('$f_MHz MHz, $h_m m, radius $a_m m', (row) => {
    const z = whipImpedance(row);
    expect(Math.abs(z.X_ohm - row.X)).toBeLessThan(Math.max(0.01 * Math.abs(row.X), 3));
    expect(Math.abs(z.R_ohm / row.R - 1)).toBeLessThan(0.04);
  });
});

describe('whip impedance', () => {
  // A second program with brute-force quadrature on the same twelve elements gave these digits.
  it.each([
    [1.5, 4.57, 0.01, 0.1992932, -2139.066],
    [10, 4.57, 0.01, 10.67505, -207.5006],
    [20, 4.57, 0.01, 87.94743, 147.7836],
    [1.5, 2.5, 0.025, 0.0562094, -2691.638],
  ])('%d MHz, %d m, %d m equals an independent solution', (f_MHz, h_m, a_m, R, X) => {
    const z = whipImpedance({ f_MHz, h_m, a_m });
    expect(Math.abs(z.R_ohm / R - 1)).toBeLessThan(1e-6);
    expect(Math.abs(z.X_ohm / X - 1)).toBeLessThan(1e-6);
  });

  it('resonates where NEC2 does: 15.66 MHz and 35.95 ohm for 4.57 m, 10 mm', () => {
    let [low, high] = [15, 16.5];
    for (let i = 0; i < 40; i++) {
      const f = (low + high) / 2;
      if (whipImpedance({ f_MHz: f, h_m: 4.57, a_m: 0.01 }).X_ohm < 0) low = f;
      else high = f;
    }
    expect(low).toBeCloseTo(15.66, 1);
    expect(whipImpedance({ f_MHz: low, h_m: 4.57, a_m: 0.01 }).R_ohm).toBeCloseTo(35.95, 1);
  });

  it('refuses what is outside its domain, with the number', () => {
    expect(() => whipImpedance({ f_MHz: 1, h_m: 5, a_m: 0.01 })).toThrow(/frequency .* got 1$/);
    expect(() => whipImpedance({ f_MHz: 5, h_m: 0.5, a_m: 0.01 })).toThrow(/height .* got 0.5$/);
    expect(() => whipImpedance({ f_MHz: 5, h_m: 5, a_m: 0.001 })).toThrow(/radius .* got 0.001$/);
    expect(() => whipImpedance({ f_MHz: 5, h_m: 1.2, a_m: 0.02 })).toThrow(/radii high/);
    expect(() => whipImpedance({ f_MHz: 20, h_m: 6.5, a_m: 0.02 })).toThrow(/electrical height/);
    expect(whipProblem({ f_MHz: Number.NaN, h_m: 5, a_m: 0.01 })).toMatch(/frequency/);
    expect(whipProblem({ f_MHz: 5, h_m: 5.2, a_m: 0.01 })).toBeNull();
  });

  const whips = fc
    .record({
      f_MHz: fc.double({ min: 1.5, max: 30, noNaN: true }),
      h_m: fc.double({ min: 1, max: 6.5, noNaN: true }),
      a_m: fc.double({ min: 0.004, max: 0.025, noNaN: true }),
    })
    .filter((w) => whipProblem(w) === null);

  it('conserves power: the far field asks for the same resistance, to 1e-4, everywhere', () => {
    fc.assert(
      fc.property(whips, (whip) => {
        const s = whipSolution(whip);
        expect(Math.abs(s.farFieldR_ohm / s.R_ohm - 1)).toBeLessThan(1e-4);
        expect(s.R_ohm).toBeGreaterThan(0);
        expect(Number.isFinite(s.X_ohm)).toBe(true);
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  it('gives a short whip 4.77 dBi and a quarter wave 5.15 dBi (Balanis, Antenna Theory, section 4.7)', () => {
    expect(whipSolution({ f_MHz: 1.5, h_m: 3, a_m: 0.005 }).directivity_dBi).toBeCloseTo(4.77, 2);
    expect(whipSolution({ f_MHz: 299.792458 / 4 / 4.57, h_m: 4.57, a_m: 0.004 }).directivity_dBi).toBeCloseTo(5.15, 1);
  });

  it('has resistance and reactance that rise with frequency up to a quarter wave', () => {
    fc.assert(
      fc.property(whips, (whip) => {
        const higher = { ...whip, f_MHz: whip.f_MHz * 1.02 };
        if (kh(higher) > Math.PI / 2 || whipProblem(higher) !== null) return;
        const [low, high] = [whipImpedance(whip), whipImpedance(higher)];
        expect(high.R_ohm).toBeGreaterThan(low.R_ohm);
        expect(high.X_ohm).toBeGreaterThan(low.X_ohm);
      }),
      { seed: 42, numRuns: 100 },
    );
  });
});

describe('power at the base', () => {
  // Arithmetic of eta = R/(R + ground + coil), I = sqrt(P/R): 4.57 m, 10 mm, ground 10 ohm, coil Q 250, 100 W.
  it.each([
    [2, 2.12, 2.44, 3899],
    [3, 5.38, 2.58, 2700],
    [5, 15.73, 2.61, 1546],
    [8, 36.12, 2.38, 749],
    [12, 61.57, 1.91, 245],
    [16, 79.28, 1.44, 71],
    [20, 89.25, 1.01, 179],
  ])('%d MHz: %d %%, %d A, %d V', (f_MHz, percent, amps, volts) => {
    const z = whipImpedance({ f_MHz, h_m: 4.57, a_m: 0.01 });
    const p = whipPower(z, 10, Math.abs(z.X_ohm) / 250, 100);
    expect(100 * p.efficiency).toBeCloseTo(percent, 1);
    expect(p.baseCurrent_A).toBeCloseTo(amps, 1);
    expect(Math.abs(p.baseVolts_V / volts - 1)).toBeLessThan(0.01);
  });

  it('refuses a negative loss', () => {
    expect(() => whipPower({ R_ohm: 1, X_ohm: 0 }, -1, 0, 100)).toThrow(RangeError);
  });
});

describe('elevation pattern', () => {
  // Fresnel reflection (ITU-R P.527 form) over average ground, permittivity 15 and 5 mS/m, 5 MHz; figures from a separate calculation in Python.
  it.each([
    [5, -5.57],
    [10, -1.92],
    [20, 0.35],
    [30, 0.71],
    [45, -0.31],
    [60, -2.98],
    [80, -11.97],
  ])('%d degrees: %d dBi', (elevation, gain) => {
    expect(whipGain_dBi({ eps_r: 15, sigma_S_m: 0.005 }, 5, elevation)).toBeCloseTo(gain, 1);
  });

  it('tends to the perfect-ground pattern 4.77 + 20 log cos as the ground gets better', () => {
    expect(whipGain_dBi({ eps_r: 1, sigma_S_m: 1e7 }, 5, 45)).toBeCloseTo(4.77 - 3.01, 2);
  });

  it('refuses the horizon and the zenith', () => {
    expect(() => whipGain_dBi({ eps_r: 15, sigma_S_m: 0.005 }, 5, 0)).toThrow(/elevation/);
    expect(() => whipGain_dBi({ eps_r: 15, sigma_S_m: 0.005 }, 5, 90)).toThrow(/elevation/);
  });
});

describe('Gauss-Legendre rules', () => {
  it('has the abscissas and weights of Abramowitz & Stegun table 25.4 for five points', () => {
    const rule = gaussLegendre(5);
    expect(rule.x[4]).toBeCloseTo(0.906179845938664, 14);
    expect(rule.x[3]).toBeCloseTo(0.538469310105683, 14);
    expect(rule.x[2]).toBeCloseTo(0, 14);
    expect(rule.w[4]).toBeCloseTo(0.236926885056189, 14);
    expect(rule.w[2]).toBeCloseTo(0.568888888888889, 14);
  });

  it('integrates every power up to 2n - 1 exactly', () => {
    for (const n of [2, 10, 48]) {
      const rule = gaussLegendre(n);
      for (let power = 0; power < 2 * n; power++) {
        const got = rule.x.reduce((sum, x, i) => sum + rule.w[i]! * x ** power, 0);
        expect(got).toBeCloseTo(power % 2 ? 0 : 2 / (power + 1), 13);
      }
    }
  });

  it('refuses a silly number of points', () => {
    expect(() => gaussLegendre(1)).toThrow(RangeError);
    expect(() => gaussLegendre(2.5)).toThrow(RangeError);
  });
});
