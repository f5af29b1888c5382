/** Stations that take up the channel: talkers and beacons. */
import { describe, expect, it } from 'vitest';
import type { Json } from '../../../src/core/signals.ts';
import { decode } from '../../../src/core/telegraphy/ita2.ts';
import { selectorAtRest, selectorRun } from '../../../src/core/telegraphy/selector.ts';
import { CHANNEL_HZ, FROM_POST, ISLE, OWN, POST, Rig, spelledCall } from './rig.ts';

const kHz = 4718;
const talker = (params: { [key: string]: Json } = {}, more: ConstructorParameters<typeof Rig>[0] = []) =>
  new Rig([{ call: ISLE, kind: 'chatter', with: { kHz, ...params } }, ...more]);
const FROM_ISLE = 'QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR NINE BRAVO';

describe('a talker', () => {
  it('says what it is told, call signs letter by letter, with pauses', () => {
    const rig = talker();
    rig.distant.tell(ISLE, { say: ['QV7K THIS IS QV9B RADIO CHECK OVER', 'QV7K THIS IS QV9B OUT'] });
    expect(rig.run(30).said(ISLE)).toEqual([`${FROM_ISLE} RADIO CHECK OVER`, `${FROM_ISLE} OUT`]);
    const [first, second] = rig.lines.filter((l) => l.k === 'spoke');
    if (first?.k !== 'spoke' || second?.k !== 'spoke') throw new Error('nothing said');
    // 13 words of 0.4 s, then carrier, pause and carrier again.
    expect((second.from_us - first.from_us) / 1e6).toBeCloseTo(13 * 0.4 + 0.3 + 6 + 0.3, 1);
  });

  it('talks at set times', () => {
    const rig = talker({ talks: [{ at_s: 20, say: ['ALL STATIONS OUT'] }] });
    expect(rig.run(20).said(ISLE)).toEqual([]);
    expect(rig.run(5).said(ISLE)).toEqual(['ALL STATIONS OUT']);
  });

  it('waits until the channel is free', () => {
    const rig = talker();
    rig.own.steps.push({ t_us: 0, f_Hz: CHANNEL_HZ, power_W: 8 }, { t_us: 15_000_000, f_Hz: CHANNEL_HZ, power_W: 0 });
    rig.distant.tell(ISLE, { say: ['ALL STATIONS OUT'] });
    expect(rig.run(15).said(ISLE)).toEqual([]);
    expect(rig.run(5).said(ISLE)).toEqual(['ALL STATIONS OUT']);
    expect(rig.far(ISLE)).toEqual([]);
  });

  it('notes who talks over it, once, and says it again', () => {
    const rig = talker();
    rig.distant.tell(ISLE, { say: ['QV7K THIS IS QV9B I HAVE FUEL FOR TWO DAYS OVER'] });
    rig.run(2).say('HELLO').run(30);
    expect(rig.far(ISLE)).toEqual(['covered']);
    expect(rig.detail('covered')).toEqual({ by: OWN });
    expect(rig.said(ISLE)).toHaveLength(2);
    expect(rig.run(60).said(ISLE)).toHaveLength(2);
  });

  it('talked over again gives up', () => {
    const rig = talker();
    rig.distant.tell(ISLE, { say: ['QV7K THIS IS QV9B I HAVE FUEL FOR TWO DAYS OVER'] });
    rig.run(2).say('HELLO').run(14).say('HELLO').run(60);
    expect(rig.far(ISLE)).toEqual(['covered', 'covered']);
    expect(rig.said(ISLE)).toHaveLength(2);
  });

  it('is answered by a post that it calls', () => {
    const rig = talker({}, [{ call: POST, kind: 'post', with: { kHz } }]);
    rig.distant.tell(ISLE, { say: ['QV7K THIS IS QV9B RADIO CHECK OVER', 'QV7K THIS IS QV9B ROGER OUT'] });
    rig.run(40);
    expect(rig.said(POST)).toHaveLength(1);
    expect(rig.said(POST)[0]).toMatch(
      /^QUEBEC VICTOR NINE BRAVO THIS IS QUEBEC VICTOR SEVEN KILO .*(CLEAR|READABLE) OVER$/,
    );
    expect(rig.said(ISLE)).toHaveLength(2);
    expect(rig.far(ISLE)).toEqual([]);
  });

  it('covers what it talks over: two at once are not understood', () => {
    const rig = talker({ polite: false }, [{ call: POST, kind: 'post', with: { kHz } }]);
    // The talker is the stronger by about ten decibels.
    const call = `${spelledCall[POST]} THIS IS ${spelledCall[OWN]} OVER`;
    const alone = talker({ polite: false }, [{ call: POST, kind: 'post', with: { kHz } }]);
    expect(alone.run(1).say(call, { power_W: 0.02 }).run(15).far(POST)).toContain('called');
    rig.distant.tell(ISLE, { say: [Array(30).fill('WIND').join(' ')] });
    rig.run(1).say(call, { power_W: 0.02 }).run(15);
    expect(rig.far(POST)).not.toContain('called');
    expect(rig.said(POST).filter((words) => words.startsWith(FROM_POST))).toEqual([]);
  });

  it('keys Morse with seven units between words', () => {
    // ITU-R M.1677-1: dot 1, dash 3, between words 7 units; at 12 words a minute (PARIS) a unit is 100 ms.
    const rig = talker();
    rig.distant.tell(ISLE, { morse: ['E T'] });
    rig.run(2);
    const { steps } = rig.distant.radiations()[0]!;
    const t = steps.map((s) => (s.t_us - steps[0]!.t_us) / 1000);
    expect(t).toEqual([0, 100, 800, 1100]);
  });
});

describe('a beacon', () => {
  const beacon = (params: { [key: string]: Json }) =>
    new Rig([{ call: ISLE, kind: 'beacon', with: { kHz, ...params } }]);
  const isUp = (rig: Rig) => rig.ether.earOf(OWN).arrivals(Math.round(rig.now_s * 1e6)).length > 0;

  it('stands as long as it should, and pauses', () => {
    const rig = beacon({ from_s: 5, stand_s: 10, pause_s: 4 });
    const seen = [4, 6, 14, 16, 18, 20].map((at) => isUp(rig.run(at - rig.now_s)));
    expect(seen).toEqual([false, true, true, false, false, true]);
  });

  it('goes off and on when told', () => {
    const rig = beacon({ on: false });
    expect(isUp(rig.run(1))).toBe(false);
    rig.distant.tell(ISLE, { on: true });
    expect(isUp(rig.run(1))).toBe(true);
    rig.distant.tell(ISLE, { on: false });
    expect(isUp(rig.run(1))).toBe(false);
  });

  it('prints its text over and over', () => {
    const rig = beacon({ emission: 'F1B', text: 'RYRY 5', pause_s: 0 }).run(1);
    const edges = rig.distant.radiations()[0]!.steps.map((s) => ({ t_us: s.t_us, mark: s.f_Hz < CHANNEL_HZ }));
    const { chars } = selectorRun(selectorAtRest(), edges, 5_000_000, { baud: 50 });
    expect(decode(chars.map((c) => c.code)).text.trim()).toBe('RYRY 5');
    rig.run(60);
    expect(rig.distant.radiations()[0]!.steps.length).toBeLessThan(300);
  });

  it('keys its text', () => {
    expect(beacon({ emission: 'A1A', text: 'VVV' }).run(20).said(ISLE).length).toBeGreaterThan(1);
  });
});
