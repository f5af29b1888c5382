/** A small station and a small scenario for it, both made up for these tests. */
import * as v from 'valibot';
import { MEASURES } from '../../../src/core/marking/measures/list.ts';
import { list, map, number, text } from '../../../src/core/record/shape.ts';
import type { Shows } from '../../../src/core/record/shows.ts';
import type { ControlRange, Kinds, Scenario } from '../../../src/core/scenario/scenario.ts';
import { parseScenario } from '../../../src/core/scenario/scenario.ts';

const controls: [string, ControlRange][] = [
  ['lamp.power', { kind: 'switch', words: ['out', 'in'] }],
  ['lamp.level', { kind: 'number', min: 0, max: 10, step: 0.5, unit: 'V' }],
  ['lamp.colour', { kind: 'words', words: ['red', 'green', '7'] }],
  ['lamp.flash', { kind: 'press' }],
  ['desk.log', { kind: 'text', max: 20, allowed: 'any' }],
];

export const kinds: Kinds = {
  controls: new Map(controls),
  inner: new Map([
    ['lamp.fault', { schema: v.string() }],
    ['lamp.error_V', { schema: number(-1, 1), fixed: true }],
  ]),
  indicators: new Map<string, Shows>([
    ['lamp.volts', 'number'],
    ['lamp.lit', 'flag'],
    ['lamp.glass', ['clean', 'sooty']],
  ]),
  sampled: new Map<string, Shows>([
    ['lamp.volts_V', 'number'],
    ['lamp.lit', 'flag'],
  ]),
  modes: new Map([['lamp', ['dark', 'burning']]]),
  ownNotes: ['unsafe'],
  correspondents: new Map([
    [
      'post',
      {
        schema: v.strictObject({ kHz: v.number() }),
        told: map({ say: list(text(300), 40, 1) }),
        tells: { called: 'was called' },
        leaves: ['spoke', 'print'],
      },
    ],
    ['horn', { schema: v.strictObject({}), told: map({}) }],
    ['talker', { schema: v.strictObject({}), told: map({}), tells: { covered: 'was talked over' }, leaves: ['spoke'] }],
  ]),
  measures: new Map(MEASURES.map((m) => [m.id, m.schema])),
};

export const SAMPLE = `id: sample
title: Light the lamp
about: Light the lamp and say so.
minutes: { novice: 2, expert: 1 }
order:
  task: Light the lamp.
  conditions: [Night]
  standards: [Within a minute]
world: { date: "2031-10-06", utc: "09:40:00", at: [52.0, 10.0], R12: 60, noise: rural }
draws:
  error: { from: -0.8, to: 0.8, step: 0.1 }
  colour: { of: [red, green] }
  word: { pick: [ROT, GRUEN], with: colour }
own:
  call: "QV4M"
  controls: { lamp.power: out, lamp.level: 2.5 }
  inner: { lamp.error_V: "\${error}" }
papers:
  frequencies:
    - { name: day, kHz: 4718, setting: 4, from: "06:00", to: "24:00", use: all posts }
  calls:
    - { call: "QV7K", place: Tern Ness, who: shore post }
  card: { name: forenoon, rows: "ABC", columns: "MNPQ", valid: "2031-10-06" }
  messages:
    - id: NR14
      to: "QV7K"
      precedence: PRIORITY
      lines: ["LAMP IS \${word} NOW", "="]
stations:
  - { call: "QV7K", kind: post, place: Tern Ness, path: [{ ground: sea, km: 22 }], with: { kHz: 4718 } }
  - { call: "QV8H", kind: horn, place: Sand Head, path: [{ ground: sea, km: 9 }], with: {} }
  - { call: "QV9T", kind: talker, place: Kelp Isle, path: [{ ground: sea, km: 9 }], with: {} }
happenings:
  - { id: blow, at_s: 20, do: { inner: { lamp.fault: slow } } }
  - { id: ask, when: { k: do, control: lamp.flash }, after_s: 3, do: { station: "QV7K", tell: { say: [HELLO] } } }
measures:
  - id: lit
    title: Lamp lit
    kind: state
    weight: 10
    critical: true
    standard: lit
    at: { k: do, control: lamp.power, value: in }
    need: [{ q: lamp.lit, is: true }]
    why: It is dark.
    next: Put the switch in.
pass: 80
time_limit_min: 5
steps:
  - id: power
    phase: power
    title: Put the lamp in
    why: It is dark.
    form: NR14
    do:
      - set: { lamp.power: in, lamp.colour: "\${colour}" }
      - press: lamp.flash
      - hear: "QV4M * AUTHENTICATE <row> <column>"
        within: 30
      - lookup: { row: row, column: column, as: reply }
      - say: "I AUTHENTICATE {reply}"
      - when: { see: lamp.lit, is: false }
        do: [{ wait: 1 }]
      - punch: NR14
    done: { standing: lamp.power, is: in }
`;

/** The sample with one piece of text replaced; throws if the piece is not there. */
export function changed(from: string, to: string): string {
  if (!SAMPLE.includes(from)) throw new RangeError(`not in the sample: ${from}`);
  return SAMPLE.replace(from, () => to);
}

export function sample(seed = 1, text = SAMPLE): Scenario {
  const read = parseScenario(text, kinds, { file: 'sample.yaml', seed });
  if (!read.ok) throw new RangeError(JSON.stringify(read.errors, null, 1));
  return read.scenario;
}
