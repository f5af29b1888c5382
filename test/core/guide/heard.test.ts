import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findWords, tokens } from '../../../src/core/guide/heard.ts';

describe('what is heard', () => {
  it('reads spelled and written call signs alike', () => {
    expect(tokens('QUEBEC VICTOR SEVEN KILO')).toBe('Q V 7 K');
    expect(tokens('QV7K')).toBe('Q V 7 K');
  });

  it('finds words in order, skips with * inside one utterance, remembers names', () => {
    const heard = 'QUEBEC VICTOR FOUR MIKE THIS IS QUEBEC VICTOR SEVEN KILO AUTHENTICATE KILO MIKE OVER';
    expect(findWords('QV4M THIS IS QV7K * AUTHENTICATE <row> <column> OVER', heard)).toEqual({ row: 'K', column: 'M' });
    expect(findWords('QV7K * SEND', 'QV7K THIS | PLEASE SEND')).toBeUndefined();
    expect(findWords('QV7K * SEND', 'QV7K PLEASE SEND OVER')).toEqual({});
  });

  it('does not take a part of a word for a word', () => {
    expect(findWords('OVER', 'OVERHEAD')).toBeUndefined();
  });

  it('takes an author’s signs as text, not as a program', () => {
    expect(findWords('(A+)+$ <x>', 'AAAAAAAAAAAAAAAAAAAAAAAAAAAA!')).toBeUndefined();
  });

  it('takes a name twice for the same word twice, and names with hyphens as a check does', () => {
    expect(findWords('<x> <x>', 'ALFA BRAVO BRAVO')).toEqual({ x: 'B' });
    expect(findWords('<x> <x>', 'ALFA BRAVO')).toBeUndefined();
    expect(findWords('AUTHENTICATE <my-row> <my_column>', 'AUTHENTICATE KILO MIKE')).toEqual({
      'my-row': 'K',
      my_column: 'M',
    });
  });

  it('never throws, whatever the pattern', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'<>x-1 *{}()[]|\\.A$'), maxLength: 30 }), (pattern) => {
        findWords(pattern, 'ALFA BRAVO');
      }),
      { seed: 51, numRuns: 500 },
    );
  });
});
