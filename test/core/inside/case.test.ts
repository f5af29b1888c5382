/** Letters and figures keep their case for as long as they run: the looks name what the printers print. */
import { describe, expect, it } from 'vitest';
import { planPrint } from '../../../src/core/distant/transmitter.ts';
import { Drill, type Inside, type LinkName, type Snapshot } from '../../../src/core/drill.ts';
import type { TapeState } from '../../../src/core/station/boxes/tape.ts';
import { encode } from '../../../src/core/telegraphy/ita2.ts';
import { scenarioOf, settingOf } from '../../laws/first-call.ts';
import { drillWhen, receiving, sending } from './stages.ts';

const SEED = 1;
/** Eight seconds of figures: twice as long as any line keeps its history. */
const FIGURES = '12345 67890 '.repeat(5).trim();
const OUT_US = 7_000_000;

/** A drill again, with something changed in its snapshot. */
function changed(d: Drill, change: (s: Snapshot) => void): Drill {
  const snapshot = JSON.parse(d.save()) as Snapshot;
  change(snapshot);
  return new Drill(scenarioOf(SEED), settingOf(SEED), snapshot);
}

type Lettered = Extract<Inside, { link: 'keys' | 'print' }>;
const names = (d: Drill, link: LinkName): string =>
  (d.inside(link) as Lettered).letters.map((l) => l.name.replace('SPACE', ' ')).join('');
const figuresOnly = /^[0-9 ]+$/;

describe('figures for seconds on end', () => {
  it('are figures at the own keys and at the far printer', () => {
    const d = changed(drillWhen(sending), ({ station }) => {
      const tape = station.boxes['tape'] as TapeState;
      tape.reading!.codes.splice(tape.reading!.at, 999, ...encode(FIGURES).codes);
    });
    d.advance(d.now_us + OUT_US);
    expect(d.inside('keys').isOwn && d.inside('keys').window.letter?.name).toMatch(/^([0-9]|SPACE)$/);
    expect(names(d, 'keys')).toMatch(figuresOnly);
    expect(names(d, 'print').length).toBeGreaterThan(3);
    expect(names(d, 'print')).toMatch(figuresOnly);
    expect(d.inside('print')).toMatchObject({ who: 'QV7K' });
  });

  it('are figures at the own printer and on the line of the far one', () => {
    const d = changed(drillWhen(receiving), ({ distant, queue }) => {
      const { radiation } = distant['QV7K']!;
      const { f_Hz, power_W } = radiation.steps.at(-1)!;
      radiation.steps = radiation.steps.filter((s) => s.t_us <= queue.now_us);
      planPrint(radiation, FIGURES, f_Hz + 200, 400, power_W || radiation.steps.at(-1)!.power_W, queue.now_us + 1);
    });
    d.advance(d.now_us + OUT_US + 2_000_000);
    expect(d.inside('keys')).toMatchObject({ who: 'QV7K', isOwn: false });
    expect(names(d, 'keys')).toMatch(figuresOnly);
    expect(names(d, 'print')).toMatch(figuresOnly);
  });
});
