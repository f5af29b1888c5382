import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withinReach } from '../../../src/core/physics/match-motors.ts';
import {
  inputImpedance,
  lMatch,
  matchBudget,
  piMatch,
  reflection,
  withGround,
} from '../../../src/core/physics/matching.ts';
import { whipImpedance } from '../../../src/core/physics/whip.ts';

const SECTION_M = 1.3;
const lossless = Number.POSITIVE_INFINITY;
const stationWhip = (f_MHz: number, sections = 4) => whipImpedance({ f_MHz, h_m: SECTION_M * sections, a_m: 0.01 });

const load = fc.record({
  R_ohm: fc.double({ min: 0.5, max: 500, noNaN: true }),
  X_ohm: fc.double({ min: -3000, max: 800, noNaN: true }),
});
const frequency = fc.double({ min: 1.8, max: 17, noNaN: true });

describe('L section', () => {
  // Handbook formula Q = sqrt(R0/R - 1), coil Q R - X, loading R0/Q; the loads are NEC2's 4.57 m whip with 10 ohm of earth.
  it.each([
    [2, 10.3534, -1590, 128.14, 3114.5],
    [5, 12.2973, -590.29, 19.475, 1114.7],
    [10, 20.644, -206.99, 3.686, 379.6],
    [15, 41.439, -21.527, 0.428, 96.5],
  ])('%d MHz, %d %d ohm: %d uH, %d pF', (f_MHz, R_ohm, X_ohm, coil, loading) => {
    const match = lMatch(f_MHz, { R_ohm, X_ohm }, lossless);
    expect(match?.side).toBe('sender');
    expect(Math.abs(match!.coil_uH / coil - 1)).toBeLessThan(1e-3);
    expect(Math.abs(match!.loading_pF / loading - 1)).toBeLessThan(1e-3);
  });

  it('shows the sender 50 ohm whatever the load, without loss', () => {
    fc.assert(
      fc.property(frequency, load, (f_MHz, z) => {
        const match = lMatch(f_MHz, z, lossless)!;
        expect(match).not.toBeNull();
        const seen = inputImpedance(f_MHz, z, match, lossless);
        expect(seen.R_ohm).toBeCloseTo(50, 5);
        expect(seen.X_ohm).toBeCloseTo(0, 5);
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  it('with a coil that loses power: 50 ohm, or an honest null', () => {
    let found = 0;
    fc.assert(
      fc.property(frequency, load, (f_MHz, z) => {
        const match = lMatch(f_MHz, z);
        if (!match) return;
        found++;
        expect(match.coil_uH).toBeGreaterThanOrEqual(0);
        expect(match.loading_pF).toBeGreaterThanOrEqual(0);
        const seen = inputImpedance(f_MHz, z, match);
        expect(seen.R_ohm).toBeCloseTo(50, 4);
        expect(seen.X_ohm).toBeCloseTo(0, 4);
      }),
      { seed: 2, numRuns: 500 },
    );
    expect(found).toBeGreaterThan(400);
  });

  it('reaches the whole whip everywhere from 1.8 to 17 MHz over 5, 10 and 20 ohm of earth', () => {
    for (let n = 0; n <= 152; n++) {
      const f_MHz = 1.8 + n / 10;
      for (const ground of [5, 10, 20]) {
        const match = lMatch(f_MHz, withGround(stationWhip(f_MHz), ground));
        expect(match !== null && withinReach(match), `${f_MHz} MHz, ${ground} ohm`).toBe(true);
      }
    }
  });

  it('runs out of coil at the low end when a section is missing', () => {
    const reach = (f_MHz: number, sections: number) =>
      withinReach(lMatch(f_MHz, withGround(stationWhip(f_MHz, sections), 10))!);
    expect([1.9, 2.1].map((f) => reach(f, 3))).toEqual([false, true]);
    expect([2.2, 2.4].map((f) => reach(f, 2))).toEqual([false, true]);
    expect([2.9, 3.1].map((f) => reach(f, 1))).toEqual([false, true]);
  });
});

describe('reflection', () => {
  // VSWR = (1+|G|)/(1-|G|), G = (Z-50)/(Z+50), mismatch loss -10 log(1-|G|^2).
  it.each([
    [25, 0, 2, 0.512],
    [100, 0, 2, 0.512],
    [50, 50, 2.618, 0.969],
    [10, -300, 185.2, 16.7],
  ])('%d %d ohm: VSWR %d, %d dB', (R_ohm, X_ohm, vswr, loss) => {
    const r = reflection({ R_ohm, X_ohm }, 100);
    expect(Math.abs(r.vswr / vswr - 1)).toBeLessThan(5e-4);
    expect(r.mismatchLoss_dB).toBeCloseTo(loss, 2);
    expect(r.reflected_W).toBeCloseTo(100 * r.back, 12);
  });

  it('is nothing at 50 ohm and all from a pure reactance', () => {
    expect(reflection({ R_ohm: 50, X_ohm: 0 }, 120)).toMatchObject({ reflected_W: 0, vswr: 1, mismatchLoss_dB: 0 });
    expect(reflection({ R_ohm: 0, X_ohm: 40 }, 120)).toMatchObject({ reflected_W: 120, vswr: lossless });
  });

  it('refuses a negative resistance', () => {
    expect(() => reflection({ R_ohm: -1, X_ohm: 0 }, 1)).toThrow(RangeError);
  });
});

describe('budget', () => {
  it('adds up: radiated, earth, coil and reflected are what the sender offers', () => {
    const match = fc.record({
      coil_uH: fc.double({ min: 0, max: 150, noNaN: true }),
      loading_pF: fc.double({ min: 0, max: 4000, noNaN: true }),
      side: fc.constantFrom('sender' as const, 'whip' as const),
    });
    const ground = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(frequency, fc.integer({ min: 1, max: 4 }), ground, match, (f_MHz, sections, ohm, setting) => {
        const b = matchBudget(f_MHz, stationWhip(f_MHz, sections), ohm, setting, 120);
        expect(b.radiated_W + b.groundHeat_W + b.coilHeat_W + b.reflected_W).toBeCloseTo(120, 8);
        for (const part of [b.radiated_W, b.groundHeat_W, b.coilHeat_W, b.reflected_W])
          expect(part).toBeGreaterThanOrEqual(0);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('at a match is the series arithmetic: I = sqrt(P/R), 2 MHz, 10 ohm of earth, coil Q 250', () => {
    const whip = { R_ohm: 0.355, X_ohm: -1594.9 };
    const match = lMatch(2, withGround(whip, 10))!;
    const b = matchBudget(2, whip, 10, match, 100);
    const arm = 0.355 + 10 + (2 * Math.PI * 2 * match.coil_uH) / 250;
    expect(b.baseCurrent_A).toBeCloseTo(Math.sqrt(100 / arm), 6);
    expect(b.radiated_W).toBeCloseTo((100 * 0.355) / arm, 6);
  });
});

describe('pi section', () => {
  it('turns R2 into R1 for every Q that reaches', () => {
    const ohm = fc.double({ min: 5, max: 2000, noNaN: true });
    fc.assert(
      fc.property(frequency, ohm, ohm, fc.double({ min: 1, max: 20, noNaN: true }), (f_MHz, R1, R2, Q) => {
        if ((R2 * (1 + Q * Q)) / R1 < 1) return;
        const pi = piMatch(f_MHz, R1, R2, Q);
        // The same ladder built from the tested L: the far capacitor and the coil, then the near capacitor in parallel.
        const right = { coil_uH: pi.coil_uH, loading_pF: pi.second_pF, side: 'whip' as const };
        const z = inputImpedance(f_MHz, { R_ohm: R2, X_ohm: 0 }, right, lossless);
        const seen = inputImpedance(f_MHz, z, { coil_uH: 0, loading_pF: pi.first_pF, side: 'sender' }, lossless);
        expect(Math.abs(seen.R_ohm / R1 - 1)).toBeLessThan(1e-9);
        expect(Math.abs(seen.X_ohm / R1)).toBeLessThan(1e-9);
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('refuses a Q too small to reach', () => {
    expect(() => piMatch(5, 1000, 50, 1)).toThrow(RangeError);
  });
});
