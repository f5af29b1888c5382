/** Words for people: whatever the record, every verdict, finding and entry has some, and none speaks in ids. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, MEASURES, NAMES } from '../../../src/core/catalogue.ts';
import { debrief } from '../../../src/core/debrief/debrief.ts';
import { mark } from '../../../src/core/marking/marking.ts';
import { momentText } from '../../../src/core/record/moment.ts';
import { setAs, stood, told } from '../../../src/core/record/names.ts';
import { LINE_FIELDS, type Pattern, type Test } from '../../../src/core/record/pattern.ts';
import { pattern } from '../../../src/core/record/pattern-shape.ts';
import type { DrillRecord, LineBody } from '../../../src/core/record/record.ts';
import { faults } from '../../../src/core/record/shape.ts';
import { parseScenario, type Scenario } from '../../../src/core/scenario/scenario.ts';
import type { Json } from '../../../src/core/signals.ts';
import { begin } from '../../laws/first-call.ts';
import { air, did, recordOf, was } from '../marking/record-maker.ts';

function scenarioOf(): Scenario {
  const file = new URL('../../../scenarios/first-call.yaml', import.meta.url);
  const parsed = parseScenario(readFileSync(file, 'utf8'), KINDS, { file: 'first-call.yaml', seed: 1 });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.errors));
  return parsed.scenario;
}
const scenario = scenarioOf();
const of = (record: DrillRecord) => debrief(record, mark(record, scenario, MEASURES, NAMES), scenario, NAMES);

/** The timeline without findings. */
const doneIn = (record: DrillRecord) => of(record).timeline.filter((e) => !e.title.startsWith('Not met'));

const ID = /[a-z]+\.[a-zA-Z]+|undefined|NaN|\[object|[{}]/;

const control = fc.constantFrom(...NAMES.controls.keys()).chain((full) => {
  const range = KINDS.controls.get(full);
  const value =
    range?.kind === 'words'
      ? fc.constantFrom(...range.words)
      : range?.kind === 'number'
        ? fc.constantFrom(range.min, range.max)
        : range?.kind === 'text'
          ? fc.constantFrom('R', 'QV7K THIS IS QV4M OVER')
          : fc.boolean();
  return value.map((v): LineBody => did(full, v));
});
const value = fc
  .constantFrom(...KINDS.sampled.keys())
  .chain((q) =>
    fc.oneof(fc.boolean(), fc.constantFrom(0, 26.5, 4_718_035), fc.constant('local')).map((v) => was(q, v)),
  );
const boxes = fc.constantFrom('sender', 'inverter', 'printer', 'tape');
const mode = fc.constantFrom('off', 'heating', 'hotOff', 'running', 'still', 'trippedBack');
const tale = fc.constantFrom(...NAMES.tells.keys());
const detail = fc.constantFrom<{ [key: string]: Json }>(
  {},
  { by: 'QV4M' },
  { why: 'no-reply' },
  { faults: ['no-ending'], words: 'A ...' },
);
const speech = { words: 'QV4M THIS IS QV7K', by: 'voice' as const, from_us: 0 };
const line: fc.Arbitrary<LineBody> = fc.oneof(
  control,
  value,
  fc.tuple(boxes, mode).map(([box, m]): LineBody => ({ k: 'mode', box, mode: m })),
  fc
    .tuple(fc.constantFrom('own', 'QV7K'), tale, detail)
    .map(([station, what, d]): LineBody => ({ k: 'far', station, what, detail: d })),
  fc.constantFrom(0, 21.47).map((W) => air(W)),
  fc.constantFrom<LineBody>(
    { k: 'spoke', station: 'QV7K', ...speech },
    { k: 'heard', ...speech },
    { k: 'log', utc: '09 40 00', text: 'CALLED QV7K' },
    { k: 'print', at: 'own', code: 10, c: 'R' },
    { k: 'help', what: 'heat' },
    { k: 'refused', control: 'tape.keep', value: true, why: 'no tape' },
    { k: 'end', why: 'handed over' },
  ),
);
const records = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 5000 }), line), { maxLength: 120 })
  .map((all) => recordOf(all.map(([ds, body], n) => [n * 5 + ds / 1000, body] as const)));

// What the operator says or writes stands as it is, so controls that take a text are left out.
const settable = Array.from(NAMES.controls.keys()).filter((full) => KINDS.controls.get(full)?.kind !== 'text');
const ids = [...settable, ...KINDS.sampled.keys(), ...NAMES.boxes.keys(), ...NAMES.tells.keys()];
const scalar = fc.oneof(
  fc.constantFrom(...ids, 'own', 'QV7K'),
  fc.boolean(),
  fc.constantFrom(0, 26.5),
  fc.constant(null),
);
const data: fc.Arbitrary<Json> = fc.oneof(
  { weight: 3, arbitrary: scalar },
  fc.array(scalar, { maxLength: 2 }),
  fc.dictionary(fc.constantFrom('why', 'heardAt', 'row'), scalar, { maxKeys: 2 }),
);
/** The real values of a field, so that its names are looked up. */
const REAL: Partial<Record<string, fc.Arbitrary<string>>> = {
  control: fc.constantFrom(...settable),
  q: fc.constantFrom(...KINDS.sampled.keys()),
  box: boxes,
  mode,
  what: tale,
};
const test = (real: fc.Arbitrary<Json>): fc.Arbitrary<Test> =>
  fc
    .record(
      {
        is: real,
        not: real,
        in: fc.array(real, { minLength: 1, maxLength: 3 }),
        above: fc.constantFrom(-3, 4.5),
        below: fc.constant(4_718_000),
        like: fc.constantFrom('*', '*R NR 14*', 'sender.*', 'receiver.tuned_Hz'),
      },
      { requiredKeys: [] },
    )
    .filter((t) => Object.keys(t).length > 0);
const field = (name: string): fc.Arbitrary<Json | Test> => {
  const real = REAL[name] ?? data;
  return fc.oneof(real, test(fc.oneof({ weight: 3, arbitrary: real as fc.Arbitrary<Json> }, data)));
};
const patterns: fc.Arbitrary<Pattern> = fc
  .constantFrom(...(Object.keys(LINE_FIELDS) as (keyof typeof LINE_FIELDS)[]))
  .chain((k) => {
    const fields = [...Object.keys(LINE_FIELDS[k]), ...(k === 'far' ? ['detail.why', 'detail.row'] : [])];
    const shape = Object.fromEntries(fields.map((name) => [name, field(name)]));
    return fc.record(shape, { requiredKeys: [] }).map((rest): Pattern => ({ ...rest, k }));
  })
  .filter((p) => faults(pattern, p).length === 0);

/** What a pattern of acts, modes or notes names. */
const named = (p: Pattern, name: string): string[] => {
  const x = p[name];
  const all = typeof x === 'string' ? [x] : ((x as Test | undefined)?.in ?? []);
  return all.filter((one) => typeof one === 'string');
};

describe('words for people', () => {
  it('call every valid pattern by something, in no ids, and lose nothing that it names', () => {
    fc.assert(
      fc.property(patterns, (p) => {
        const text = momentText(NAMES, p);
        expect(text).not.toMatch(ID);
        expect(text).not.toMatch(/\s{2}|^\s|\s$|^$/);
        for (const control of named(p, 'control'))
          expect(text.toLowerCase()).toContain((NAMES.controls.get(control)?.name ?? '').toLowerCase());
        for (const box of named(p, 'box'))
          expect(text.toLowerCase()).toContain((NAMES.boxes.get(box) ?? '').toLowerCase());
        for (const call of named(p, 'station').filter((one) => one === 'QV7K')) expect(text).toContain(call);
      }),
      { seed: 9, numRuns: 1500 },
    );
  });

  it('tell every note and setting in no ids, whatever data they hold', () => {
    fc.assert(
      fc.property(
        tale,
        fc.dictionary(fc.constantFrom('why', 'faults', 'by', 'row', 'for'), data),
        fc.constantFrom(...settable),
        data,
        (what, d, c, x) => {
          for (const text of [told(NAMES, 'QV7K', what, d), setAs(NAMES, c, x), stood(NAMES, 'sender.hot', x)])
            expect(text).not.toMatch(ID);
        },
      ),
      { seed: 10, numRuns: 500 },
    );
  });

  it('are there for every verdict, finding and entry of any record, and none is an id', () => {
    fc.assert(
      fc.property(records, (record) => {
        const d = of(record);
        const texts = [
          ...d.measures.map((m) => m.yours),
          ...d.findings.flatMap((f) => [f.told, f.happened]),
          ...d.timeline.map((e) => e.title),
        ];
        for (const text of texts) {
          expect(text).not.toMatch(ID);
          expect(text.trim()).not.toBe('');
        }
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  it('names change words alone', () => {
    fc.assert(
      fc.property(records, (record) => {
        const bare = (m: ReturnType<typeof mark>) => ({
          ...m,
          measures: m.measures.map(({ value: _, ...rest }) => rest),
        });
        expect(bare(mark(record, scenario, MEASURES, NAMES))).toEqual(bare(mark(record, scenario)));
      }),
      { seed: 8, numRuns: 30 },
    );
  });

  it('a knob turned in many small steps is one move, and acts at one box are one entry', () => {
    const record = recordOf([
      [1, did('receiver.dial', 700)],
      [1.1, did('receiver.dial', 701)],
      [1.2, did('receiver.dial', 702)],
      [2, did('receiver.bfo', true)],
      [3, did('feed.master', true)],
      [20, did('feed.vent', true)],
    ]);
    expect(doneIn(record).map((e) => [e.utc, e.title])).toEqual([
      ['09 40 01', 'Receiver: dial from 0 to 702 kHz, BFO on'],
      ['09 40 03', 'Feed: master on'],
      ['09 40 20', 'Feed: vent fan on'],
    ]);
  });

  it('acts at one box are told when they were done, and one move or press as one', () => {
    const record = recordOf([
      [1, did('receiver.band', '4')],
      ...Array.from({ length: 15 }, (_, n) => [2 + n, did('receiver.dial', 700 + n)] as const),
      [17, did('receiver.bfo', true)],
      [25, did('receiver.fine', 0.3)],
      [30, did('receiver.fine', 0.4)],
      [40, did('sender.carrier', true)],
      [70, did('sender.carrier', false)],
    ]);
    const name = NAMES.controls.get('sender.carrier')?.name;
    expect(doneIn(record).map((e) => [e.utc, e.title])).toEqual([
      ['09 40 01', 'Receiver: band 4, dial from 0 to 714 kHz'],
      ['09 40 17', 'Receiver: BFO on, fine tuning from 0 to 0.3 kHz'],
      ['09 40 30', 'Receiver: fine tuning from 0.3 to 0.4 kHz'],
      ['09 40 40', `Sender: ${name} held 30.0 s`],
    ]);
  });

  it('a move is told from where the control really stood, though nobody had touched it', () => {
    const drill = begin(1);
    for (const [full, { rest }] of NAMES.controls)
      if (!(full in scenario.own.controls)) expect([full, rest]).toEqual([full, drill.standing(full)]);
    const record = recordOf([
      [1, did('receiver.fine', 0.3)],
      [2, did('receiver.index', -1)],
    ]);
    expect(doneIn(record).map((e) => e.title)).toEqual([
      'Receiver: fine tuning from 0 to 0.3 kHz, index from 0 to -1 kHz',
    ]);
  });

  it('counts what was typed and not the keys struck for it', () => {
    const keys = ['LTRS', 'A', 'B', 'SPACE', 'FIGS', 'Q', 'CR', 'LF'];
    const typed = keys.map((key, n) => [1 + n * 0.2, did('printer.key', key)] as const);
    expect(doneIn(recordOf(typed)).map((e) => e.title)).toEqual(['4 characters typed, nothing printed']);
    expect(doneIn(recordOf([[1, did('printer.key', 'FIGS')]]))).toEqual([]);
  });

  it('a touch is held when it is long, and a refusal says what, where and why', () => {
    const record = recordOf([
      [1, did('sender.carrier', true)],
      [2, did('sender.carrier', false)],
      [3, did('tape.keep', true)],
      [3, { k: 'refused', control: 'tape.keep', value: true, why: 'no tape' }],
    ]);
    const name = NAMES.controls.get('sender.carrier')?.name;
    expect(doneIn(record).map((e) => e.title)).toEqual([
      `Sender: ${name} held 1.0 s`,
      'Refused: Tape set, keep - no tape',
    ]);
  });

  it('says what the ear made of words, and what nobody heard', () => {
    const spoke = (s: number): LineBody => ({
      k: 'spoke',
      station: 'QV7K',
      words: 'A B',
      by: 'voice',
      from_us: s * 1e6,
    });
    const record = recordOf([
      [12, spoke(10)],
      [13, { k: 'heard', words: 'A ...', by: 'voice', from_us: 10.1e6 }],
      [32, spoke(30)],
      [40, did('hand.say', 'OVER')],
      [50, { k: 'help', what: 'heat' }],
    ]);
    const heat = scenario.steps.find((s) => s.id === 'heat')?.title;
    expect(doneIn(record).map((e) => e.title)).toEqual([
      'QV7K, by voice: A B - you made out: A ...',
      'QV7K, by voice: A B - not heard',
      'You said, with nothing on the air: OVER',
      `Help: ${heat}`,
    ]);
  });
});
