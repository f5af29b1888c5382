/** The looks know what is on the line now, and how wide it is. */
import { describe, expect, it } from 'vitest';
import type { Drill, Inside, LinkName } from '../../../src/core/drill.ts';
import { LINKS } from '../../../src/core/inside/links.ts';
import { begin, bringUp } from '../../laws/first-call.ts';
import { drillWhen, receiving, sending, speaking, spokenTo } from './stages.ts';

const look = <L extends LinkName>(d: Drill, link: L) => d.inside(link) as Extract<Inside, { link: L }>;
const onAll = (d: Drill) => [...new Set(LINKS.map((l) => look(d, l).on))];

/** Up, hot and netted, the emission as asked. */
function ready(emission: string): Drill {
  const drill = begin(1);
  drill.act('aerial.sections', 4);
  bringUp(drill);
  drill.act('sender.emission', emission);
  return drill;
}

describe('every link says what is there', () => {
  it('nothing on a cold station', () => expect(onAll(begin(1))).toEqual(['nothing']));
  it('print while a tape runs, out or in', () => {
    expect(onAll(drillWhen(sending))).toEqual(['print']);
    expect(onAll(drillWhen(receiving))).toEqual(['print']);
  });
  it('a voice, own or far', () => {
    const own = drillWhen(speaking);
    expect(look(own, 'keys').isOwn).toBe(true);
    expect(onAll(own)).toEqual(['voice']);
    expect(onAll(drillWhen(spokenTo))).toEqual(['voice']);
  });
  it('Morse by hand, between two signs too', () => {
    const d = ready('A1A');
    for (const down of [true, false, true, false]) {
      d.act('hand.key', down);
      d.advance(d.now_us + 200_000);
    }
    expect(d.station.state.wires.radiated_W).toBe(0);
    expect(onAll(d)).toEqual(['Morse']);
    expect(look(d, 'receiver').isOwn).toBe(false);
    expect(d.passage().passes.lastIndexOf(true)).toBe(LINKS.indexOf('receiver'));
    d.advance(d.now_us + 1_500_000);
    expect(onAll(d)).toEqual(['nothing']);
    expect(d.passage().passes).not.toContain(true);
  });
  it('a bare carrier: at the sender and from there on, not on the line', () => {
    const d = ready('N0N');
    d.act('sender.cage', true);
    d.act('sender.carrier', true);
    d.advance(d.now_us + 300_000);
    expect(LINKS.map((l) => look(d, l).on)).toEqual([...Array(3).fill('nothing'), ...Array(7).fill('carrier')]);
    expect(look(d, 'receiver')).toMatchObject({ needs_Hz: null, designator: 'N0N' });
  });
});

describe('the far receiver', () => {
  it('is as wide as its ear while it listens to a voice, and as the terminal unit while it prints', () => {
    const voice = look(drillWhen(speaking), 'receiver');
    // 6K00A3E (ITU-R SM.1138): all of it must come through.
    expect(voice).toMatchObject({ isOwn: false, designator: '6K00A3E', needs_Hz: 6000, bandwidth_Hz: 6000 });
    const print = look(drillWhen(sending), 'receiver');
    expect(print).toMatchObject({ isOwn: false, designator: '530HF1B', needs_Hz: 530, bandwidth_Hz: 600 });
  });
});

describe('what a wave must have over the noise', () => {
  it('is more for a voice than for print, and less for Morse by ear', () => {
    const needs = (d: Drill) => look(d, 'ether').needs;
    const [print, voice] = [needs(drillWhen(sending)), needs(drillWhen(spokenTo))];
    expect(print).toEqual({ for: 'print', dB: 30.5 });
    expect(voice.for).toBe('voice');
    // ITU-R F.339 (from memory): double-sideband voice just usable at about 47 to 51 dB-Hz, Morse by ear at 24 to 31.
    expect(voice.dB).toBeGreaterThan(35);
    expect(voice.dB).toBeLessThan(51);
    const morse = ready('A1A');
    morse.act('hand.key', true);
    morse.advance(morse.now_us + 100_000);
    expect(needs(morse).for).toBe('Morse');
    expect(needs(morse).dB).toBeGreaterThan(24);
    expect(needs(morse).dB).toBeLessThan(print.dB);
  });
});
