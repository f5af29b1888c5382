/** A listening exercise made as a recording, put on the air by a scenario, printed by the own station like any other signal. */
import { describe, expect, it } from 'vitest';
import { Drill, type Snapshot } from '../../src/core/drill.ts';
import { makeFskWav } from '../../src/core/samples/listening.ts';
import type { Scenario } from '../../src/core/scenario/scenario.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import { bringUp, scenarioOf, settingOf } from './first-call.ts';

const TEXT = 'THE QUICK BROWN FOX JUMPS OVER THE LAZY DOG';
const SEED = 9;
const samples = makeFskWav({ text: `\n${TEXT}\n`.repeat(3), rate: 8000, baud: 50, shift: 400 });
const recordings = new Map([['exercise.wav', { rate: 8000, samples }]]);

/** The first-call world with a recording 2 kHz under the channel instead of everybody else. */
function scenario(): Scenario {
  const s = scenarioOf(SEED);
  const station = {
    call: 'QV9B',
    kind: 'recording',
    place: 'Kelp Isle',
    path: [{ ground: 'sea', km: 40 }],
    with: { kHz: 4716, wav: 'exercise.wav', repeat: true },
  };
  const inner = { ...s.own.inner, 'receiver.dialError_kHz': 0 };
  return {
    ...s,
    world: { ...s.world, utc: '12:00:00' },
    own: { ...s.own, inner },
    stations: [station],
    happenings: [],
  };
}

function begun(...changes: [string, ControlValue][]): Drill {
  const d = new Drill(scenario(), settingOf(SEED), undefined, recordings);
  bringUp(d);
  const set: [string, ControlValue][] = [
    ['printer.source', 'line'],
    ['keyer.hold', true],
    ['receiver.bandwidth', '1.2'],
    ['line.lever', 'IN'],
    ...changes,
  ];
  for (const [control, value] of set) expect(d.act(control, value)).toBeUndefined();
  d.act('receiver.fine', -(d.station.state.wires.rx.tuned_Hz - 4_718_000) / 1000);
  return d;
}

function printed(d: Drill): string {
  const since = d.now_us;
  d.advance(since + 60e6);
  return d.printed(since);
}
const whole = (text: string): number => text.split('\n').filter((line) => line.includes(TEXT)).length;

describe('a recording on the air', () => {
  it('prints clean, 2 kHz above its carrier', () => {
    expect(whole(printed(begun()))).toBeGreaterThanOrEqual(3);
  });

  it('garbles with the sense reversed', () => {
    const text = printed(begun(['keyer.sense', 'high']));
    expect(text.length).toBeGreaterThan(20);
    expect(text).not.toMatch(/QUICK|BROWN|JUMPS|LAZY/);
  });

  it('goes on from a snapshot as if nothing had been', () => {
    const d = begun();
    const copy = new Drill(d.scenario, d.setting, JSON.parse(d.save()) as Snapshot, recordings);
    expect(printed(copy)).toBe(printed(d));
  });

  it('wants its recording brought', () => {
    const d = new Drill(scenario(), settingOf(SEED));
    expect(() => d.advance(1)).toThrow(RangeError);
  });
});
