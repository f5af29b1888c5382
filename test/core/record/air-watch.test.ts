/** What goes on the air is written down whole: every carrier that was seen to rise is seen to fall. */
import { expect, test } from 'vitest';
import { begin, bringUp } from '../../laws/first-call.ts';

test('a press to talk let go within its own instant leaves no carrier standing in the record', () => {
  const drill = begin(2);
  bringUp(drill);
  drill.act('sender.emission', 'A3E');
  drill.advance(drill.now_us + 1_300_000);
  const from = drill.record.lines.length;
  for (const talk of [true, false]) expect(drill.act('hand.talk', talk)).toBeUndefined();
  drill.advance(drill.now_us + 5_000_000);
  const powers = drill.record.lines
    .slice(from)
    .flatMap((l) => (l.k === 'air' && l.station === 'QV4M' ? [l.power_W] : []));
  expect(powers.length).toBe(2);
  expect(powers[0]).toBeGreaterThan(0);
  expect(powers[1]).toBe(0);
});
