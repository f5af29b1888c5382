import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FIGURE_WORDS, spell, unspell } from '../../../src/core/telegraphy/alphabet.ts';

test('the words of ITU Radio Regulations Appendix 14', () => {
  expect(spell('ABCDEFGHIJKLMNOPQRSTUVWXYZ').join(' ')).toBe(
    'ALFA BRAVO CHARLIE DELTA ECHO FOXTROT GOLF HOTEL INDIA JULIETT KILO LIMA MIKE NOVEMBER OSCAR PAPA QUEBEC ROMEO SIERRA TANGO UNIFORM VICTOR WHISKEY X-RAY YANKEE ZULU',
  );
  expect(spell('09', 'ITU')).toEqual(['NADAZERO', 'NOVENINE']);
});

test('a call sign there and back', () => {
  expect(spell('QV4M')).toEqual(['QUEBEC', 'VICTOR', 'FOUR', 'MIKE']);
  expect(unspell(['QUEBEC', 'VICTOR', 'FOUR', 'MIKE'])).toBe('QV4M');
});

test('other spellings and sounds are understood, a strange word is not', () => {
  expect(unspell(['alpha', 'Juliet', 'XRAY', 'fow-er', 'NINER', 'tree'])).toBe('AJX493');
  expect(unspell(['ALFA', 'BANANA'])).toBeNull();
});

test('what is spelled is unspelled in every set of figures', () => {
  const sets = Object.keys(FIGURE_WORDS) as (keyof typeof FIGURE_WORDS)[];
  fc.assert(
    fc.property(fc.stringMatching(/^[A-Z0-9]{0,12}$/), fc.constantFrom(...sets), (text, set) => {
      expect(unspell(spell(text, set))).toBe(text);
    }),
    { seed: 5 },
  );
});
