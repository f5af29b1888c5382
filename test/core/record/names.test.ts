import { describe, expect, it } from 'vitest';
import { NAMES } from '../../../src/core/catalogue.ts';
import { momentText } from '../../../src/core/record/moment.ts';
import { amid, NO_NAMES, plain, setAs, stood, told } from '../../../src/core/record/names.ts';

const named = (full: string): string => amid(NAMES.controls.get(full)?.name ?? '');

describe('words for what a record names by id', () => {
  it('ids are made plain', () => {
    expect(['hotOff', 'no-reply', 'feed.bus_V', 'AGC'].map(plain)).toEqual([
      'hot off',
      'no reply',
      'feed bus V',
      'AGC',
    ]);
  });
  it('a quantity that is a control stands in its words', () => {
    expect(stood(NAMES, 'aerial.guard', false)).toBe(`${named('aerial.guard')} off`);
    expect(stood(NAMES, 'line.lever', 'OUT')).toBe(`${named('line.lever')} OUT`);
    expect(stood(NAMES, 'sender.hot', false)).toBe('sender not hot');
    expect(stood(NAMES, 'sender.reflected_W', 7.5)).toBe('reflected 7.5 W');
    expect(stood(NO_NAMES, 'sender.reflected_W', undefined)).toBe('reflected not seen');
  });
  it('against a wanted value it is so much high or low', () => {
    const at = (Hz: number) => stood(NAMES, 'receiver.tuned_Hz', Hz, 4_718_000);
    expect([4_718_035, 4_717_900, 4_718_000].map(at)).toEqual([
      'tuned 35 Hz high, 4 718.035 kHz',
      'tuned 100 Hz low, 4 717.900 kHz',
      'tuned 0 Hz off, 4 718.000 kHz',
    ]);
  });
  it('a control as set', () => {
    expect(setAs(NAMES, 'tape.rewind', true)).toBe(NAMES.controls.get('tape.rewind')?.name);
    expect(setAs(NAMES, 'aerial.counterpoise', 4)).toBe(`${NAMES.controls.get('aerial.counterpoise')?.name} 4`);
    expect(setAs(NO_NAMES, 'lamp.power', true)).toBe('lamp power on');
  });
  it('a note tells what its detail has, and nothing of what it has not', () => {
    expect(told(NAMES, 'QV7K', 'challenged', { row: 'L', column: 'P' })).toBe('QV7K challenged: row L, column P');
    expect(told(NAMES, 'QV7K', 'challenged', {})).toBe('QV7K challenged');
    expect(told(NAMES, 'own', 'unsafe', { why: 'guard off' })).toBe('danger: guard off');
    expect(told(NAMES, 'QV7K', 'puzzled', { faults: ['no-ending'] })).toBe(
      'QV7K could not follow: neither OVER nor OUT at the end',
    );
    expect(told(NO_NAMES, 'QV7K', 'wentAway', { why: 'no-reply' })).toBe('QV7K went away, no reply');
  });
  it('a pattern becomes what people call the moment', () => {
    const say = (p: Parameters<typeof momentText>[1]) => momentText(NAMES, p);
    expect(say({ t: 0 })).toBe('the beginning');
    expect(say({ k: 'mode', box: 'sender', mode: { in: ['off', 'hotOff'] } })).toBe('sender off or switched off hot');
    expect(say({ k: 'value', q: 'feed.bus_V', v: { above: 20 } })).toBe('bus above 20 V');
    expect(say({ k: 'do', control: 'feed.isolator', value: false })).toBe(`${named('feed.isolator')} off`);
    expect(say({ k: 'air', station: 'QV4M', power_W: { above: 0 } })).toBe('QV4M on the air');
    expect(say({ k: 'far', station: 'QV7K', what: { in: ['doubted', 'refused'] } })).toBe(
      'QV7K doubted the reply or QV7K refused',
    );
    expect(say({})).toBe('the moment');
  });
  it('names each of a set, and says what a test asks', () => {
    const say = (p: Parameters<typeof momentText>[1]) => momentText(NAMES, p);
    expect(say({ k: 'mode', box: { in: ['sender', 'inverter'] }, mode: 'hotOff' })).toBe(
      'sender switched off hot or inverter pair hot off',
    );
    expect(say({ k: 'print', at: { in: ['own', 'QV7K'] } })).toBe('print at the own machine or QV7K');
    expect(say({ k: 'happen', id: { in: ['kelp-isle-calls', 'fault'] } })).toBe('kelp isle calls or fault');
    expect(say({ k: 'do', control: 'receiver.dial', value: { above: 700 } })).toBe('dial above 700 kHz');
    expect(say({ k: 'do', control: { not: 'printer.key' } })).toBe('a control not keyboard');
    expect(say({ k: 'log', text: { like: '*CALL*' } })).toBe('an entry with CALL in the log');
    expect(say({ k: 'far', what: 'covered', 'detail.by': 'QV4M' })).toBe('a station was talked over by QV4M');
    expect(say({ k: 'value', q: 'sender.emission', v: { is: { kHz: 4718 } } })).toBe('emission kHz 4 718');
  });
  it('data within data are words too', () => {
    expect(told(NAMES, 'QV7K', 'puzzled', { faults: { first: ['no-ending'], why: null } })).toBe(
      'QV7K could not follow: first neither OVER nor OUT at the end, why nothing',
    );
    expect(told(NAMES, 'QV7K', 'refused', { why: null })).toBe('QV7K refused');
    expect(setAs(NAMES, 'hand.say', { a: true })).toBe(`${NAMES.controls.get('hand.say')?.name} "a yes"`);
  });
});
