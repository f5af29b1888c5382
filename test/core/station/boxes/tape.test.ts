import fc from 'fast-check';
import { expect, test } from 'vitest';
import { line } from '../../../../src/core/station/boxes/line.ts';
import { printer } from '../../../../src/core/station/boxes/printer.ts';
import { tape } from '../../../../src/core/station/boxes/tape.ts';
import { newTapes, punchColumn } from '../../../../src/core/station/boxes/tapes.ts';
import { decode, encode } from '../../../../src/core/telegraphy/ita2.ts';
import { loopSupply } from './loop-supply.ts';
import { keysOf, Rig } from './rig.ts';

const rig = (inner = {}, controls = {}) =>
  new Rig([tape, printer, line], {
    printer: { controls: { motor: true } },
    tape: { inner, controls },
  }).run(2.5);
const punched = (r: Rig) => r.see('tape.punched') as number[];

test('the punch copies what runs through the printer, and only while it is on', () => {
  const r = rig()
    .keys('A')
    .do('tape.punch', true)
    .keys(...keysOf('RY'), 'FIGS', 'Q')
    .run(0.2);
  // ITU-T S.1: R 01010, Y 10101, FIGS 11011, Q 11101, unit 1 the low bit.
  expect(punched(r)).toEqual([0x0a, 0x15, 0x1b, 0x17]);
  expect(r.see('tape.count')).toBe(4);
  r.do('tape.punch', false).keys('A').run(0.2);
  expect(punched(r).length).toBe(4);
});

test('a weak supply that sags under reader, punch and printer does not make them start and stop for ever', () => {
  const r = new Rig([tape, printer, line], {
    supply: { inner: { volts: 180.4, sag: 0.03 } },
    tape: { inner: { reader: 'RYRYRYRYRYRY' }, controls: { run: true, punch: true } },
    printer: { controls: { motor: true } },
  }).run(1);
  const changes = r.notes.filter((n) => n.k === 'mode');
  expect(changes.map((n) => n.k === 'mode' && [n.box, n.mode])).toEqual([
    ['tape', 'running'],
    ['printer', 'runUp'],
  ]);
});

test('holes only add: a character punched over another is the OR of both', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 31 }), fc.integer({ min: 0, max: 31 }), (a, b) => {
      const t = newTapes([], '');
      punchColumn(t, a);
      t.head = 0;
      punchColumn(t, b);
      expect(t.punched).toEqual([a | b]);
    }),
    { seed: 3 },
  );
});

test('a slip punched out with LTRS reads clean', () => {
  const r = rig()
    .do('tape.punch', true)
    .keys(...keysOf('KELX'))
    .run(0.2);
  r.do('tape.back', true).keys('LTRS', 'P').run(0.2);
  expect(decode(punched(r)).text).toBe('KELP');
  r.do('tape.punch', false).do('tape.tear', true).do('printer.tearOff', true).keys('CR').do('tape.run', true).run(2);
  expect(r.see('printer.page')).toEqual(['KELP']);
});

test('a slip punched over with anything else does not', () => {
  const r = rig().do('tape.punch', true).keys('X').run(0.2).do('tape.back', true).keys('P').run(0.2);
  // X 10111 over P 01101 is LTRS by chance of the alphabet; E over T is Z (10000 OR 00001 = 10001).
  expect(punched(r)).toEqual([0x1d | 0x16]);
  const other = rig().do('tape.punch', true).keys('E').run(0.2).do('tape.back', true).keys('T').run(0.2);
  expect(decode(punched(other)).text).toBe('Z');
});

test('back needs the punch and a column', () => {
  const r = rig();
  expect(r.turn('tape.back', true)).toBe('the punch is off');
  r.do('tape.punch', true);
  expect(r.turn('tape.back', true)).toBe('no tape punched');
});

test('the reader sends a character each 150 ms (7.5 units at 50 Bd) and stops at the end', () => {
  const text = 'THE QUICK BROWN FOX';
  const r = rig({ reader: text });
  const t0 = r.now_us;
  r.do('tape.run', true);
  expect(r.see('tape.lamp')).toBe(true);
  r.run(10);
  expect(r.printed()).toBe(text);
  const at = r.notes.filter((n) => n.k === 'print').map((n) => n.t_us - t0);
  const n = encode(text).codes.length;
  expect(at.length).toBe(n);
  expect(at[n - 1]).toBe((n - 1) * 150_000 + 135_000);
  expect(r.see('tape.lamp')).toBe(false);
  expect((r.see('tape.reading') as { at: number }).at).toBe(n);
});

test('without mains the reader halts and goes on where it was', () => {
  const r = rig({ reader: 'ABCDEFGH' }).do('tape.run', true).run(0.5);
  r.feed(0).run(3);
  const at = (r.see('tape.reading') as { at: number }).at;
  expect(at).toBeLessThan(6);
  r.feed(230).run(0.01);
  expect((r.see('tape.reading') as { at: number }).at).toBe(at + 1);
});

test('rewind, step and the run lever moved again', () => {
  const r = rig({ reader: 'AB' }).do('tape.run', true).run(1.5);
  expect(r.printed()).toBe('AB');
  r.do('tape.rewind', true).do('tape.step', true).do('tape.step', true).do('tape.run', true).run(1);
  expect(r.printed()).toBe('ABB');
  expect(r.turn('tape.step', true)).toBe('no tape under the pins');
});

test('on a tape still in the punch the reader stops when it has caught up and goes on with the next column', () => {
  // Both in one loop would read themselves for ever, so the punch is fed by hand here.
  const r = rig({}, { run: true }).run(0.1);
  expect(r.see('tape.slack')).toBe(true);
  r.do('tape.feed', true);
  expect(r.see('tape.slack')).toBe(false);
  r.run(1);
  expect(r.see('tape.slack')).toBe(false);
  r.run(1);
  expect(r.see('tape.slack')).toBe(true);
  expect(r.codes()).toEqual(new Array(10).fill(31));
});

test('one tape is kept, and sent to each of several stations', () => {
  const r = rig()
    .do('tape.punch', true)
    .keys(...keysOf('RY'))
    .run(0.2)
    .do('tape.punch', false);
  expect(r.turn('tape.keep', true)).toBe('no tape on the reader');
  r.do('tape.tear', true).do('tape.rack', '3').do('tape.keep', true);
  expect(r.see('tape.rackList')).toContain('3: 2 columns');
  for (const want of ['RY', 'RYRY', 'RYRYRY']) {
    r.do('tape.load', true).do('tape.run', true).run(1).do('tape.run', false).do('tape.keep', true);
    expect(r.printed().slice(2)).toBe(want);
  }
  expect(r.turn('tape.load', true)).toBeUndefined();
  expect(r.turn('tape.load', true)).toBe('peg 3 is empty');
});

test('tearing lays the tape in the reader and hangs the old one on a free peg; a full rack refuses', () => {
  const full = rig({ rack: ['A', 'B', 'C', 'D', 'E', 'F'], reader: 'G' }).do('tape.feed', true);
  expect(full.turn('tape.tear', true)).toBe('the rack is full');
  const r = rig({ rack: ['A'], reader: 'GG' });
  expect(r.turn('tape.tear', true)).toBe('no tape punched');
  r.do('tape.feed', true).do('tape.tear', true);
  expect(r.see('tape.rackList')).toContain('2: 3 columns');
  expect(r.see('tape.onReader')).toBe(10);
  expect(r.see('tape.reading')).toEqual({ codes: new Array(10).fill(31), at: 0 });
  expect(r.see('tape.punched')).toEqual([]);
});

test('on line the reader keys the loop only when its jack is in', () => {
  const at = (jack: boolean) => {
    const r = new Rig([tape, printer, line, loopSupply], {
      printer: { controls: { motor: true, source: 'line' } },
      tape: { inner: { reader: 'RYRY' } },
      line: { controls: { lever: 'OUT', tape: jack } },
    }).run(2.5);
    return r.do('tape.run', true).run(1.5).printed();
  };
  expect(at(true)).toBe('RYRY');
  expect(at(false)).toBe('');
});
