import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STATION_BANK } from '../../../../src/core/physics/battery.ts';
import type { ControlValue } from '../../../../src/core/signals.ts';
import type { Box, Found } from '../../../../src/core/station/box.ts';
import { aerial } from '../../../../src/core/station/boxes/aerial.ts';
import { type FeedLedger, feed } from '../../../../src/core/station/boxes/feed.ts';
import { inverter } from '../../../../src/core/station/boxes/inverter.ts';
import { sender } from '../../../../src/core/station/boxes/sender.ts';
import { LOADS } from '../../../../src/core/station/wires.ts';
import { hands, POWERED } from './power-rig.ts';
import { Rig } from './rig.ts';

const boxes: readonly Box[] = [feed, inverter, aerial, hands, sender];
const rig = (
  controls: Record<string, ControlValue> = {},
  inner: Found['inner'] = {},
  more: Record<string, Partial<Found>> = {},
) => new Rig(boxes, { feed: { controls: { ...POWERED, engine: 'stop', ...controls }, inner }, ...more });
const volts = (r: Rig) => Number(r.see('feed.volts'));
const amps = (r: Rig) => Number(r.see('feed.amps'));
const drawn = (r: Rig) => LOADS.reduce((sum, load) => sum + r.w.draw_A[load], 0);
type Inside = {
  ledger: FeedLedger;
  bus: { bus_V: number; battery_A: number; alternator_A: number };
  battery: { charge: number };
};
const inside = (r: Rig) => r.station.state.boxes['feed'] as unknown as Inside;

describe('bus', () => {
  it('stands at the rest volts of a full bank, 25.3 V (table of values)', () => {
    expect(volts(rig({ vent: false }, { charge: 1 }))).toBeCloseTo(25.3, 6);
  });

  it('is dead without isolator and engine, and the meter before the master still reads', () => {
    expect(volts(rig({ isolator: false }))).toBe(0);
    const r = rig({ master: false });
    expect(volts(r)).toBeGreaterThan(25);
    expect(r.w.bus_V).toBe(0);
    expect(LOADS.some((l) => r.w.live[l])).toBe(false);
  });

  it('makes each load live by its own breaker', () => {
    for (const load of LOADS) {
      const r = rig();
      expect(r.w.live[load]).toBe(true);
      expect(r.do(`feed.${load}`, false).w.live[load]).toBe(false);
    }
  });

  it('is held at 28.5 V by the alternator, which charges the bank', () => {
    expect(volts(rig({ engine: 'run' }))).toBeCloseTo(28.5, 6);
    // An emptier bank takes all that 90 A leave over (table of values), and the bus comes up as it fills.
    const r = rig({ engine: 'run' }, { charge: 0.5 });
    // Plus is charge, as on the ammeter of any vehicle (common practice).
    expect(amps(r)).toBeGreaterThan(20);
    expect(amps(r)).toBeLessThan(90);
    expect(amps(rig({ engine: 'stop', vent: true }))).toBeLessThan(0);
    expect(volts(r)).toBeGreaterThan(25);
    const before = inside(r).battery.charge;
    expect(inside(r.run(60)).battery.charge).toBeGreaterThan(before);
    expect(r.see('feed.charge')).toBe(true);
  });

  it('sags for two seconds of cranking, under what the inverter needs', () => {
    const r = rig({}, {}, { inverter: { controls: { lever: 'A' }, inner: { running: true } } });
    expect(r.see('inverter.lamp')).toBe(true);
    r.do('feed.engine', 'run');
    expect(volts(r)).toBeLessThan(21);
    expect(r.run(1).see('inverter.lamp')).toBe(false);
    expect(volts(r.run(1.1))).toBeCloseTo(28.5, 6);
    expect(r.w.engine).toBe(true);
  });

  it('cannot crank from an empty or an isolated bank', () => {
    for (const r of [rig({}, { charge: 0, temp_C: -30 }), rig({ isolator: false })])
      expect(r.do('feed.engine', 'run').run(5).w.engine).toBe(false);
  });

  it('pulls down when the inverter starts, and comes back', () => {
    const r = rig({}, {}, { inverter: { controls: { lever: 'A' } } });
    const before = volts(r);
    r.do('inverter.start', true);
    expect(volts(r)).toBeLessThan(before - 0.5);
    expect(volts(r.run(7))).toBeGreaterThan(before - 0.2);
  });

  it('runs down under a load', () => {
    const r = rig({}, { charge: 0.6 }, { sender: { controls: { readiness: 'heat', fan: true } } }).run(600);
    // About 8 A for ten minutes of 120 Ah is 1.1 percent; Peukert adds a little.
    expect(0.6 - inside(r).battery.charge).toBeGreaterThan(0.011);
    expect(0.6 - inside(r).battery.charge).toBeLessThan(0.025);
  });
});

describe('energy and current', () => {
  const act = fc.record({
    control: fc.constantFrom(
      ['feed.isolator', true],
      ['feed.isolator', false],
      ['feed.engine', 'run'],
      ['feed.engine', 'stop'],
      ['feed.vent', true],
      ['feed.vent', false],
      ['feed.inverter', true],
      ['feed.master', true],
      ['feed.sender', true],
      ['inverter.lever', 'A'],
      ['inverter.lever', 'B'],
      ['inverter.lever', 'off'],
      ['inverter.start', true],
      ['sender.readiness', 'heat'],
      ['sender.readiness', 'send'],
      ['sender.readiness', 'off'],
      ['sender.fan', true],
      ['sender.setting', '1'],
      ['sender.emission', 'F1B'],
    ) as fc.Arbitrary<[string, ControlValue]>,
    wait_s: fc.double({ min: 0, max: 8, noNaN: true }),
  });

  it('what sources give is what loads take, at any instant and over any time', () => {
    fc.assert(
      fc.property(
        fc.array(act, { minLength: 5, maxLength: 25 }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (acts, charge) => {
          const r = rig(
            {},
            { charge },
            { aerial: { controls: { sections: 4 } }, sender: { inner: { settings: [{ kHz: 3620 }] } } },
          );
          for (const { control, wait_s } of acts) {
            r.turn(...control);
            r.run(wait_s);
            const { bus, ledger: l } = inside(r);
            const cranking =
              (r.station.state.boxes['feed'] as { mode: string }).mode === 'cranking' &&
              r.station.standing('feed.isolator');
            const taken = drawn(r) + (cranking ? 600 : 0);
            expect(Math.abs(bus.battery_A + bus.alternator_A - taken)).toBeLessThan(0.1 + 0.01 * taken);
            const given = l.alternator_J + l.chemical_J;
            const spent = l.loads_J + l.heat_J + l.stored_J;
            // The bank's own volts creep within a tick while the bus is held: a part in a thousand.
            expect(Math.abs(given - spent)).toBeLessThan(1 + 2e-3 * (l.loads_J + l.alternator_J));
            expect(Number.isFinite(bus.bus_V + inside(r).battery.charge)).toBe(true);
          }
        },
      ),
      { seed: 21, numRuns: 25 },
    );
  });

  it('counts charge by the ampere-hour: a steady current against the bank’s own size', () => {
    const r = rig({ master: true, inverter: false, sender: false }, { charge: 0.9 }).run(1800);
    const A = drawn(r);
    // 4 A is under the 20-hour rate of 6 A, so Peukert does not count: A h / 120 Ah.
    expect(0.9 - inside(r).battery.charge).toBeCloseTo((A * 0.5) / STATION_BANK.capacity_Ah, 3);
  });
});

describe('breakers and fuses', () => {
  it('bears the inverter or the heaters, trips the master when both start at once', () => {
    for (const engine of ['run', 'stop']) {
      const apart = rig({ engine }, {}, { inverter: { controls: { lever: 'A' } } });
      apart.do('inverter.start', true).run(8).do('sender.readiness', 'heat').run(20);
      expect([engine, apart.see('feed.tripped')]).toEqual([engine, 'none']);
      const other = rig({ engine }, {}, { inverter: { controls: { lever: 'A' } } });
      other.do('sender.readiness', 'heat').run(20).do('inverter.start', true).run(8);
      expect([engine, other.see('feed.tripped')]).toEqual([engine, 'none']);
      const both = rig({ engine }, {}, { inverter: { controls: { lever: 'A' } } });
      both.do('sender.readiness', 'heat').do('inverter.start', true).run(8);
      expect([engine, both.see('feed.tripped')]).toEqual([engine, 'master']);
      expect(both.station.standing('feed.master')).toBe(false);
      expect(both.do('feed.master', true).see('feed.tripped')).toBe('none');
    }
  });

  it('throws the breaker of an inverter that must run up with a load on it', () => {
    const r = rig({}, {}, { inverter: { controls: { lever: 'A' } } });
    Object.assign(r.station.state.boxes['hands'] as object, { mains_W: 110 });
    r.do('inverter.start', true).run(20);
    expect(r.see('feed.tripped')).toBe('inverter');
  });

  it('blows the fuse of a shorted set, and the new one as well', () => {
    const r = rig({}, { spares: 2 }, { inverter: { controls: { lever: 'A' }, inner: { faultA: 'dead' } } });
    r.do('inverter.start', true).run(1);
    expect(r.see('feed.fuses')).toBe('A blown, B good, 2 spare');
    expect(r.turn('feed.fuseA', true)).toMatch(/lever/);
    r.do('inverter.lever', 'off').do('feed.fuseA', true);
    expect(r.see('feed.fuses')).toBe('A good, B good, 1 spare');
    r.do('inverter.lever', 'A').do('inverter.start', true).run(1);
    expect(r.see('feed.fuses')).toBe('A blown, B good, 1 spare');
    r.do('inverter.lever', 'B').do('inverter.start', true).run(7);
    expect(r.see('inverter.lamp')).toBe(true);
  });

  it('has only so many spares', () => {
    const r = rig({}, { spares: 1, fuseB: 'blown' });
    expect(r.turn('feed.fuseB', true)).toBeUndefined();
    expect(r.turn('feed.fuseB', true)).toMatch(/no spare/);
  });
});

describe('exhaust gas', () => {
  it('warns after a minute of engine without the fan, and clears with it', () => {
    const r = rig({ engine: 'run', vent: false }).run(59);
    expect(r.see('feed.gas')).toBe(false);
    expect(r.run(2).see('feed.gas')).toBe(true);
    expect(r.notes.some((n) => n.k === 'far' && n.what === 'unsafe')).toBe(true);
    expect(r.do('feed.vent', true).run(30).see('feed.gas')).toBe(false);
  });

  it('never warns with the fan', () => {
    expect(rig({ engine: 'run' }).run(300).see('feed.gas')).toBe(false);
  });
});
