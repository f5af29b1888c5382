import { expect, test } from 'vitest';
import { hand } from '../../../../src/core/station/boxes/hand.ts';
import { markAt } from '../../../../src/core/station/wave.ts';
import { WORD_US } from '../../../../src/core/telegraphy/speaking.ts';
import { Rig } from './rig.ts';

const rig = () => new Rig([hand]).run(1.005);

test('words are said 0.4 s each while the switch is held, at once', () => {
  const r = rig();
  expect(r.turn('hand.say', 'THIS IS')).toBe('press to talk first');
  r.do('hand.talk', true);
  expect(r.w.talking).toBe(true);
  const t = r.now_us;
  r.do('hand.say', 'this is quebec – over');
  expect(r.w.words.map((w) => [w.word, w.t0_us - t, w.t1_us - t])).toEqual([
    ['THIS', 0, WORD_US],
    ['IS', WORD_US, 2 * WORD_US],
    ['QUEBEC', 2 * WORD_US, 3 * WORD_US],
    ['OVER', 3 * WORD_US, 4 * WORD_US],
  ]);
  expect(r.see('hand.saying')).toBe('THIS IS QUEBEC OVER');
  expect(r.run(0.9).see('hand.saying')).toBe('QUEBEC OVER');
  expect(r.run(1).see('hand.saying')).toBe('');
  expect(r.see('hand.lampTalk')).toBe(true);
});

test('a call sign that was typed is spelled and takes its time', () => {
  const r = rig().do('hand.talk', true).do('hand.say', 'QV7K OVER');
  expect(r.see('hand.saying')).toBe('QUEBEC VICTOR SEVEN KILO OVER');
  expect(r.run(1).see('hand.saying')).toBe('SEVEN KILO OVER');
});

test('letting go cuts off the word being said and all after it', () => {
  const r = rig().do('hand.talk', true).do('hand.say', 'ONE TWO THREE').run(0.5).do('hand.talk', false);
  expect(r.w.words.map((w) => w.word)).toEqual(['ONE']);
  expect(r.w.talking).toBe(false);
  expect(r.see('hand.lampTalk')).toBe(false);
});

test('more words follow those still being said; nothing is not said', () => {
  const r = rig().do('hand.talk', true).do('hand.say', 'ONE').do('hand.say', 'TWO');
  expect(r.w.words[1]?.t0_us).toBe(r.w.words[0]?.t1_us);
  expect(r.turn('hand.say', ' – ')).toBe('nothing to say');
});

test('the hand key is down while held', () => {
  const r = rig().do('hand.key', true).run(0.1);
  expect(markAt(r.w.handKey, r.now_us)).toBe(true);
  r.do('hand.key', false);
  expect(r.w.handKey.slice(-2).map((e) => e.mark)).toEqual([true, false]);
  expect(markAt(r.run(10).w.handKey, r.now_us)).toBe(false);
  expect(r.w.handKey.length).toBeLessThan(3);
});

test('volume of headset and loudspeaker goes to the ears', () => {
  const r = rig().do('hand.phones', 7).do('hand.speaker', true);
  expect(r.w.ears).toEqual({ phones: 7, speaker: true });
});
