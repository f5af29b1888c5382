import { expect, test } from 'vitest';
import { append, type DrillRecord, type LineBody, RECORD_VERSION } from '../../../src/core/record/record.ts';
import { didSince, heardSince, printedSince } from '../../../src/core/record/since.ts';

const header = {
  'keydown-record': RECORD_VERSION,
  engine: '',
  name: '',
  scenario: '',
  seed: 1,
  manner: 'shown',
  stretch: 1,
};
const record = { header, lines: [] } as DrillRecord;
const bodies: [number, LineBody][] = [
  [1, { k: 'do', n: 1, control: 'desk.log', value: 'EARLY' }],
  [2, { k: 'do', n: 2, control: 'desk.log', value: 'ONE' }],
  [2, { k: 'log', utc: '10 00', text: 'ONE' }],
  [3, { k: 'do', n: 3, control: 'desk.log', value: 'REFUSED' }],
  [3, { k: 'value', q: 'feed.bus_V', v: 24 }],
  [3, { k: 'refused', control: 'desk.log', value: 'REFUSED', why: 'the log is signed' }],
  [4, { k: 'do', n: 4, control: 'hand.say', value: 'OUT' }],
  [5, { k: 'heard', words: 'QV4M', by: 'voice', from_us: 4 }],
  [6, { k: 'print', at: 'own', code: 8, c: '\r' }],
  [6, { k: 'print', at: 'QV7K', code: 1, c: 'X' }],
  [6, { k: 'print', at: 'own', code: 1, c: 'E' }],
  [7, { k: 'heard', words: 'OVER', by: 'voice', from_us: 6 }],
  [8, { k: 'do', n: 5, control: 'desk.log', value: 'LAST' }],
];
for (const [t, body] of bodies) append(record, t, body);

test('what was done since then, in order, and nothing that was refused', () => {
  expect(didSince(record, 'desk.log', 1)).toEqual(['ONE', 'LAST']);
  expect(didSince(record, 'desk.log', 2)).toEqual(['LAST']);
  expect(didSince(record, 'hand.say', 0)).toEqual(['OUT']);
  expect(didSince(record, 'hand.key', 0)).toEqual([]);
});

test('what was heard and printed since then, by the own station', () => {
  expect(heardSince(record, 0)).toBe('QV4M | OVER');
  expect(heardSince(record, 5)).toBe('OVER');
  expect(printedSince(record, 0)).toBe('E');
});
