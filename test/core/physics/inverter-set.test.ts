import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveBus } from '../../../src/core/physics/alternator.ts';
import { STATION_BANK } from '../../../src/core/physics/battery.ts';
import {
  INVERTER_RATED_W,
  INVERTER_RUN_UP_S,
  INVERTER_START_OHM,
  inverterEfficiency,
  inverterHeat_W,
  inverterHolds,
  inverterInput_W,
  inverterLoad,
  inverterOutput,
} from '../../../src/core/physics/inverter-set.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('inverter input', () => {
  it('turns 45 to 60 % into output at full load and idles on 25 to 40 % of it (rotary sets, from memory)', () => {
    expect(inverterEfficiency(INVERTER_RATED_W)).toBeCloseTo(0.55, 2);
    const idle = inverterInput_W(0) / inverterInput_W(INVERTER_RATED_W);
    expect(idle).toBeGreaterThan(0.25);
    expect(idle).toBeLessThan(0.4);
  });

  it('starts with four times the full-load current for six seconds', () => {
    const running_A = inverterInput_W(INVERTER_RATED_W) / 28.5;
    expect(28.5 / INVERTER_START_OHM / running_A).toBeCloseTo(4, 10);
    expect(inverterLoad(5.99, 0)?.kind).toBe('resistance');
    expect(inverterLoad(INVERTER_RUN_UP_S, 100)).toEqual({ kind: 'power', power_W: inverterInput_W(100) });
    expect(inverterLoad(null, 0)).toBeNull();
  });

  it('starts from a good bank and drops out on a cold, nearly empty one', () => {
    const bus = (charge: number, temperature_C: number) => {
      const battery = { bank: STATION_BANK, state: { charge, polarisation_V: 0, temperature_C } };
      return solveBus({ battery, alternator: null }, [inverterLoad(1, 0)!, { kind: 'current', current_A: 30 }]).bus_V;
    };
    expect(inverterHolds(bus(1, 25))).toBe(true);
    expect(inverterHolds(bus(0.1, -25))).toBe(false);
  });

  it('keeps energy: input is output and heat', () => {
    fc.assert(
      fc.property(number(0, 500), number(21, 30), (ac_W, bus_V) => {
        expect(ac_W + inverterHeat_W(60, ac_W, bus_V)).toBeCloseTo(inverterInput_W(ac_W), 9);
        expect(inverterHeat_W(null, ac_W, bus_V)).toBe(0);
        expect(inverterHeat_W(1, 0, bus_V)).toBeCloseTo((bus_V * bus_V) / INVERTER_START_OHM, 9);
      }),
      { seed: 31 },
    );
  });

  it('refuses a negative output', () => {
    expect(() => inverterInput_W(-1)).toThrow(RangeError);
    expect(() => inverterOutput(60, 0, 26, { volts: 2, speed: 0 })).toThrow(RangeError);
  });
});

describe('inverter output', () => {
  it('is 230 V 50 Hz on 26.5 V at half load with centred handles, and nothing at rest', () => {
    expect(inverterOutput(60, 175, 26.5)).toEqual({ volts_V: 230, frequency_Hz: 50 });
    expect(inverterOutput(null, 0, 26.5)).toEqual({ volts_V: 0, frequency_Hz: 0 });
    expect(inverterOutput(0, 0, 26.5)).toEqual({ volts_V: 0, frequency_Hz: 0 });
  });

  it('can be trimmed to 230 V and 50 Hz on any usable bus at any load', () => {
    for (const bus_V of [24, 26, 28.5, 29.5])
      for (const ac_W of [0, 175, 350]) {
        const low = inverterOutput(60, ac_W, bus_V, { volts: -1, speed: -1 });
        const high = inverterOutput(60, ac_W, bus_V, { volts: 1, speed: 1 });
        expect(low.frequency_Hz).toBeLessThan(50);
        expect(high.frequency_Hz).toBeGreaterThan(50);
        expect(low.volts_V).toBeLessThan(230);
        expect(high.volts_V).toBeGreaterThan(230);
      }
  });

  it('falls with load, rises with the bus and with time from start', () => {
    fc.assert(
      fc.property(number(0, 12), number(0, 300), number(21, 29), number(0.1, 50), (s, ac_W, bus_V, more) => {
        const here = inverterOutput(s, ac_W, bus_V);
        for (const key of ['volts_V', 'frequency_Hz'] as const) {
          expect(inverterOutput(s, ac_W + more, bus_V)[key]).toBeLessThanOrEqual(here[key]);
          expect(inverterOutput(s, ac_W, bus_V + more / 50)[key]).toBeGreaterThanOrEqual(here[key]);
          expect(inverterOutput(s + more, ac_W, bus_V)[key]).toBeGreaterThanOrEqual(here[key]);
        }
      }),
      { seed: 32 },
    );
  });
});
