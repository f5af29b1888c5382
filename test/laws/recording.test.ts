/** A listening exercise made as a recording, put on the air by a scenario, printed by the own station like any other signal. */
import { describe, expect, it } from 'vitest';
import { Drill, type Snapshot } from '../../src/core/drill.ts';
import { makeFskWav } from '../../src/core/samples/listening.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import { settingOf } from './first-call.ts';
import { alone, printed, printing, SEED, TEXT, whole } from './print-rig.ts';

const samples = makeFskWav({ text: `\n${TEXT}\n`.repeat(3), rate: 8000, baud: 50, shift: 400 });
const recordings = new Map([['exercise.wav', { rate: 8000, samples }]]);

/** The recording goes out 2 kHz under the channel: its tones stand that much above its carrier. */
const scenario = alone('recording', { kHz: 4716, wav: 'exercise.wav', repeat: true });
const begun = (...changes: [string, ControlValue][]) => printing(scenario, changes, { recordings });

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
    const d = new Drill(scenario, settingOf(SEED));
    expect(() => d.advance(1)).toThrow(RangeError);
  });
});
