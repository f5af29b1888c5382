import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  BLANK,
  CR,
  codeOf,
  decode,
  encode,
  FIGS,
  isFunction,
  LF,
  LTRS,
  nameOf,
  printCode,
  SPACE,
  unitsOf,
} from '../../../src/core/telegraphy/ita2.ts';

// ITU-T S.1 in the order of its numbers 1..32; units 1 to 5 as holes, compared with two independently published tables.
const S1 =
  'A11000 B10011 C01110 D10010 E10000 F10110 G01011 H00101 I01100 J11010 K11110 L01001 M00111 N00110 O00011 P01101 Q11101 R01010 S10100 T00001 U11100 V01111 W11001 X10111 Y10101 Z10001'.split(
    ' ',
  );
const holes = (code: number) =>
  unitsOf(code)
    .map((m) => (m ? '1' : '0'))
    .join('');

test('every letter has the units of ITU-T S.1', () => {
  for (const row of S1) expect(holes(codeOf(row[0]!, 'letters')!)).toBe(row.slice(1));
});

test('functions have the units of ITU-T S.1, numbers 27 to 32', () => {
  expect([CR, LF, LTRS, FIGS, SPACE, BLANK].map(holes)).toEqual(['00010', '01000', '11111', '11011', '00100', '00000']);
});

test('figures of S.1 stand on their letters, and F G H are left free', () => {
  const pairs = "A- B? C: E3 I8 K( L) M. N, O9 P0 Q1 R4 S' T5 U7 V= W2 X/ Y6 Z+".split(' ');
  for (const [letter, figure] of pairs as unknown as [string, string][])
    expect(codeOf(figure, 'figures')).toBe(codeOf(letter, 'letters'));
  for (const letter of 'FGH') expect(nameOf(codeOf(letter, 'letters')!, 'figures')).toBe('–');
  expect(nameOf(codeOf('D', 'letters')!, 'figures')).toBe('WRU');
  expect(nameOf(codeOf('J', 'letters')!, 'figures')).toBe('BELL');
});

test('the US variant differs in D F G H J S V Z only', () => {
  const differing = S1.map((r) => r[0]!).filter((l) => {
    const code = codeOf(l, 'letters')!;
    return nameOf(code, 'figures') !== nameOf(code, 'figures', 'US');
  });
  expect(differing.join('')).toBe('DFGHJSVZ');
  expect(nameOf(codeOf('S', 'letters')!, 'figures', 'US')).toBe('BELL');
});

test('the top row received in the wrong case is the row of figures (from the table of S.1)', () => {
  const letters = encode('QWERTYUIOP').codes.slice(1);
  expect(decode([FIGS, ...letters]).text).toBe('1234567890');
});

test('R and Y alternate every unit: RY is the reversals test', () => {
  expect(holes(codeOf('R', 'letters')!) + holes(codeOf('Y', 'letters')!)).toBe('0101010101');
});

test('the seven codes of a telegram line: shifts only where the case changes', () => {
  const names = encode('A1 2B\n').codes.map((c) => nameOf(c, 'letters'));
  expect(names).toEqual(['LTRS', 'A', 'FIGS', 'Q', 'SPACE', 'W', 'LTRS', 'B', 'CR', 'LF']);
});

test('with unshift on space a figure after a space is shifted again, and reads back', () => {
  const { codes } = encode('1 2', { unshiftOnSpace: true });
  expect(codes.filter((c) => c === FIGS)).toHaveLength(2);
  expect(decode(codes, { unshiftOnSpace: true }).text).toBe('1 2');
});

test('unshift on space heals a lost LTRS at the next space, without it the rest is figures', () => {
  const damaged = [FIGS, ...encode('QW ER', {}, { case: 'letters' }).codes];
  expect(decode(damaged, { unshiftOnSpace: true }).text).toBe('12 ER');
  expect(decode(damaged).text).toBe('12 34');
});

test('characters the alphabet lacks are listed with their place', () => {
  const { errors, codes } = encode('A*B%');
  expect(errors).toEqual([
    { code: 'no-such-character', at: 1, char: '*' },
    { code: 'no-such-character', at: 3, char: '%' },
  ]);
  expect(decode(codes).text).toBe('AB');
});

test('what is encoded is decoded, in either set and with or without unshift', () => {
  const chars = (set: 'ITA2' | 'US') =>
    Array.from({ length: 128 }, (_, i) => String.fromCharCode(i)).filter(
      (c) =>
        c >= ' ' &&
        c === c.toUpperCase() &&
        (c === ' ' || codeOf(c, 'letters', set) !== null || codeOf(c, 'figures', set) !== null),
    );
  for (const figures of ['ITA2', 'US'] as const)
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...chars(figures), '\n')), fc.boolean(), (list, unshiftOnSpace) => {
        const options = { figures, unshiftOnSpace };
        const text = list.join('');
        expect(decode(encode(text, options).codes, options).text).toBe(text.replaceAll('\n', '\r\n'));
      }),
      { seed: 1 },
    );
});

test('blank prints nothing and keeps the case; codes outside five units throw', () => {
  expect(printCode(BLANK, { case: 'figures' })).toEqual({ char: null, state: { case: 'figures' } });
  expect([...Array(32).keys()].filter(isFunction)).toEqual([0, 2, 4, 8, 27, 31]);
  expect(() => unitsOf(32)).toThrow(RangeError);
});
