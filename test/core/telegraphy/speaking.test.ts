import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mentions } from '../../../src/core/procedure/transmission.ts';
import { isCallSign, spokenWords } from '../../../src/core/telegraphy/speaking.ts';

test('a call sign that was written is said letter by letter, words of the spelling alphabet (RR Appendix 14)', () => {
  expect(spokenWords('qv7k, this is QV4M over')).toEqual(
    'QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR FOUR MIKE OVER'.split(' '),
  );
});

test('written or spelled, a call sign takes as long and is the same to a listener', () => {
  const call = fc.stringMatching(/^[A-Z]{2}[0-9][A-Z]{1,3}$/);
  fc.assert(
    fc.property(call, (sign) => {
      const said = spokenWords(sign);
      expect(spokenWords(said.join(' '))).toEqual(said);
      expect(said).toHaveLength(sign.length);
      expect(mentions(said.join(' '), sign)).toBe(true);
    }),
    { seed: 11, numRuns: 200 },
  );
});

test('figures and words alone are no call sign; dashes are not said', () => {
  expect(['4718', 'OVER', 'A1', 'X-RAY', 'AUTHENTICATE'].filter(isCallSign)).toEqual([]);
  expect(spokenWords(' – I have  one – ')).toEqual(['I', 'HAVE', 'ONE']);
  expect(spokenWords('–')).toEqual([]);
});
