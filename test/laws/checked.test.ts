/** What `check` lets through can be drilled: every inner thing and all that a station may be told has its schema, and the rest is refused with a place. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BOXES, CORRESPONDENTS, KINDS } from '../../src/core/catalogue.ts';
import { Drill } from '../../src/core/drill.ts';
import { faults } from '../../src/core/record/shape.ts';
import { readScenario } from '../../src/core/scenario/scenario.ts';
import type { Json } from '../../src/core/signals.ts';
import { scenarioOf, settingOf } from './first-call.ts';

const TEXT = readFileSync(resolve(import.meta.dirname, '../../scenarios/first-call.yaml'), 'utf8');

/** The same with no inner thing found otherwise than at rest. */
const BARE = TEXT.replace(/^ {2}inner:\n(?: {4}.*\n)*/m, '  inner:\n');

/** Errors of the first call with one line put in after another, as `code expected`, where the place is in that line. */
function errorsWith(after: string, line: string, from = TEXT): string[] {
  if (!from.includes(after)) throw new RangeError(`not in the scenario: ${after}`);
  const text = from.replace(after, () => `${after}${line}\n`);
  const at = text.slice(0, text.indexOf(line)).split('\n').length;
  const read = readScenario(text, KINDS, 'first-call.yaml');
  return read.ok ? [] : read.errors.filter((e) => e.line === at).map((e) => `${e.code} ${e.expected}`);
}
const found = (thing: string) => errorsWith('  inner:\n', `    ${thing}`, BARE);
const happening = (deed: string) => errorsWith('happenings:\n', `  - { id: probe, at_s: 1, do: { ${deed} } }`);
const told = (tell: string, station = 'QV9B') => happening(`station: "${station}", tell: ${tell}`);

const things = BOXES.flatMap((b) =>
  Object.entries(b.inner).map(([id, thing]) => ({ box: b, name: `${b.id}.${id}`, thing })),
);

describe('inner things', () => {
  it('have a schema that their default fits', () => {
    for (const { name, thing } of things) expect([name, faults(thing.schema, thing.default)]).toEqual([name, []]);
  });

  it('are refused where the value does not fit', () => {
    for (const { name } of things) expect([name, found(`${name}: { no: 1 }`).length]).toEqual([name, 1]);
    expect(found('keyer.none: 1')[0]).toMatch(/^unknown-inner/);
    expect(found('feed.temp_C: cold')[0]).toMatch(/^wrong-type a number from -40 to 60/);
    expect(found('printer.speedError_pct: 1000')[0]).toMatch(/^out-of-range/);
  });

  it('that can change while the drill runs do, the others are refused in a happening', () => {
    for (const { name, thing } of things) {
      const wrong = happening(`inner: { ${name}: ${JSON.stringify(thing.default)} }`);
      if (thing.fixed) expect(wrong[0]).toMatch(/^cannot-change/);
      else expect([name, wrong]).toEqual([name, []]);
    }
  });

  // A value other than the default that each schema takes.
  const OTHER: Readonly<Record<string, Json>> = {
    'feed.charge': 0.2,
    'feed.temp_C': -20,
    'feed.fuseA': 'blown',
    'feed.fuseB': 'blown',
    'feed.spares': 0,
    'inverter.faultA': 'dead',
    'inverter.faultB': 'slow',
    'sender.filter': 'dirty',
    'receiver.dialError_kHz': 4.2,
    'receiver.crystal_ppm': -3,
    'printer.speedError_pct': 6,
    'printer.paper': 1,
    'line.farBroken': true,
  };
  it.each(things.filter((t) => !t.thing.fixed))(
    '$name is upset while the drill runs, and can be put right',
    ({ box, name, thing }) => {
      const scenario = scenarioOf(5);
      const base = { ...scenario, own: { ...scenario.own, inner: {} }, happenings: [] };
      const state = (values: readonly Json[]) => {
        const drill = new Drill(
          { ...base, happenings: values.map((v, i) => ({ id: `h${i}`, at_s: 1, do: { inner: { [name]: v } } })) },
          settingOf(5),
        );
        drill.advance(1_000_000);
        return JSON.stringify(drill.station.state.boxes[box.id]);
      };
      const other = OTHER[name] as Json;
      expect(faults(thing.schema, other)).toEqual([]);
      expect(state([other])).not.toBe(state([]));
      expect(state([other, thing.default])).toBe(state([]));
    },
  );
});

describe('what a station is told', () => {
  it('is refused with a place when its kind does not take it', () => {
    for (const call of ['QV7K', 'QV9B'])
      for (const tell of ['5', 'patient', 'late', 'block', 'next', '{ sent: null }', '[1]', '{ told: {} }'])
        expect([tell, told(tell, call).length]).toEqual([tell, 1]);
    expect(told('{ say: [HELLO] }')).toEqual([]);
    expect(told('{ answers: wrong }', 'QV7K')).toEqual([]);
    expect(told('{ answers: wrong }', 'QV9B')[0]).toMatch(/^unknown-key/);
  });

  it('every kind says what it takes', () => {
    for (const kind of CORRESPONDENTS) expect(faults(kind.told, 5)).not.toEqual([]);
  });
});

describe('a post that challenges', () => {
  it('is refused where the papers have no card', () => {
    const text = TEXT.replace(/^ {2}card:.*\n(?: {4}.*\n)*/m, '');
    const read = readScenario(text, KINDS, 'first-call.yaml');
    expect(read.ok ? [] : read.errors.map((e) => e.code)).toContain('no-card');
    const calm = text.replace('serves: ["QV4M"', 'challenges: false, serves: ["QV4M"');
    const other = readScenario(calm, KINDS, 'first-call.yaml');
    expect(other.ok ? [] : other.errors.map((e) => e.code)).not.toContain('no-card');
  });
});
