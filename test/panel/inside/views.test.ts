/** What the look inside draws: within its sheet, legible, finite, for every link and every state of the drill. */
import { beforeAll, describe, expect, it } from 'vitest';
import { type Drill, LINKS, type LinkName, ReachWork } from '../../../src/core/drill.ts';
import { Follow } from '../../../src/panel/inside/follow.ts';
import { NARROW_W, narrowSheet, wideSheet } from '../../../src/panel/inside/frame.ts';
import { drawnOf } from '../../../src/panel/inside/views.ts';
import { holds, inkBox, isText } from '../../../src/panel/kit/bounds.ts';
import type { Op } from '../../../src/panel/kit/ops.ts';
import { bestOf, reachChartOps } from '../../../src/panel/reach-chart.ts';
import { again, bare, drillWhen, receiving, sending, speaking, spokenTo, steady } from '../../core/inside/stages.ts';

const states: [string, Drill][] = [];
beforeAll(() => {
  for (const [name, is] of Object.entries({ cold: () => true, sending, receiving, spokenTo, speaking, bare, steady }))
    states.push([name, drillWhen(is)]);
}, 60_000);

const PLOT = { left: 44, top: 156, right: 846, bottom: 664 };

const tooSmall = (ops: readonly Op[]) => ops.filter((op) => isText(op) && op.size < 14);

describe('the sheet inside a link', () => {
  it('keeps its ink on the wide sheet and its type at 14 or more', () => {
    for (const [name, drill] of states)
      LINKS.forEach((link, i) => {
        const ops = wideSheet(drawnOf(drill.inside(link)), i, link);
        const { left, top, right, bottom } = inkBox(ops);
        expect(
          left >= -1 && top >= 50 && right <= 1281 && bottom <= 721,
          `${name} ${link} ${JSON.stringify({ left, top, right, bottom })}`,
        ).toBe(true);
        expect(tooSmall(ops), `${name} ${link}`).toEqual([]);
      });
  }, 30_000);

  it('keeps its ink on a phone', () => {
    for (const [name, drill] of states)
      for (const link of LINKS) {
        const { ops, h } = narrowSheet(drawnOf(drill.inside(link)));
        const box = inkBox(ops);
        expect(
          box.left >= -1 && box.right <= NARROW_W + 8 && box.bottom <= h + 8,
          `${name} ${link} ${JSON.stringify(box)}`,
        ).toBe(true);
        expect(tooSmall(ops), `${name} ${link}`).toEqual([]);
      }
  }, 30_000);

  it('says in words what it draws', () => {
    for (const [, drill] of states)
      for (const link of LINKS)
        expect(drawnOf(drill.inside(link)).words.join('')).not.toMatch(/NaN|undefined|Infinity|^$/);
  });
});

describe('a sheet speaks of what is there', () => {
  const textOf = (name: string, link: LinkName): string => {
    const d = drawnOf(states.find(([n]) => n === name)![1].inside(link));
    const ops = wideSheet(d, LINKS.indexOf(link), link);
    return [...ops.filter(isText).map((op) => op.text), ...d.words].join(' ');
  };

  it('not of letters, units and bauds while a voice or a bare carrier is on the air', () => {
    for (const name of ['speaking', 'spokenTo', 'bare'])
      for (const link of ['sender', 'whip', 'ether', 'far whip', 'receiver'] as const)
        expect(textOf(name, link), `${name} ${link}`).not.toMatch(
          /50 Bd|\bunit\b|\bspace\b|shift \d|letter (?!of five)/,
        );
    for (const name of ['speaking', 'spokenTo']) expect(textOf(name, 'keys'), name).not.toMatch(/50 Bd|holes|mark/);
  });

  it('names the voice where it is and where it goes past', () => {
    for (const link of LINKS) expect(textOf('speaking', link), link).toMatch(/voice/i);
  });

  it('of the local loop while the printer stands in it, of its page though nothing comes in', () => {
    expect(textOf('cold', 'loop')).toMatch(/local loop/);
    expect(textOf('cold', 'loop')).not.toMatch(/falls off|lever at/);
    expect(textOf('cold', 'print')).toMatch(/the receiver is off.*nothing printed yet/);
  });

  it('of a steady mark as of a line at rest', () => {
    expect(textOf('steady', 'keys')).toMatch(/the line rests at mark/);
    expect(textOf('steady', 'print')).toMatch(/the cam stands/);
    expect(textOf('steady', 'receiver')).toMatch(/one hill, that of mark/);
  });

  it('of what the printer waits for while no letter comes, of the next only while one does', () => {
    for (const name of ['cold', 'speaking', 'bare', 'steady']) {
      expect(textOf(name, 'print'), name).toMatch(/What it waits for/);
      expect(textOf(name, 'print'), name).not.toMatch(/Prints next/);
    }
    expect(textOf('steady', 'print')).toMatch(/line rests at mark, so/);
    expect(textOf('receiving', 'print')).toMatch(/Prints next/);
  });

  it('with paper behind what stands on the lines of the ether', () => {
    const ops = drawnOf(states.find(([n]) => n === 'sending')![1].inside('ether')).picture!.draw(PLOT);
    const at = ops.findIndex((op) => isText(op) && op.text.endsWith('over it'));
    const under = ops[at - 1]!;
    expect('fill' in under && under.fill).toBe('sheet');
    expect(holds(inkBox([under]), inkBox([ops[at]!]))).toBe(true);
  });

  it('tells the band that each emission needs', () => {
    expect(textOf('speaking', 'receiver')).toMatch(/QV7K’s, 6 000 Hz wide.*6K00A3E needs 6 000 Hz/);
    expect(textOf('sending', 'receiver')).toMatch(/QV7K’s, 600 Hz wide.*530HF1B needs 530 Hz/);
    expect(textOf('speaking', 'sender')).toMatch(/The emission needs 6 000 Hz/);
    expect(textOf('sending', 'far whip')).toContain('QV4M 530HF1B');
  });
});

describe('following a letter', () => {
  const letterOf = (f: Follow, link: LinkName) => f.look(link).window.letter?.start_us ?? null;
  it('holds the letter while the drill goes on, steps back and on again, and leaves the drill alone', () => {
    const drill = again(states.find(([n]) => n === 'sending')![1]);
    const unseen = again(drill);
    const follow = new Follow(drill);
    follow.hold(true);
    const held = letterOf(follow, 'loop');
    drill.advance(drill.now_us + 700_000);
    expect(letterOf(follow, 'loop')).toBe(held);
    expect(follow.step('loop', -1)).toBe(true);
    expect(letterOf(follow, 'loop')!).toBeLessThan(held!);
    for (let i = 0; i < 3; i++) expect(follow.step('loop', 1)).toBe(true);
    expect(letterOf(follow, 'loop')!).toBeGreaterThan(held!);
    follow.hold(false);
    expect(letterOf(follow, 'loop')).toBe(letterOf(new Follow(drill), 'loop'));
    unseen.advance(unseen.now_us + 700_000);
    expect(drill.save()).toBe(unseen.save());
  });

  it('does not guess what comes after a hand has moved', () => {
    const drill = again(states.find(([n]) => n === 'sending')![1]);
    const follow = new Follow(drill);
    follow.hold(true);
    drill.advance(drill.now_us + 400_000);
    drill.act('tape.run', false);
    drill.advance(drill.now_us + 400_000);
    expect(follow.step('keys', 1)).toBe(false);
  });
});

describe('the reach chart', () => {
  it('stays on its paper and names the frequencies of the desk', () => {
    const [, drill] = states[0]!;
    const circuit = drill.circuits().at(-1)!;
    const work = new ReachWork(circuit, [2, 4, 8, 16]);
    for (let i = 0; i < 6; i++) work.step();
    const { frequencies } = drill.scenario.papers;
    const paper = { left: 0, top: 0, right: 1140, bottom: 424 };
    expect(reachChartOps(paper, { chart: work.chart, hour: 9.6, frequencies }).length).toBeGreaterThan(0);
    while (work.step());
    const ops = reachChartOps(paper, { chart: work.chart, hour: 9.6, frequencies });
    const { left, top, right, bottom } = inkBox(ops);
    expect(left >= 0 && top >= 0 && right <= 1140 && bottom <= 424, JSON.stringify({ left, top, right, bottom })).toBe(
      true,
    );
    expect(tooSmall(ops)).toEqual([]);
    expect(bestOf({ chart: work.chart, hour: 9.6, frequencies })).toMatch(/^night 2846: \d+ %.*day 4718.*reserve 6137/);
  });
});
