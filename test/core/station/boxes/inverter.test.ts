import { describe, expect, it } from 'vitest';
import type { Json } from '../../../../src/core/signals.ts';
import type { Box } from '../../../../src/core/station/box.ts';
import { feed } from '../../../../src/core/station/boxes/feed.ts';
import { inverter } from '../../../../src/core/station/boxes/inverter.ts';
import { hands, POWERED } from './power-rig.ts';
import { Rig } from './rig.ts';

const boxes: readonly Box[] = [feed, inverter, hands];
const rig = (inner: Record<string, Json> = {}, load_W = 0, fuses: Record<string, Json> = {}) => {
  const r = new Rig(boxes, {
    feed: { controls: POWERED, inner: fuses },
    inverter: { controls: { lever: 'A' }, inner },
  });
  Object.assign(r.station.state.boxes['hands'] as object, { mains_W: load_W });
  r.station.settle();
  return r;
};

describe('inverter pair', () => {
  it('gives 230 V 50 Hz six seconds after its start (table of values)', () => {
    const r = rig({}, 175).do('inverter.lever', 'B');
    Object.assign(r.station.state.boxes['hands'] as object, { mains_W: 0 });
    r.do('inverter.start', true).run(5.9);
    expect(r.see('inverter.lamp')).toBe(false);
    r.run(0.1);
    expect(r.see('inverter.lamp')).toBe(true);
    Object.assign(r.station.state.boxes['hands'] as object, { mains_W: 175 });
    r.station.settle();
    expect(r.w.mains_V).toBeCloseTo(230, 0);
    expect(r.w.mains_Hz).toBeCloseTo(50, 1);
  });

  it('starts at four times its full current (table of values)', () => {
    const loaded = rig({ running: true }, 350).w;
    const full = (loaded.draw_A.inverter * loaded.bus_V) / 28.5;
    const r = rig().do('inverter.start', true);
    expect((r.w.draw_A.inverter / r.w.bus_V) * 28.5).toBeCloseTo(4 * full, 6);
  });

  it('sags and slows a little with load', () => {
    const idle = rig({ running: true }).w;
    const loaded = rig({ running: true }, 300).w;
    expect(loaded.mains_V).toBeLessThan(idle.mains_V);
    expect(loaded.mains_Hz).toBeLessThan(idle.mains_Hz);
    expect(idle.mains_Hz - loaded.mains_Hz).toBeLessThan(2);
  });

  it('does nothing with a blown fuse, without supply or at off', () => {
    const blown = rig({}, 0, { fuseA: 'blown' }).do('inverter.start', true);
    const dead = rig().do('feed.inverter', false).do('inverter.start', true);
    const off = rig().do('inverter.lever', 'off').do('inverter.start', true);
    for (const r of [blown, dead, off]) {
      r.run(10);
      expect([r.w.mains_V, r.w.draw_A.inverter, r.see('inverter.lamp')]).toEqual([0, 0, false]);
    }
  });

  it('stops when its lever moves or its breaker goes', () => {
    expect(rig({ running: true }).do('inverter.lever', 'off').w.mains_V).toBe(0);
    expect(rig({ running: true }).do('feed.inverter', false).w.mains_V).toBe(0);
    expect(rig({ running: true }).do('feed.inverter', false).do('feed.inverter', true).run(5).w.mains_V).toBe(0);
  });

  it('turns too slowly with a worn set, and right with the other', () => {
    const r = rig({ faultA: 'slow' }).do('inverter.start', true).run(7);
    expect(r.w.mains_Hz).toBeLessThan(47.5);
    r.do('inverter.lever', 'B').do('inverter.start', true).run(7);
    expect(r.w.mains_Hz).toBeGreaterThan(49);
  });

  it('bears 350 W, overheats above, and comes back when it has cooled', () => {
    const fine = rig({ running: true }, 350).run(3600);
    expect([fine.see('inverter.lamp'), fine.see('inverter.warm')]).toEqual([true, true]);
    const over = rig({ running: true }, 420);
    for (let minutes = 0; over.see('inverter.lamp') && minutes < 120; minutes++) over.run(60);
    expect([over.see('inverter.lamp'), over.see('inverter.warm')]).toEqual([false, true]);
    expect(over.do('inverter.start', true).run(10).see('inverter.lamp')).toBe(false);
    Object.assign(over.station.state.boxes['hands'] as object, { mains_W: 0 });
    over.run(1200).do('inverter.start', true).run(12);
    expect([over.see('inverter.lamp'), over.see('inverter.warm')]).toEqual([true, false]);
  });
});
