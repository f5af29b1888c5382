import { expect, test } from 'vitest';
import { utcText } from '../../../../src/core/quantity/time-text.ts';
import { desk } from '../../../../src/core/station/boxes/desk.ts';
import { Rig } from './rig.ts';

const rig = (inner = {}) => new Rig([desk], { desk: { inner } });

test('the clock shows UTC and goes over midnight', () => {
  expect(rig().run(61).see('desk.utc')).toBe('09 01 01');
  expect(utcText(86_399, 2e6)).toBe('00 00 01');
});

test('a log line carries its time, stays, and wants a signature anew', () => {
  const r = rig({ log: ['08 00 00  WATCH OPENED'] }).run(5);
  r.do('desk.log', ' CALLED QV7K ');
  expect(r.notes.find((n) => n.k === 'log')).toMatchObject({ utc: '09 00 05', text: 'CALLED QV7K' });
  expect(r.see('desk.logLines')).toEqual(['08 00 00  WATCH OPENED', '09 00 05  CALLED QV7K']);
  expect(r.turn('desk.log', '  ')).toBe('nothing written');
  expect(r.do('desk.sign', true).see('desk.signed')).toBe(true);
  expect(r.do('desk.log', 'NOTHING HEARD').see('desk.signed')).toBe(false);
});

test('an empty log is not signed', () => {
  expect(rig().turn('desk.sign', true)).toBe('the log is empty');
});

test('the order is on the desk once it is read; cards lie out or locked', () => {
  const r = rig({ order: 'PASS NR 14 TO QV7K' });
  expect(r.see('desk.orderText')).toBe('not read');
  expect(r.do('desk.order', true).see('desk.orderText')).toBe('PASS NR 14 TO QV7K');
  expect(r.see('desk.cardsState')).toBe('out');
  expect(r.do('desk.cards', true).see('desk.cardsState')).toBe('locked');
});

test('handing over ends the drill', () => {
  expect(rig().do('desk.handover', true).ended).toBe('handed over');
});
