/** The ribbon's windows show what the drill runs on: a drill amid its tape, letter by letter. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Drill } from '../../src/core/drill.ts';
import { LINKS } from '../../src/core/drill.ts';
import type { Wave } from '../../src/panel/faces/ribbon.ts';
import { sightOf } from '../../src/panel/host.ts';
import { reachOf } from '../../src/panel/reach.ts';
import { Waves } from '../../src/panel/waves.ts';
import { NAME, TEXT } from '../browser/hand-drill.ts';
import { planDrill } from '../browser/hand-plan.ts';
import { momentOf } from '../browser/hand-shelf.ts';
import { begin } from '../laws/first-call.ts';

const SEED = 7;
let drill: Drill;

beforeAll(() => {
  const plan = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'shown', seed: SEED });
  const sending_us = momentOf(plan, 'tape.run', true) + 9e6;
  drill = begin(SEED);
  for (const { t, control, value } of plan.moves.flatMap((m) => m.stored).filter((s) => s.t <= sending_us)) {
    drill.advance(t);
    drill.act(control, value);
  }
  drill.advance(sending_us);
});

const windows = (manner: 'shown' | 'assessed' = 'shown', waves = new Waves()): Wave[] => {
  const sight = sightOf(drill);
  return waves.of(sight, reachOf(sight, manner));
};

describe('amid the own tape', () => {
  test('every window of the way out shows something of its own', () => {
    expect(windows().map((w) => w.kind)).toEqual([
      'holes',
      'trace',
      'trace',
      'trace',
      'field',
      'bars',
      'trace',
      'trace',
      'decision',
      'letter',
    ]);
    expect(new Set(windows().map((w) => JSON.stringify(w))).size).toBe(LINKS.length);
  });

  test('the field falls along the way, and the passband takes away what lies outside it', () => {
    const [, , , , , ether, air, passed] = windows();
    if (ether?.kind !== 'bars' || air?.kind !== 'trace' || passed?.kind !== 'trace') throw new Error('other kinds');
    expect(ether.heights[0]).toBeGreaterThan(ether.heights.at(-1)!);
    // At the edges of the window, 1 kHz off, 600 Hz of passband leave nothing; in the middle all.
    expect(passed.samples[0]).toBeLessThan(air.samples[0]!);
    const middle = Math.floor(air.samples.length / 2);
    expect(passed.samples[middle]).toBeCloseTo(air.samples[middle]!, 0);
  });

  test('the letters that the far window prints are those that the far machine prints, in order', () => {
    const waves = new Waves();
    const shown: string[] = [];
    const from_us = drill.now_us;
    for (let i = 0; i < 40; i++) {
      const wave = windows('shown', waves)[9];
      if (wave?.kind === 'letter' && shown.at(-1) !== wave.text) shown.push(wave.text);
      drill.advance(drill.now_us + 70_000);
    }
    const printed = drill.record.lines
      .filter((l) => l.k === 'print' && l.at === 'QV7K' && l.t > from_us - 1e6)
      .map((l) => (l.k === 'print' ? l.c : ''))
      .filter((c) => /[A-Z0-9]/.test(c));
    const letters = shown.filter((c) => /[A-Z0-9]/.test(c));
    expect(letters.length).toBeGreaterThan(5);
    // Looked at five times a second, a window misses a letter now and then.
    let at = -1;
    for (const c of letters) {
      at = printed.indexOf(c, at + 1);
      expect(at, `${c} of ${letters.join('')} in ${printed.join('')}`).toBeGreaterThanOrEqual(0);
    }
  });

  test('an assessed operator is not shown the far side', () => {
    expect(
      windows('assessed')
        .slice(5)
        .map((w) => w.kind),
    ).toEqual(new Array(5).fill('idle'));
  });
});
