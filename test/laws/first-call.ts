/** The first-call drill for tests: its text, its scenario by seed, a fresh drill, and acts of a random hand. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { BOXES, KINDS } from '../../src/core/catalogue.ts';
import { Drill, type Setting, type Snapshot } from '../../src/core/drill.ts';
import { castScenario, readScenario, type Scenario } from '../../src/core/scenario/scenario.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import type { Control } from '../../src/core/station/box.ts';

export const text = readFileSync('scenarios/first-call.yaml', 'utf8');
const read = readScenario(text, KINDS, 'scenarios/first-call.yaml');
if (!read.ok) throw new Error(JSON.stringify(read.errors, null, 2));
const { source } = read;

export const scenarioOf = (seed: number): Scenario => castScenario(source, seed);
export const settingOf = (seed: number): Setting => ({
  name: 'first-call',
  scenario: text,
  seed,
  manner: 'unaided',
  stretch: 1,
});
export const begin = (seed: number, from?: Snapshot): Drill => new Drill(scenarioOf(seed), settingOf(seed), from);

/** Every control of the station by its full name. */
export const controls: readonly (readonly [string, Control])[] = BOXES.flatMap((b) =>
  b.controls.map((c) => [`${b.id}.${c.id}`, c] as const),
);

const WORDS = [
  'QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR FOUR MIKE OVER',
  'OVER',
  'I AUTHENTICATE ALFA BRAVO OVER',
  'ROGER OUT',
  'X',
];

/** A value that fits the control. */
export function valueFor({ range, id }: Control): fc.Arbitrary<ControlValue> {
  switch (range.kind) {
    case 'words':
      return fc.constantFrom(...range.words);
    case 'number':
      return fc.integer({ min: 0, max: 1000 }).map((n) => range.min + ((range.max - range.min) * n) / 1000);
    case 'text':
      return id === 'key'
        ? fc.constantFrom('A', 'R', 'Y', 'LTRS', 'FIGS', 'CR', 'LF', 'SPACE', 'BLANK')
        : fc.constantFrom(...WORDS);
    default:
      return fc.boolean();
  }
}

/** One act of a random hand, after a gap in milliseconds. */
export type RandomAct = { gap_ms: number; control: string; value: ControlValue };

/** Acts of a random hand, about `mean_ms` apart; the desk's hand-over is left out so that the drill goes on. */
export function randomActs(count: number, mean_ms: number): fc.Arbitrary<RandomAct[]> {
  const act = fc.constantFrom(...controls.filter(([name]) => name !== 'desk.handover')).chain(([control, c]) =>
    fc.record({
      gap_ms: fc.integer({ min: 0, max: 2 * mean_ms }),
      control: fc.constant(control),
      value: valueFor(c),
    }),
  );
  return fc.array(act, { minLength: count, maxLength: count, size: 'max' });
}

/** Acts that bring the station up quickly, so that random ones meet live boxes: breakers in, everything on, hot. */
export function bringUp(drill: Drill): void {
  const set: [string, ControlValue][] = [
    ['feed.isolator', true],
    ['feed.master', true],
    ['feed.vent', true],
    ['feed.engine', 'run'],
    ['feed.inverter', true],
    ['feed.receiver', true],
    ['feed.terminal', true],
    ['feed.sender', true],
    ['inverter.lever', 'A'],
    ['inverter.start', true],
    ['inverter.start', false],
    ['aerial.guard', true],
    ['aerial.earth', true],
    ['aerial.counterpoise', 4],
    ['sender.filter', true],
    ['sender.fan', true],
    ['sender.readiness', 'heat'],
    ['sender.setting', '4'],
    ['receiver.power', true],
    ['receiver.band', '4'],
    ['receiver.dial', 718],
    ['receiver.rfGain', 10],
    ['receiver.afGain', 8],
    ['receiver.bandwidth', '3'],
    ['hand.phones', 8],
    ['keyer.power', true],
    ['keyer.loop', 20],
  ];
  for (const [control, value] of set) {
    drill.advance(drill.now_us + 1_000_000);
    drill.act(control, value);
  }
  drill.act('printer.motor', true);
  drill.advance(drill.now_us + 60_000_000);
  drill.act('sender.readiness', 'wait');
  drill.advance(drill.now_us + 4_000_000);
  drill.act('sender.readiness', 'send');
  drill.advance(drill.now_us + 4_000_000);
}
