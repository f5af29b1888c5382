/** No control of the station is dead: each changes what can be read, or what is recorded, in some situation. */
import { describe, expect, it } from 'vitest';
import { BOXES } from '../../src/core/catalogue.ts';
import { Drill, type Snapshot } from '../../src/core/drill.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import type { Control } from '../../src/core/station/box.ts';
import { begin, bringUp, controls, scenarioOf, settingOf } from './first-call.ts';

const SEED = 5;
type Deed = readonly [control: string, value: ControlValue];

function other({ range }: Control, now: ControlValue | undefined): ControlValue {
  if (range.kind === 'words') return range.words[(range.words.indexOf(String(now)) + 1) % range.words.length] as string;
  if (range.kind === 'number') return Number(now) > (range.min + range.max) / 2 ? range.min : range.max;
  if (range.kind === 'text') return range.max > 10 ? 'OVER' : 'R';
  return now !== true;
}

/** All that somebody outside could tell at an instant: instruments, what the headset gives, what is on the air. */
function now(d: Drill): unknown[] {
  const read = BOXES.flatMap((b) => b.indicators.map((i) => d.see(`${b.id}.${i.id}`)));
  return [read, d.listening(), d.station.state.wires.radiation.steps];
}

const live = begin(SEED);
bringUp(live);
live.act('printer.source', 'line');
live.act('desk.log', 'UP');
const started = live.save();

/** A cold station with a dirty filter and hardly any paper. */
function worn(): Drill {
  const scenario = scenarioOf(SEED);
  const inner = { ...scenario.own.inner, 'sender.filter': 'dirty', 'printer.paper': 1 };
  return new Drill({ ...scenario, own: { ...scenario.own, inner } }, settingOf(SEED));
}

type Situation = { found: () => Drill; then: readonly Deed[] };
function situation(deeds: readonly Deed[], then: readonly Deed[] = [], cold = false): Situation {
  const found = () => {
    const d = cold ? worn() : begin(SEED, JSON.parse(started) as Snapshot);
    for (const [control, value] of deeds) {
      d.act(control, value);
      d.advance(d.now_us + 300_000);
    }
    return d;
  };
  return { found, then };
}

const TAPE: readonly Deed[] = [
  ['printer.source', 'local'],
  ['tape.punch', true],
  ['printer.key', 'A'],
  ['printer.key', 'B'],
];
const PRINT: readonly Deed[] = [
  ['sender.emission', 'F1B'],
  ['line.lever', 'OUT'],
];

/** Situations in which a control may show what it does, and what the operator does afterwards. */
const SITUATIONS: readonly Situation[] = [
  situation(
    [],
    [
      ['hand.talk', true],
      ['hand.say', 'ROGER OUT'],
    ],
  ),
  situation(
    [],
    [
      ['aerial.look', true],
      ['feed.isolator', true],
    ],
    true,
  ),
  situation([
    ['sender.setting', 'hand'],
    ['sender.emission', 'A3E'],
    ['hand.talk', true],
  ]),
  situation(
    [
      ['sender.emission', 'A3E'],
      ['hand.talk', true],
    ],
    [
      ['hand.say', 'ROGER OUT'],
      ['hand.talk', false],
    ],
  ),
  situation(PRINT, [
    ['printer.key', 'R'],
    ['printer.key', 'Y'],
  ]),
  situation(
    [...PRINT, ['cover.tapeNo', '1'], ['cover.cover', true], ['cover.group', 7]],
    [
      ['cover.set', true],
      ['printer.key', 'R'],
      ['printer.key', 'Y'],
    ],
  ),
  situation(
    [...PRINT, ['cover.tapeNo', '1'], ['cover.cover', true], ['printer.key', 'R']],
    [
      ['printer.key', 'Y'],
      ['printer.key', 'Y'],
    ],
  ),
  situation([...TAPE, ['tape.tear', true], ...PRINT, ['printer.source', 'line']], [['tape.run', true]]),
  situation(
    [...TAPE, ['tape.tear', true], ['tape.keep', true], ['tape.rack', '2']],
    [
      ['tape.load', true],
      ['tape.rack', '1'],
      ['tape.load', true],
    ],
  ),
  situation([...TAPE, ['tape.tear', true], ['tape.step', true]]),
  situation(TAPE, [['printer.key', 'R']]),
  situation([
    ['line.lever', 'IN'],
    ['receiver.bfo', true],
    ['receiver.calibrator', true],
    ['receiver.dial', 750],
  ]),
  situation([['sender.setting', 'hand']], [['sender.seek', true]]),
  situation(
    [
      ['sender.emission', 'N0N'],
      ['sender.cage', true],
    ],
    [['sender.carrier', true]],
  ),
  situation([['sender.filter', false]]),
  situation(
    [
      ['sender.setting', 'hand'],
      ['sender.frequency', 5000],
      ['sender.setting', '3'],
    ],
    [
      ['sender.setting', '4'],
      ['sender.setting', '3'],
    ],
  ),
  situation(
    [
      ['sender.emission', 'A1A'],
      ['aerial.second', true],
      ['aerial.spacing', 3],
    ],
    [['hand.key', true]],
  ),
  situation([['inverter.lever', 'off']]),
  situation([
    ['inverter.lever', 'off'],
    ['inverter.lever', 'A'],
  ]),
  situation([...TAPE, ['tape.tear', true], ['tape.keep', true]]),
  situation([['sender.filter', false]], [['sender.filter', true]], true),
];

const STEP_US = 900_000;
const REST_US = 9_000_000;

/** The whole story: at each step what can be told, at the end what was recorded beside the acts. */
function story(d: Drill, then: readonly Deed[]): string {
  const told = [now(d)];
  const wait = (us: number) => {
    d.advance(d.now_us + us);
    told.push(now(d));
  };
  wait(STEP_US);
  for (const [control, value] of then) {
    d.act(control, value);
    wait(control === 'sender.setting' ? REST_US : STEP_US);
  }
  wait(REST_US);
  const lines = d.record.lines.filter((l) => l.k !== 'do').map(({ i: _, ...line }) => line);
  return JSON.stringify([told, lines]);
}

describe('no control is dead', () => {
  it.each(controls.map(([name, control]) => ({ name, control })))('$name', ({ name, control }) => {
    const alive = SITUATIONS.some(({ found, then }) => {
      const turned = found();
      const left = found();
      if (turned.act(name, other(control, turned.standing(name)))) return false;
      return story(turned, then) !== story(left, then);
    });
    expect(alive).toBe(true);
  });
});
