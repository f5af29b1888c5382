import { expect, test } from 'vitest';
import { CHANNEL_HZ, ISLE, message, POST, Rig, TO_POST } from './rig.ts';

const with_ = { kHz: CHANNEL_HZ / 1000, shift_Hz: 850 };

test('a talker and a beacon listen on their channel, at their own shift', () => {
  for (const kind of ['chatter', 'beacon']) {
    const rig = new Rig([{ call: ISLE, kind, with: with_ }]).run(1);
    expect(rig.distant.receiver(ISLE)).toEqual({ tuned_Hz: CHANNEL_HZ, shift_Hz: 850 });
  }
});

test('a post stands near its channel, and is netted to the middle of what it copies while it copies', () => {
  const post = { call: POST, kind: 'post', with: { kHz: CHANNEL_HZ / 1000, expects: ['NR14'], challenges: false } };
  const rig = new Rig([post]).run(1);
  const off_Hz = () => rig.distant.receiver(POST)!.tuned_Hz - CHANNEL_HZ;
  const found_Hz = off_Hz();
  expect(Math.abs(found_Hz)).toBeLessThanOrEqual(15);
  rig.say(`${TO_POST} OVER`).run(12);
  rig.say(`${TO_POST} I HAVE ONE PRIORITY BY TELEPRINTER OVER`).run(10);
  rig.print(`\n${message.lines.join('\n')}\n`, { f_Hz: CHANNEL_HZ + 90 });
  expect(Math.abs(off_Hz() - 90)).toBeLessThanOrEqual(4);
  expect(rig.distant.receiver(POST)!.shift_Hz).toBe(400);
  rig.run(20);
  expect(off_Hz()).toBe(found_Hz);
});

test('nobody has no receiver', () => {
  expect(new Rig([]).distant.receiver(POST)).toBeUndefined();
});
