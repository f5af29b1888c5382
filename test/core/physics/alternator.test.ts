import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ALTERNATOR_MAX_A,
  alternatorLimit_A,
  type BusLoad,
  type BusSources,
  loadCurrent_A,
  regulatedVolts,
  solveBus,
} from '../../../src/core/physics/alternator.ts';
import { CHARGE_FLOOR, STATION_BANK, terminalVolts } from '../../../src/core/physics/battery.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const battery = (charge = 1) => ({ bank: STATION_BANK, state: { charge, polarisation_V: 0, temperature_C: 25 } });
const amps = (current_A: number): BusLoad => ({ kind: 'current', current_A });

const anyLoad: fc.Arbitrary<BusLoad> = fc.oneof(
  number(0, 60).map((current_A) => ({ kind: 'current' as const, current_A })),
  number(0, 1500).map((power_W) => ({ kind: 'power' as const, power_W })),
  number(0.3, 100).map((resistance_ohm) => ({ kind: 'resistance' as const, resistance_ohm })),
);
const anyBattery = fc.record({
  charge: number(CHARGE_FLOOR, 1),
  polarisation_V: number(-1, 1),
  temperature_C: number(-40, 60),
});
const anySources: fc.Arbitrary<BusSources> = fc.record({
  battery: fc.option(anyBattery.map((state) => ({ bank: STATION_BANK, state }))),
  alternator: fc.option(fc.record({ limit_A: number(0, 90), setpoint_V: number(27, 29.5) })),
});

describe('alternator', () => {
  it('gives nothing below cut-in and rises toward 90 A', () => {
    expect(alternatorLimit_A(0)).toBe(0);
    expect(alternatorLimit_A(500)).toBe(0);
    expect(alternatorLimit_A(1000)).toBeCloseTo(ALTERNATOR_MAX_A * (1 - Math.exp(-1)), 10);
    expect(alternatorLimit_A(4000)).toBeGreaterThan(89);
    expect(() => alternatorLimit_A(-1)).toThrow(RangeError);
  });

  it('regulates 28.5 V at 25 C, -60 mV a degree for twelve cells (2.375 V a cell; from memory), capped', () => {
    expect(regulatedVolts(25)).toBe(28.5);
    expect(regulatedVolts(25) / 12).toBe(2.375);
    expect(regulatedVolts(15)).toBeCloseTo(29.1, 10);
    // Uncapped it would be 31.2 V at -20 C.
    expect(regulatedVolts(-20)).toBe(29.5);
    expect(regulatedVolts(60)).toBe(27);
  });
});

describe('bus', () => {
  const alternator = { limit_A: 60, setpoint_V: 28.5 };

  it('holds the setpoint and charges the bank within the limit', () => {
    const bus = solveBus({ battery: battery(), alternator }, [amps(30)]);
    expect(bus.bus_V).toBe(28.5);
    expect(bus.battery_A).toBeLessThan(0);
    expect(bus.alternator_A).toBeCloseTo(30 - bus.battery_A, 12);
  });

  it('falls onto the bank when overloaded', () => {
    const bus = solveBus({ battery: battery(), alternator }, [amps(100)]);
    expect(bus.alternator_A).toBe(60);
    expect(bus.battery_A).toBeCloseTo(40, 9);
    expect(bus.bus_V).toBeCloseTo(terminalVolts(STATION_BANK, battery().state, 40), 9);
  });

  it('charges an empty bank with all that is left, below the setpoint', () => {
    const bus = solveBus({ battery: battery(0.3), alternator }, [amps(20)]);
    expect(bus.battery_A).toBeCloseTo(-40, 9);
    expect(bus.bus_V).toBeLessThan(28.5);
  });

  it('with the engine stopped is the terminal volts of the bank', () => {
    const bus = solveBus({ battery: battery(0.6), alternator: null }, [{ kind: 'power', power_W: 500 }]);
    expect(bus.bus_V).toBeCloseTo(terminalVolts(STATION_BANK, battery(0.6).state, bus.battery_A), 9);
    expect(bus.bus_V * bus.battery_A).toBeCloseTo(500, 9);
  });

  it('without bank or engine is dead; with the engine alone it stands or collapses', () => {
    const load: BusLoad = { kind: 'power', power_W: 2500 };
    expect(solveBus({ battery: null, alternator: null }, [load, amps(5)])).toMatchObject({ bus_V: 0, alternator_A: 0 });
    expect(solveBus({ battery: null, alternator }, [amps(50)]).bus_V).toBe(28.5);
    const down = solveBus({ battery: null, alternator }, [load]);
    expect(down.bus_V).toBeLessThan(18);
    expect(down.alternator_A).toBeCloseTo(60, 9);
  });

  it('balances: currents sum, energy in equals energy out to 1e-9, nothing is NaN, and the solution satisfies the bank', () => {
    fc.assert(
      fc.property(anySources, fc.array(anyLoad, { maxLength: 6 }), (sources, loads) => {
        const bus = solveBus(sources, loads);
        const total = bus.loads_A.reduce((sum, a) => sum + a, 0);
        expect(Math.abs(bus.battery_A + bus.alternator_A - total)).toBeLessThan(1e-9);
        const drawn_W = loads.reduce((sum, load) => sum + bus.bus_V * loadCurrent_A(load, bus.bus_V), 0);
        expect(Math.abs(bus.bus_V * (bus.battery_A + bus.alternator_A) - drawn_W)).toBeLessThan(1e-9 * (1 + drawn_W));
        expect(bus.bus_V).toBeGreaterThanOrEqual(0);
        expect(bus.bus_V).toBeLessThanOrEqual(30);
        expect(bus.alternator_A).toBeLessThanOrEqual((sources.alternator?.limit_A ?? 0) + 1e-9);
        if (sources.battery && bus.bus_V > 1e-6) {
          const bank_V = terminalVolts(sources.battery.bank, sources.battery.state, bus.battery_A);
          expect(Math.abs(bank_V - bus.bus_V)).toBeLessThan(1e-9);
        }
      }),
      { seed: 21, numRuns: 1000 },
    );
  });

  it('never rises when a load is added', () => {
    fc.assert(
      fc.property(anySources, fc.array(anyLoad, { maxLength: 4 }), anyLoad, (sources, loads, more) => {
        const before = solveBus(sources, loads).bus_V;
        expect(solveBus(sources, [...loads, more]).bus_V).toBeLessThanOrEqual(before + 1e-9);
      }),
      { seed: 22, numRuns: 1000 },
    );
  });

  it('refuses a load that is none', () => {
    expect(() => solveBus({ battery: null, alternator: null }, [amps(Number.NaN)])).toThrow(RangeError);
    expect(() => solveBus({ battery: null, alternator: null }, [{ kind: 'resistance', resistance_ohm: 0 }])).toThrow(
      RangeError,
    );
  });
});
