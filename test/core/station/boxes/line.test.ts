import { expect, test } from 'vitest';
import { cover } from '../../../../src/core/station/boxes/cover.ts';
import { FAR_mA, HOLDS_mA, line } from '../../../../src/core/station/boxes/line.ts';
import { printer } from '../../../../src/core/station/boxes/printer.ts';
import { tape } from '../../../../src/core/station/boxes/tape.ts';
import { markAt } from '../../../../src/core/station/wave.ts';
import { loopSupply } from './loop-supply.ts';
import { keysOf, Rig } from './rig.ts';

const rig = (controls = {}, inner = {}) =>
  new Rig([tape, printer, line, cover, loopSupply], {
    printer: { controls: { motor: true, source: 'line' } },
    line: { controls, inner },
  }).run(2.5);

test('OUT: the keyboard keys the loop and what goes on to the keyer, and the own printer copies', () => {
  const r = rig({ lever: 'OUT', keys: true }).do('printer.key', 'T');
  expect(markAt(r.w.loop, r.now_us)).toBe(false);
  expect(markAt(r.w.sent, r.now_us)).toBe(false);
  expect(r.run(0.3).printed()).toBe('T');
});

test('OUT with the keyboard not patched: nothing goes to line', () => {
  const r = rig({ lever: 'OUT' }).do('printer.key', 'T');
  expect(markAt(r.w.sent, r.now_us)).toBe(true);
  expect(r.run(0.3).printed()).toBe('');
});

test('STEADY: steady mark to the keyer and nothing prints, whatever is typed', () => {
  const r = rig({ lever: 'STEADY', keys: true }).keys(...keysOf('RYRY'));
  expect(r.w.sent.every((e) => e.t_us > r.now_us || e.mark)).toBe(true);
  expect(r.printed()).toBe('');
});

test('IN: the terminal unit drives the loop and the keyer has steady mark', () => {
  const r = rig({ lever: 'IN', keys: true });
  const t = r.now_us + 10_000;
  // R by hand at 50 Bd: start, 01010, stop.
  r.w.decided.push(...[0, 40, 60, 80, 100, 120].map((ms, i) => ({ t_us: t + ms * 1000, mark: i % 2 === 1 })));
  r.station.settle();
  r.run(0.5);
  expect(r.printed()).toBe('R');
  expect(r.w.sent.every((e) => e.mark)).toBe(true);
});

test('local keeps the keyboard out of the line loop', () => {
  const r = rig({ lever: 'OUT', keys: true }).do('printer.source', 'local').do('printer.key', 'T');
  expect(markAt(r.w.sent, r.now_us)).toBe(true);
  expect(r.run(0.3).printed()).toBe('T');
});

test('meter and lamp follow the current; under 12 mA mark reads as space and the printer runs open', () => {
  const r = rig({ lever: 'STEADY' });
  expect(r.see('line.meter')).toBe(20);
  expect(r.see('line.lamp')).toBe(true);
  r.do('holder.mA', HOLDS_mA).run(0.5);
  expect(r.see('line.lamp')).toBe(true);
  r.do('holder.mA', HOLDS_mA - 1).run(0.5);
  expect(r.see('line.lamp')).toBe(false);
  expect(r.see('line.meter')).toBe(HOLDS_mA - 1);
  expect(r.codes()).toContain(0);
});

test('the needle sinks while characters run: a third and more of a R at space', () => {
  const r = rig({ lever: 'OUT', keys: true }).do('printer.key', 'R').run(0.15);
  // R has start and units 1, 3, 5 at space: 80 of 300 ms.
  expect(r.see('line.meter')).toBeCloseTo((20 * 220) / 300, 1);
});

test('the remote line costs 5 mA and its machine copies; a broken one opens the loop', () => {
  const r = rig({ lever: 'OUT', keys: true, far: true });
  expect(r.w.loop_mA).toBe(20 - FAR_mA);
  r.keys(...keysOf('RY')).run(0.2);
  expect(r.printed('remote')).toBe('RY');
  r.do('line.far', false).keys('Q').run(0.2);
  expect(r.printed('remote')).toBe('RY');
  const broken = rig({ lever: 'OUT' }, { farBroken: true });
  expect(broken.w.loop_mA).toBe(20);
  broken.do('line.far', true);
  expect(broken.w.loop_mA).toBe(0);
  expect(markAt(broken.w.sent, broken.now_us)).toBe(false);
});
