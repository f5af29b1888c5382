/** The table "who does what" of the station, lever by emission, as ribbon and looks have it: who radiates, what is lit, what is said. */
import { beforeAll, describe, expect, it } from 'vitest';
import { Drill, type Inside, type LinkName, type Snapshot } from '../../src/core/drill.ts';
import { LINKS } from '../../src/core/inside/links.ts';
import { drillWhen, sending } from '../core/inside/stages.ts';
import { begin, bringUp, scenarioOf, settingOf } from './first-call.ts';

const look = <L extends LinkName>(d: Drill, link: L) => d.inside(link) as Extract<Inside, { link: L }>;

const LEVERS = ['OUT', 'STEADY', 'IN'] as const;
const EMISSIONS = ['N0N', 'A1A', 'A3E', 'F1B', 'A3E+F1B'] as const;
const HANDS = ['rests', 'speaks', 'keys', 'types', 'pushes'] as const;
type Lever = (typeof LEVERS)[number];
type Emission = (typeof EMISSIONS)[number];
type Hand = (typeof HANDS)[number];
type Sense = 'low' | 'high';

let up: string;
beforeAll(() => {
  const drill = begin(1);
  drill.act('aerial.sections', 4);
  bringUp(drill);
  drill.act('printer.source', 'line');
  drill.act('line.keys', true);
  drill.act('sender.cage', true);
  up = drill.save();
});

/** Lever, emission and sense set, two seconds waited, then two seconds of the hand's work: it still goes on. */
function worked(lever: Lever, emission: Emission, hand: Hand, sense: Sense = 'low'): Drill {
  const d = new Drill(scenarioOf(1), settingOf(1), JSON.parse(up) as Snapshot);
  const wait = (ms: number) => d.advance(d.now_us + ms * 1000);
  d.act('keyer.sense', sense);
  d.act('sender.emission', emission);
  d.act('line.lever', lever);
  wait(2000);
  if (hand === 'speaks') {
    d.act('hand.talk', true);
    wait(300);
    d.act('hand.say', 'QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR FOUR MIKE OVER');
  }
  if (hand === 'keys') d.act('hand.key', true);
  if (hand === 'pushes') d.act('sender.carrier', true);
  for (let k = 0; k < 10; k++) {
    if (hand === 'types') d.act('printer.key', 'RY'[k % 2]!);
    wait(180);
  }
  return d;
}

/** What the table says is on the air. */
function onAir(
  lever: Lever,
  emission: Emission,
  hand: Hand,
): 'nothing' | 'carrier' | 'Morse' | 'voice' | 'print' | 'both' {
  if (emission === 'N0N') return hand === 'pushes' ? 'carrier' : 'nothing';
  if (emission === 'A1A') return hand === 'keys' ? 'Morse' : 'nothing';
  if (emission === 'F1B') return lever === 'IN' ? 'nothing' : 'print';
  const speaks = hand === 'speaks';
  if (emission === 'A3E' || lever !== 'OUT') return speaks ? 'voice' : 'nothing';
  return speaks ? 'both' : 'print';
}

const rows = LEVERS.flatMap((lever) =>
  EMISSIONS.flatMap((emission) => HANDS.map((hand) => [lever, emission, hand] as const)),
);

describe.each(rows)('%s, %s, the hand %s', (lever, emission, hand) => {
  const air = onAir(lever, emission, hand);
  const isShifted = air === 'print' || air === 'both';
  let d: Drill;
  beforeAll(() => {
    d = worked(lever, emission, hand);
  });

  it('lights what the table says', () => {
    const { passes, way } = d.passage();
    expect(way).toBe('out');
    expect(passes.slice(3, 8)).toEqual(Array(5).fill(air !== 'nothing'));
    // A terminal unit is turned on for print; nobody has been called there yet, so no printer runs.
    expect(passes.slice(8)).toEqual([isShifted, false]);
    if (isShifted) expect(passes.slice(0, 3)).toEqual([lever === 'OUT', true, true]);
    else if (air !== 'nothing') expect(passes.slice(0, 3)).toEqual([air !== 'carrier', false, false]);
  });

  it('says at each link what is there', () => {
    const said = LINKS.map((l) => look(d, l).on);
    const main = air === 'both' ? 'voice' : air;
    expect(said.slice(3, 8)).toEqual(Array(5).fill(main));
    expect(said.slice(8)).toEqual(Array(2).fill(air === 'both' ? 'print' : main));
    if (air === 'Morse' || air === 'voice' || air === 'both') expect(said[0]).toBe(main);
    if (isShifted) expect(said.slice(1, 3)).toEqual(['print', 'print']);
    if (hand === 'types' && lever !== 'STEADY') expect(said.slice(0, 3)).toEqual(['print', 'print', 'print']);
  });

  it('says why it is silent, and only then', () => {
    const { silent } = look(d, 'sender');
    expect(silent === '').toBe(air !== 'nothing');
    const why = {
      N0N: 'test carrier',
      A1A: 'key is up',
      A3E: 'microphone',
      F1B: 'lever stands at IN',
      'A3E+F1B': 'microphone',
    };
    if (air === 'nothing') expect(silent).toContain(why[emission]);
  });

  it('has a far receiver wide enough for it', () => {
    const r = look(d, 'receiver');
    if (air === 'nothing') expect(r.isOwn).toBe(true);
    // 2M + 2DK = 530 Hz and 2M = 6000 Hz (ITU-R SM.1138); an ear for voice is 6 kHz wide.
    else expect([r.isOwn, r.bandwidth_Hz]).toEqual([false, air === 'print' ? 600 : 6000]);
    const print = emission === 'F1B' ? 530 : 6400;
    const needs = { nothing: null, carrier: null, Morse: 100, voice: 6000, print, both: print }[air];
    if (air !== 'nothing') expect([r.needs_Hz, look(d, 'sender').needs_Hz]).toEqual([needs, needs]);
  });
});

it('lights all ten links while a tape runs and the far printer prints', () => {
  expect(drillWhen(sending).passage().passes).toEqual(Array(10).fill(true));
});

/** Where the spectrum stands highest, Hz from the carrier. */
function peak({ spectrum }: Extract<Inside, { link: 'sender' }>): number {
  const { dB, from_Hz, to_Hz } = spectrum!;
  return from_Hz + (dB.indexOf(Math.max(...dB)) * (to_Hz - from_Hz)) / (dB.length - 1);
}

describe.each(['low', 'high'] as const)('mark %s', (sense) => {
  const mark = sense === 'low' ? -200 : 200;
  it.each([
    ['F1B', 'STEADY', 'rests', mark],
    ['F1B', 'OUT', 'rests', mark],
    ['A3E+F1B', 'OUT', 'rests', mark],
    ['A3E+F1B', 'OUT', 'speaks', mark],
    ['A3E+F1B', 'STEADY', 'speaks', 0],
    ['A3E+F1B', 'IN', 'speaks', 0],
    ['A3E', 'STEADY', 'speaks', 0],
    ['A1A', 'OUT', 'keys', 0],
    ['N0N', 'OUT', 'pushes', 0],
  ] as const)(
    '%s at %s, the hand %s: the carrier is where the drums have it, the strongest line %i Hz from it',
    (emission, lever, hand, off_Hz) => {
      const d = worked(lever, emission, hand, sense);
      expect([look(d, 'sender').kHz, look(d, 'ether').kHz, look(d, 'whip').kHz]).toEqual([4718, 4718, 4718]);
      expect(peak(look(d, 'sender'))).toBeCloseTo(off_Hz, 6);
    },
  );
});
