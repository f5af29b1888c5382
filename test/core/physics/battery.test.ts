import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Bank,
  type BatteryState,
  CHARGE_FLOOR,
  chargeHeld_As,
  hoursOnBattery,
  innerResistance_ohm,
  openCircuitVolts,
  STATION_BANK,
  stepBattery,
  terminalVolts,
} from '../../../src/core/physics/battery.ts';

const FULL: BatteryState = { charge: 1, polarisation_V: 0, temperature_C: 25 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyState = fc.record({
  charge: number(CHARGE_FLOOR, 1),
  polarisation_V: number(-2, 2),
  temperature_C: number(-40, 60),
});

describe('open-circuit volts', () => {
  // 12 V flooded block at 26.7 C, the usual trade table (as printed by a battery maker), doubled; acid gravity beside it.
  it.each([
    [1, 25.3, 1.265],
    [0.75, 24.9, 1.225],
    [0.5, 24.48, 1.19],
    [0.25, 24.12, 1.155],
    [0, 23.78, 1.12],
  ])('charge %d: %d V', (charge, volts, gravity) => {
    expect(openCircuitVolts(STATION_BANK, charge)).toBeCloseTo(volts, 10);
    // Rule of the same trade: volts of a cell are the gravity plus 0.84.
    expect(Math.abs(openCircuitVolts(STATION_BANK, charge) / 12 - gravity - 0.84)).toBeLessThan(0.025);
  });

  it('rise with charge everywhere', () => {
    fc.assert(
      fc.property(number(CHARGE_FLOOR, 1), number(1e-6, 0.5), (charge, more) => {
        const above = Math.min(1, charge + more);
        if (above > charge + 1e-9)
          expect(openCircuitVolts(STATION_BANK, above)).toBeGreaterThan(openCircuitVolts(STATION_BANK, charge));
      }),
      { seed: 11 },
    );
  });
});

describe('terminal volts', () => {
  // Arithmetic of V = E - I R for a cranking engine: 12 milliohm warm, doubled at -18 C (from memory: doubles by then).
  const cranking: Bank = { ...STATION_BANK, resistance_ohm: 0.012 };
  it('25.3 V, 12 milliohm, 600 A: 18.1 V', () => {
    expect(terminalVolts(cranking, FULL, 600)).toBeCloseTo(18.1, 10);
  });
  it('the same at -18 C with 500 A: 13.3 V', () => {
    expect(terminalVolts(cranking, { ...FULL, temperature_C: -18 }, 500)).toBeCloseTo(13.3, 10);
  });

  it('inner resistance at 20 % charge is 1.5 to 2 times that at full (from memory, handbook practice)', () => {
    const ratio = innerResistance_ohm(STATION_BANK, { ...FULL, charge: 0.2 }) / innerResistance_ohm(STATION_BANK, FULL);
    expect(ratio).toBeGreaterThan(1.5);
    expect(ratio).toBeLessThan(2);
  });

  it('a full bank on 28.5 V takes about one percent of its capacity (common practice)', () => {
    const amps = (28.5 - 25.3) / innerResistance_ohm(STATION_BANK, FULL, true);
    expect(amps / STATION_BANK.capacity_Ah).toBeGreaterThan(0.005);
    expect(amps / STATION_BANK.capacity_Ah).toBeLessThan(0.02);
  });

  it('fall when more current is drawn, in every state', () => {
    fc.assert(
      fc.property(anyState, number(-200, 200), number(0.001, 100), (state, amps, more) => {
        const low = terminalVolts(STATION_BANK, state, amps + more);
        expect(Number.isFinite(low)).toBe(true);
        expect(low).toBeLessThan(terminalVolts(STATION_BANK, state, amps));
      }),
      { seed: 12 },
    );
  });
});

describe('a step', () => {
  it('conserves energy: chemistry = terminals + heat + polarisation, to 1e-9', () => {
    fc.assert(
      fc.property(anyState, number(-120, 200), number(0, 36_000), (state, amps, seconds) => {
        const { ledger, state: after } = stepBattery(STATION_BANK, state, amps, seconds);
        const { chemical_J, delivered_J, heat_J, stored_J } = ledger;
        const size = Math.abs(chemical_J) + Math.abs(delivered_J) + Math.abs(heat_J) + Math.abs(stored_J) + 1;
        expect(Math.abs(chemical_J - delivered_J - heat_J - stored_J) / size).toBeLessThan(1e-9);
        expect(heat_J).toBeGreaterThan(-1e-6 * size);
        expect(after.charge).toBeGreaterThanOrEqual(CHARGE_FLOOR);
        expect(after.charge).toBeLessThanOrEqual(1);
      }),
      { seed: 13, numRuns: 1000 },
    );
  });

  it('delivers the integral of terminal volts times current (Simpson over thousand parts)', () => {
    const start: BatteryState = { charge: 0.83, polarisation_V: 0.1, temperature_C: 5 };
    for (const amps of [35, -40]) {
      const seconds = 1500;
      const parts = 1000;
      const power = (t: number) =>
        amps * terminalVolts(STATION_BANK, stepBattery(STATION_BANK, start, amps, t).state, amps);
      let sum = 0;
      for (let i = 0; i <= parts; i++)
        sum += (i === 0 || i === parts ? 1 : i % 2 ? 4 : 2) * power((i * seconds) / parts);
      const simpson = (sum * seconds) / parts / 3;
      expect(stepBattery(STATION_BANK, start, amps, seconds).ledger.delivered_J / simpson).toBeCloseTo(1, 6);
    }
  });

  it('taken in two parts ends where one step ends', () => {
    fc.assert(
      fc.property(anyState, number(-80, 120), number(0, 5000), number(0, 5000), (state, amps, a, b) => {
        const whole = stepBattery(STATION_BANK, state, amps, a + b).state;
        const parts = stepBattery(STATION_BANK, stepBattery(STATION_BANK, state, amps, a).state, amps, b).state;
        expect(parts.charge).toBeCloseTo(whole.charge, 9);
        expect(parts.polarisation_V).toBeCloseTo(whole.polarisation_V, 9);
      }),
      { seed: 14 },
    );
  });

  it('recovers when the load goes: the polarisation dies away', () => {
    const after = stepBattery(STATION_BANK, FULL, 60, 600).state;
    const rested = stepBattery(STATION_BANK, after, 0, 1200).state;
    expect(terminalVolts(STATION_BANK, rested, 0)).toBeGreaterThan(terminalVolts(STATION_BANK, after, 0));
    expect(rested.polarisation_V).toBeLessThan(1e-4);
  });

  it('holds less in the cold: 1 % a degree (from memory)', () => {
    expect(chargeHeld_As(STATION_BANK, 15) / chargeHeld_As(STATION_BANK, 25)).toBeCloseTo(0.9, 12);
  });

  it('refuses numbers that are none', () => {
    expect(() => stepBattery(STATION_BANK, FULL, Number.NaN, 1)).toThrow(RangeError);
    expect(() => stepBattery(STATION_BANK, FULL, 1, -1)).toThrow(RangeError);
    expect(() => terminalVolts(STATION_BANK, { ...FULL, charge: 2 }, 1)).toThrow(/charge 2/);
  });
});

describe('hours on battery', () => {
  // Peukert's rule t = H (C/(I H))^k: 100 Ah at 20 h, 25 A, exponent 1.2 gives 2.899 h.
  const hundred: Bank = { ...STATION_BANK, capacity_Ah: 100, peukert: 1.2 };
  it('100 Ah, 25 A, k 1.2: 2.899 h', () => {
    expect(hoursOnBattery(hundred, FULL, 25)).toBeCloseTo(2.899, 3);
  });
  it('at the rated current it lasts the rated hours', () => {
    expect(hoursOnBattery(hundred, FULL, 5)).toBeCloseTo(20, 10);
  });
  it('agrees with stepping the bank until it is empty', () => {
    const hours = hoursOnBattery(STATION_BANK, FULL, 30);
    expect(stepBattery(STATION_BANK, FULL, 30, hours * 3600).state.charge).toBeCloseTo(0, 10);
  });
  it('is shorter with a cut-off, and that is where the volts cross it', () => {
    const hours = hoursOnBattery(STATION_BANK, FULL, 40, 23.5);
    expect(hours).toBeLessThan(hoursOnBattery(STATION_BANK, FULL, 40));
    const end = stepBattery(STATION_BANK, FULL, 40, hours * 3600).state;
    expect(terminalVolts(STATION_BANK, end, 40)).toBeCloseTo(23.5, 6);
  });
  it('is shorter with more load', () => {
    fc.assert(
      fc.property(number(1, 200), number(0.1, 50), (amps, more) => {
        const longer = hoursOnBattery(STATION_BANK, FULL, amps, 21);
        expect(hoursOnBattery(STATION_BANK, FULL, amps + more, 21)).toBeLessThan(longer + 1e-12);
      }),
      { seed: 15 },
    );
  });
  it('is nothing when the bank cannot hold the volts at all', () => {
    expect(hoursOnBattery(STATION_BANK, { ...FULL, charge: 0.1 }, 300, 21)).toBe(0);
    expect(() => hoursOnBattery(STATION_BANK, FULL, 0)).toThrow(RangeError);
  });
});
