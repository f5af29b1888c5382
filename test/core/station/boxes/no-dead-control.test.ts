/** A law of the four powered boxes: no control is dead, and nothing that can be read is ever not a number. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ControlValue } from '../../../../src/core/signals.ts';
import { type Control, rest } from '../../../../src/core/station/box.ts';
import { aerial } from '../../../../src/core/station/boxes/aerial.ts';
import { feed } from '../../../../src/core/station/boxes/feed.ts';
import { inverter } from '../../../../src/core/station/boxes/inverter.ts';
import { sender } from '../../../../src/core/station/boxes/sender.ts';
import { PowerRig } from './power-rig.ts';

const BOXES = [feed, inverter, aerial, sender];
const NAMES = BOXES.flatMap((b) => b.controls.map((c) => `${b.id}.${c.id}`));

/** All that anybody outside a box could tell: what its indicators show, its wires, what it recorded. */
function shown(r: PowerRig): string {
  const read = BOXES.flatMap((b) => b.indicators.map((i) => [`${b.id}.${i.id}`, r.see(`${b.id}.${i.id}`)]));
  return JSON.stringify([read, r.w, r.notes]);
}

function other(c: Control, now: ControlValue): ControlValue {
  const r = c.range;
  if (r.kind === 'words') return r.words[(r.words.indexOf(String(now)) + 1) % r.words.length] as string;
  if (r.kind === 'number') return Number(now) === r.max ? r.min : r.max;
  return !now;
}

/** Situations in which a control may show what it does. */
const SITUATIONS: (() => PowerRig)[] = [
  () => new PowerRig({ emission: 'F1B', meter: 'heat' }),
  () => new PowerRig({ emission: 'A3E', setting: 'hand' }),
  () => new PowerRig({ emission: 'N0N', cage: true, readiness: 'send' }),
  () =>
    new PowerRig(
      { filter: false, readiness: 'wait' },
      { filter: 'dirty' },
      { feed: { inner: { fuseA: 'blown', fuseB: 'blown' }, controls: { isolator: true, master: true } } },
    ),
  () => new PowerRig({}, {}, { inverter: { controls: { lever: 'A' } } }),
  () => new PowerRig({ setting: '3', frequency: 5000 }),
];

/** What the operator does afterwards, where the effect of a control is one on what comes later. */
const AFTERWARDS: Record<string, (r: PowerRig) => void> = {
  'sender.keep': (r) => void r.do('sender.setting', '1').run(9).do('sender.setting', '3').run(9),
  'sender.cage': (r) => void r.turn('sender.carrier', true),
  'sender.clean': (r) => void r.do('sender.filter', true),
};

describe.each(NAMES)('%s', (name) => {
  it('does something', () => {
    const differs = SITUATIONS.some((found) => {
      const left = found();
      const turned = found();
      const at = turned.station.control(name)!;
      const value = at.control.range.kind === 'press' ? true : other(at.control, turned.station.standing(name)!);
      if (turned.turn(name, value)) return false;
      left.station.settle();
      for (const r of [left, turned]) AFTERWARDS[name]?.(r);
      for (const r of [left, turned]) r.run(6).push('aerial.look').hand({ talking: true }).run(4);
      return shown(left) !== shown(turned);
    });
    expect(differs).toBe(true);
  });

  it('explains itself, and says where it stands at rest', () => {
    const box = BOXES.find((b) => name.startsWith(`${b.id}.`))!;
    const control = box.controls.find((c) => `${box.id}.${c.id}` === name)! as Control;
    expect(control.inside.length).toBeGreaterThan(20);
    expect(['string', 'number', 'boolean']).toContain(typeof rest(control));
  });
});

describe('any hand', () => {
  const controls = BOXES.flatMap((b) =>
    b.controls.map((c) => ({ name: `${b.id}.${c.id}`, range: (c as Control).range })),
  );
  const act = fc.constantFrom(...controls).chain(({ name, range }) => {
    const value: fc.Arbitrary<ControlValue> =
      range.kind === 'words'
        ? fc.constantFrom(...range.words)
        : range.kind === 'number'
          ? fc.double({ min: range.min, max: range.max, noNaN: true })
          : fc.boolean();
    return fc.record({
      name: fc.constant(name),
      value,
      wait_s: fc.double({ min: 0, max: 6, noNaN: true }),
      talking: fc.boolean(),
    });
  });

  const numbers = (x: unknown): number[] =>
    typeof x === 'number' ? [x] : x !== null && typeof x === 'object' ? Object.values(x).flatMap(numbers) : [];

  it('finds numbers only, powers that add up, and a silent sender unless it is armed', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 30 }), fc.boolean(), (acts, hot) => {
        const r = new PowerRig({ emission: 'A3E' }, { hot });
        for (const a of acts) {
          r.turn(a.name, a.value);
          r.hand({ talking: a.talking }).run(a.wait_s);
          expect(numbers([r.w, r.station.state.boxes]).every((n) => !Number.isNaN(n))).toBe(true);
          expect(r.w.reflected_W + r.w.radiated_W).toBeLessThanOrEqual(r.w.forward_W + 1e-4);
          expect(r.w.forward_W > 0 && !r.w.armed).toBe(false);
          const past = r.w.radiation.steps.filter((s) => s.t_us <= r.now_us).at(-1);
          expect(past?.power_W ?? 0).toBeCloseTo(r.w.radiated_W, 6);
        }
      }),
      { seed: 31, numRuns: 40 },
    );
  });

  it('finds the same world from the same hand', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 15 }), (acts) => {
        const [a, b] = [new PowerRig(), new PowerRig()];
        for (const x of acts)
          for (const r of [a, b]) {
            r.turn(x.name, x.value);
            r.run(x.wait_s);
          }
        expect(JSON.stringify(a.station.state)).toBe(JSON.stringify(b.station.state));
      }),
      { seed: 32, numRuns: 20 },
    );
  });

  it('is not disturbed by looking or by settling again', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 15 }), (acts) => {
        const r = new PowerRig();
        for (const x of acts) {
          r.turn(x.name, x.value);
          r.run(x.wait_s);
          shown(r);
        }
        // The bus may still move by what a settling leaves over; everything else stands.
        r.station.settle();
        const before = JSON.stringify([r.w.radiation, r.w.relay, r.w.armed, r.w.whip, r.queue.dues]);
        r.station.settle();
        expect(JSON.stringify([r.w.radiation, r.w.relay, r.w.armed, r.w.whip, r.queue.dues])).toBe(before);
      }),
      { seed: 33, numRuns: 20 },
    );
  });
});
