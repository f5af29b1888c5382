import fc from 'fast-check';
import { expect, test } from 'vitest';
import { line } from '../../../../src/core/station/boxes/line.ts';
import { BLOT, PLACES } from '../../../../src/core/station/boxes/page.ts';
import { keyCode, printer } from '../../../../src/core/station/boxes/printer.ts';
import { tape } from '../../../../src/core/station/boxes/tape.ts';
import { loopSupply } from './loop-supply.ts';
import { keysOf, Rig } from './rig.ts';

const local = (inner = {}, controls = {}) =>
  new Rig([tape, printer, line], { printer: { controls: { motor: true, ...controls }, inner } }).run(2.5);
const page = (rig: Rig) => (rig.see('printer.page') as string[]).join('\n');

test('the local loop prints what is typed, with its case', () => {
  const rig = local()
    .keys(...keysOf('QRT'), 'SPACE', 'FIGS', ...keysOf('QRT'), 'LTRS', 'A')
    .run(0.2);
  // ITU-T S.1: figures of Q, R, T are 1, 4, 5.
  expect(page(rig)).toBe('QRT 145A');
  expect(rig.see('printer.case')).toBe('LTRS');
  expect(rig.see('printer.column')).toBe(8);
});

test('a character prints at the latch of its own cycle, not at a tick (6.75 units of 20 ms after the start)', () => {
  const rig = local();
  rig.run(0.013).do('printer.key', 'R');
  const t0 = rig.now_us;
  rig.run(0.5);
  expect(rig.notes.find((n) => n.k === 'print')?.t_us).toBe(t0 + 135_000);
});

test('the keyboard is locked for one character, 150 ms at 50 Bd with a stop of 1.5', () => {
  const rig = local();
  expect(rig.turn('printer.key', 'A')).toBeUndefined();
  rig.run(0.149);
  expect(rig.turn('printer.key', 'B')).toBe('the keyboard is locked until the last key is through');
  rig.run(0.001);
  expect(rig.turn('printer.key', 'B')).toBeUndefined();
  expect(page(rig.run(0.3))).toBe('AB');
});

test('no key without its motor, and none that the keyboard does not have', () => {
  const rig = new Rig([tape, printer, line]).run(1);
  expect(rig.turn('printer.key', 'A')).toMatch(/stands still/);
  rig.do('printer.motor', true).run(2.5);
  expect(rig.turn('printer.key', '7')).toMatch(/one of A to Z/);
  expect(rig.see('printer.lamp')).toBe(true);
  rig.feed(100).run(2);
  expect(rig.see('printer.lamp')).toBe(false);
  expect(rig.turn('printer.key', 'A')).toMatch(/stands still/);
});

test('32 keys and no more', () => {
  const names = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ', 'LTRS', 'FIGS', 'CR', 'LF', 'SPACE', 'BLANK'];
  expect(new Set(names.map(keyCode)).size).toBe(32);
});

test('the motor takes four times its current while it runs up, for two seconds', () => {
  const rig = new Rig([tape, printer, line]);
  rig.do('printer.motor', true);
  expect(rig.w.mains_W.printer).toBe(240);
  rig.run(1.9);
  expect(rig.w.mains_W.printer).toBe(240);
  rig.run(0.2);
  expect(rig.w.mains_W.printer).toBe(60);
  expect(rig.do('printer.motor', false).w.mains_W.printer).toBe(0);
});

test('bell and "who are you" go into the record: figures of J and D (ITU-T S.1)', () => {
  const rig = local().keys('FIGS', 'J', 'D').run(0.2);
  expect(rig.printed()).toBe('\u0007\u0005');
  expect(rig.codes()).toEqual([0x1b, 0x0b, 0x09]);
  expect(page(rig)).toBe('');
});

test('a missed line feed prints over the line, a missed carriage return piles up at the margin', () => {
  const rig = local().keys('A', 'B', 'CR', 'A', 'C').run(0.2);
  expect(page(rig)).toBe(`A${BLOT}`);
  const long = local()
    .keys(...keysOf('X'.repeat(75)), 'Y')
    .run(0.2);
  expect(page(long)).toBe('X'.repeat(PLACES - 1) + BLOT);
  expect(page(long.keys('CR', 'LF', 'Z').run(0.2)).split('\n')[1]).toBe('Z');
});

test('line feed without carriage return goes down where the carriage stands', () => {
  expect(page(local().keys('A', 'LF', 'B').run(0.2))).toBe('A\n B');
});

test('paper runs out and is put in anew; the page tears off', () => {
  const rig = local({ paper: 1 }).keys('A', 'CR', 'LF', 'B').run(0.2);
  expect(rig.see('printer.paperLeft')).toBe('out');
  expect(page(rig)).toBe('A\n');
  rig.do('printer.paper', true).keys('C').run(0.2);
  expect(page(rig)).toBe('A\n C');
  expect(page(rig.do('printer.tearOff', true))).toBe('');
});

test('wrong range garbles, the middle does not', () => {
  const typed = (range: number) =>
    page(
      local({}, { range })
        .keys(...keysOf('RYRYRY'))
        .run(0.3),
    );
  for (const range of [20, 35, 50, 65, 80]) expect(typed(range)).toBe('RYRYRY');
  for (const range of [0, 15, 85, 100]) expect(typed(range)).not.toContain('RY');
});

/** Text printed from tape that was sent at 50 Bd exactly, by a printer whose own motor is off speed. */
function offSpeed(error_pct: number, range = 50): string {
  // The bench's own reader goes with the supply; the printer alone is off, by its governor.
  const rig = new Rig([tape, printer, line], {
    printer: { controls: { motor: true, range }, inner: { speedError_pct: error_pct } },
    tape: { inner: { reader: 'THE QUICK BROWN FOX 123' } },
  }).run(2.5);
  return rig.do('tape.run', true).run(6).printed();
}

test('a motor off speed: unit 5 is looked at 5.5 units after the start, so the middle of the range bears about 9 % (50/5.5)', () => {
  for (const e of [-7, -4, 0, 4, 7]) expect(offSpeed(e)).toBe('THE QUICK BROWN FOX 123');
  for (const e of [-14, 12]) expect(offSpeed(e)).not.toBe('THE QUICK BROWN FOX 123');
});

test('a range off the middle mends a motor off speed on one side and worsens the other', () => {
  const clean = 'THE QUICK BROWN FOX 123';
  // Too fast a reader looks early: looking later in the unit helps, by 25/5.5 = 4.5 %.
  expect(offSpeed(11, 75)).toBe(clean);
  expect(offSpeed(-7, 75)).not.toBe(clean);
});

test('mains off 50 Hz turns both reader and keyboard off, so local print stays clean', () => {
  const rig = local();
  rig
    .feed(230, 45)
    .run(1)
    .keys(...keysOf('FOX'))
    .run(0.2);
  expect(page(rig)).toBe('FOX');
  expect(rig.see('printer.speed')).toBe(45);
});

test('an open loop makes the printer run open: blanks, a few of them told, and no flood of events', () => {
  const rig = local({}, { source: 'line' });
  expect(rig.w.loop_mA).toBe(0);
  const before = rig.notes.length;
  rig.run(60);
  expect(rig.codes().every((c) => c === 0)).toBe(true);
  expect(rig.codes().length).toBe(3);
  expect(rig.notes.length - before).toBeLessThan(4);
  expect(rig.queue.dues.filter((d) => d.to === 'printer')).toEqual([]);
});

test('property: in local every sequence of keys is read as typed', () => {
  const names = ['A', 'Q', 'R', 'Y', 'M', 'T', 'LTRS', 'FIGS', 'CR', 'LF', 'SPACE', 'BLANK'];
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.constantFrom(...names), fc.integer({ min: 0, max: 400 })), { maxLength: 12 }),
      (keys) => {
        const rig = local();
        for (const [name, pause] of keys) rig.run(0.15 + pause / 1000).do('printer.key', name);
        expect(rig.run(0.5).codes()).toEqual(keys.map(([name]) => keyCode(name)));
      },
    ),
    { seed: 7, numRuns: 40 },
  );
});

test('put on a loop that has just been closed, the printer reads it from now on only', () => {
  const rig = new Rig([tape, printer, line, loopSupply], {
    printer: { controls: { motor: true } },
    holder: { controls: { mA: 0 } },
  }).run(3.1);
  rig.do('holder.mA', 20).do('printer.source', 'line').run(1);
  expect(rig.codes()).toEqual([]);
});
