/** Laws that hold for hand, tape, printer, line, cover, keyer, receiver and desk together. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { firstMode, move } from '../../../../src/core/kernel/machine.ts';
import type { ControlValue } from '../../../../src/core/signals.ts';
import type { Box, Control } from '../../../../src/core/station/box.ts';
import { cover } from '../../../../src/core/station/boxes/cover.ts';
import { desk } from '../../../../src/core/station/boxes/desk.ts';
import { hand } from '../../../../src/core/station/boxes/hand.ts';
import { keyer } from '../../../../src/core/station/boxes/keyer.ts';
import { line } from '../../../../src/core/station/boxes/line.ts';
import { printer } from '../../../../src/core/station/boxes/printer.ts';
import { receiver } from '../../../../src/core/station/boxes/receiver.ts';
import { tape } from '../../../../src/core/station/boxes/tape.ts';
import { markAt } from '../../../../src/core/station/wave.ts';
import { earFor, textFrom } from './far-signal.ts';
import { Rig } from './rig.ts';

const BOXES: readonly Box[] = [hand, tape, printer, line, cover, keyer, receiver, desk];

function valueFor(c: Control): fc.Arbitrary<ControlValue> {
  const r = c.range;
  if (r.kind === 'words') return fc.constantFrom(...r.words);
  if (r.kind === 'number') return fc.double({ min: r.min, max: r.max, noNaN: true });
  if (r.kind === 'text') return fc.constantFrom('A', 'T', 'FIGS', 'CR', 'LF', 'ALFA BRAVO');
  return fc.boolean();
}

const act = fc
  .constantFrom(...BOXES.flatMap((b) => b.controls.filter((c) => c.id !== 'handover').map((c) => ({ b, c }))))
  .chain(({ b, c }) => fc.tuple(fc.constant(`${b.id}.${c.id}`), valueFor(c), fc.integer({ min: 0, max: 700 })));

const far = () => earFor({ f_Hz: 5.1e6, shift_Hz: 400, cn0_dB: 50, edges: textFrom('RYRYRYRYRYRY', 1e6) });
const FOUND = {
  printer: { controls: { motor: true } },
  keyer: { controls: { power: true } },
  receiver: { controls: { power: true, band: '4', dial: 1100, bandwidth: '1.2', rfGain: 10 } },
};

function isPlain(x: unknown): boolean {
  if (x === null || typeof x === 'string' || typeof x === 'boolean') return true;
  if (typeof x === 'number') return Number.isFinite(x);
  if (Array.isArray(x)) return x.every(isPlain);
  return typeof x === 'object' && Object.getPrototypeOf(x) === Object.prototype && Object.values(x).every(isPlain);
}

test('whatever the hand does: states and wires stay plain and finite, looking changes nothing, settling again changes nothing', () => {
  fc.assert(
    fc.property(fc.array(act, { maxLength: 25 }), (acts) => {
      const rig = new Rig(BOXES, FOUND, far());
      for (const [name, value, pause_ms] of acts) {
        rig.turn(name, value);
        rig.run(pause_ms / 1000);
      }
      expect(isPlain(rig.station.state)).toBe(true);
      rig.station.settle();
      const before = JSON.stringify([rig.station.state, rig.queue]);
      for (const b of rig.station.boxes)
        for (const i of b.indicators) expect(isPlain(rig.see(`${b.id}.${i.id}`))).toBe(true);
      rig.station.settle();
      expect(JSON.stringify([rig.station.state, rig.queue])).toBe(before);
    }),
    { seed: 11, numRuns: 60 },
  );
});

test('waves stay sorted and alternate, and their history does not grow', () => {
  fc.assert(
    fc.property(fc.array(act, { maxLength: 40 }), (acts) => {
      const rig = new Rig(BOXES, FOUND, far());
      for (const [name, value, pause_ms] of acts) {
        rig.turn(name, value);
        rig.run(pause_ms / 1000);
      }
      const { w } = rig;
      for (const wave of [
        w.local,
        w.loop,
        w.sent,
        w.keyed,
        w.decided,
        w.handKey,
        w.tapeOut,
        ...Object.values(w.contact),
      ]) {
        for (const [i, e] of wave.entries()) {
          if (i === 0) continue;
          expect(e.t_us).toBeGreaterThan(wave[i - 1]!.t_us);
          expect(e.mark).not.toBe(wave[i - 1]!.mark);
        }
        expect(wave.length).toBeLessThan(400);
      }
    }),
    { seed: 12, numRuns: 40 },
  );
});

test('the same hand gives the same record, however the time is cut', () => {
  const play = (steps: number[]) => {
    const rig = new Rig(
      BOXES,
      { ...FOUND, line: { controls: { lever: 'IN' } }, printer: { controls: { motor: true, source: 'line' } } },
      far(),
    );
    for (const s of steps) rig.run(s);
    return JSON.stringify(rig.notes);
  };
  expect(play(new Array(60).fill(0.1))).toBe(play([6]));
});

test('saved, read back and gone on: the same record (while print comes in, and while a tape runs out)', () => {
  const play = (lever: string, isSaved: boolean) => {
    const rig = new Rig(
      BOXES,
      {
        ...FOUND,
        line: { controls: { lever, tape: true } },
        printer: { controls: { motor: true, source: 'line' } },
        tape: { inner: { reader: 'RYRYRYRYRYRYRYRYRYRY' } },
        cover: { controls: { cover: lever === 'OUT', tapeNo: '1' } },
      },
      far(),
    ).run(2.3);
    if (lever === 'OUT') rig.do('tape.run', true);
    for (let i = 0; i < 40; i++) {
      rig.run(0.0371);
      if (isSaved) rig.reload();
    }
    return JSON.stringify([rig.notes, rig.station.state]);
  };
  for (const lever of ['IN', 'OUT']) expect(play(lever, true)).toBe(play(lever, false));
});

test('a contact opened in the middle of a character is open at once, and the reader makes of it what it can', () => {
  const rig = new Rig(BOXES, {
    ...FOUND,
    printer: { controls: { motor: true, source: 'line' } },
    line: { controls: { lever: 'OUT', keys: true } },
  }).run(3);
  rig.do('printer.key', 'LTRS').run(0.055).do('keyer.power', false);
  expect(markAt(rig.w.loop, rig.now_us)).toBe(false);
  // Units of 20 ms are looked at 30, 50, 70 ms after the start: units 1 and 2 were still at mark, the rest is space. That is A.
  rig.run(0.1);
  expect(rig.codes()[0]).toBe(0b00011);
});

test('machines: every mode is reached by its own events and none asks for anything but a delay', () => {
  for (const b of BOXES) {
    const modes = Object.keys(b.machine.states);
    expect(modes).toContain(firstMode(b.machine).mode);
    for (const m of modes) for (const e of b.machine.events) expect(modes).toContain(move(b.machine, m, e).mode);
  }
});

test('every control and indicator has its words, and names do not repeat', () => {
  for (const b of BOXES) {
    const ids = b.controls.map((c) => c.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const c of b.controls) expect([c.id, c.inside.length > 20, c.name.length > 1]).toEqual([c.id, true, true]);
    for (const s of b.indicators) expect(s.name.length).toBeGreaterThan(1);
  }
});
