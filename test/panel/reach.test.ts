/** The ribbon shows every emission that radiates, from the sender on as far as it gets. */
import { describe, expect, test } from 'vitest';
import type { Drill } from '../../src/core/drill.ts';
import { LINKS } from '../../src/core/drill.ts';
import { sightOf } from '../../src/panel/host.ts';
import { reachOf } from '../../src/panel/reach.ts';
import { ribbonWords } from '../../src/panel/ribbon.ts';
import { Waves } from '../../src/panel/waves.ts';
import { drillWhen, receiving, sending, speaking, spokenTo, steady } from '../core/inside/stages.ts';
import { begin, bringUp } from '../laws/first-call.ts';

const wires = (d: Drill) => d.station.state.wires;
const radiates =
  (...emissions: string[]) =>
  (d: Drill): boolean =>
    wires(d).radiated_W > 0 && emissions.includes(wires(d).radiation.emission);
const reach = (d: Drill, manner: 'shown' | 'unaided' = 'shown') => reachOf(sightOf(d), manner);
const litOf = (d: Drill) => LINKS.filter((_, i) => reach(d).lit[i]);
const waves = (d: Drill) => new Waves().of(sightOf(d), reach(d)).map((w) => w.kind);

/** Up and hot, the whip up, on the first stored setting; nothing keyed. */
function ready(): Drill {
  const drill = begin(1);
  drill.act('aerial.sections', 4);
  bringUp(drill);
  return drill;
}

const FROM_SENDER = ['sender', 'whip', 'ether', 'far whip', 'receiver'];

describe('what radiates shows from the sender on', () => {
  test('a test carrier, bare: no key and no loop made it, and no terminal unit reads it', () => {
    const drill = ready();
    drill.act('sender.cage', true);
    drill.act('sender.carrier', true);
    drill.advance(drill.now_us + 500_000);
    expect(radiates('N0N')(drill)).toBe(true);
    expect(litOf(drill)).toEqual(FROM_SENDER);
    expect(waves(drill).slice(3)).toEqual(['trace', 'field', 'bars', 'trace', 'trace', 'idle', 'idle']);
    expect(ribbonWords(reach(drill))).toBe(
      'Signal from you begins at sender and gets as far as receiver, link 8 of 10.',
    );
  });

  test('the low carrier of a search for the match', () => {
    const drill = ready();
    drill.act('sender.seek', true);
    drill.advance(drill.now_us + 300_000);
    expect(radiates('N0N')(drill)).toBe(true);
    expect(litOf(drill)).toEqual(FROM_SENDER);
  });

  test('a steady mark goes as far as the terminal unit, and prints nothing', () => {
    const drill = drillWhen(steady);
    drill.advance(drill.now_us + 1_000_000);
    expect(litOf(drill)).toEqual(LINKS.slice(0, 9));
    expect(waves(drill).slice(0, 9)).not.toContain('idle');
  });

  test('with the lever at STEADY the mark begins at the loop: the keys are out of it', () => {
    const drill = ready();
    drill.act('sender.emission', 'F1B');
    drill.advance(drill.now_us + 1_000_000);
    expect(litOf(drill)).toEqual(LINKS.slice(1, 9));
  });

  test('the own voice goes past loop and keyer to the far receiver, and no further', () => {
    const drill = drillWhen(speaking);
    expect(litOf(drill)).toEqual(['keys', ...FROM_SENDER]);
    expect(waves(drill)).toEqual([
      'letter',
      'idle',
      'idle',
      'trace',
      'field',
      'bars',
      'trace',
      'trace',
      'idle',
      'idle',
    ]);
  });

  test('a tape goes all the way, and so does the answer', () => {
    expect(litOf(drillWhen(sending))).toEqual(LINKS);
    expect(litOf(drillWhen(receiving))).toEqual(LINKS);
  });

  test('a far voice is had by ear', () => {
    const lit = litOf(drillWhen(spokenTo));
    expect(lit).toEqual(['keys', ...FROM_SENDER]);
  });
});

describe('a signal ends', () => {
  test('at the whip when none of it is radiated, and nothing shows of a cold station', () => {
    expect(litOf(begin(1))).toEqual([]);
    const drill = ready();
    drill.act('aerial.sections', 0);
    drill.act('sender.emission', 'F1B');
    drill.advance(drill.now_us + 200_000);
    expect(wires(drill).forward_W).toBeGreaterThan(0);
    expect(litOf(drill)).toEqual(['loop', 'keyer', 'sender']);
  });

  test('before the far receiver when the sender stands beside the channel', () => {
    const drill = ready();
    drill.act('sender.frequency', (drill.standing('sender.frequency') as number) + 20);
    drill.act('sender.cage', true);
    drill.act('sender.carrier', true);
    drill.advance(drill.now_us + 300_000);
    expect(litOf(drill)).toEqual(['sender', 'whip', 'ether', 'far whip']);
  });

  test('for the unaided at their own whip', () => {
    expect(reach(drillWhen(sending), 'unaided')).toMatchObject({ to: 'far', hidden: [5, 9] });
    expect(reach(drillWhen(sending), 'unaided').lit.lastIndexOf(true)).toBe(4);
  });
});
