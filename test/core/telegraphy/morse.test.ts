import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  dot_us,
  MORSE,
  morseChar,
  morseEdges,
  morseSign,
  morseText,
  morseUnits,
} from '../../../src/core/telegraphy/morse.ts';
import { measureHand } from '../../../src/core/telegraphy/morse-hand.ts';
import { morseReader, morseRun, morseTiming, readKeying } from '../../../src/core/telegraphy/morse-reader.ts';

test('the table of ITU-R M.1677-1 (letters and figures)', () => {
  const table =
    'A.- B-... C-.-. D-.. E. F..-. G--. H.... I.. J.--- K-.- L.-.. M-- N-. O--- P.--. Q--.- R.-. S... T- U..- V...- W.-- X-..- Y-.-- Z--.. 1.---- 2..--- 3...-- 4....- 5..... 6-.... 7--... 8---.. 9----. 0-----';
  for (const row of table.split(' ')) {
    expect(MORSE[row[0]!]).toBe(row.slice(1));
    expect(morseChar(row.slice(1))).toBe(row[0]);
  }
  expect(new Set(Object.values(MORSE)).size).toBe(Object.keys(MORSE).length);
});

test('procedure signs (M.1677-1 §1.1.3): starting, wait, understood, end of work, error; + and = are AR and BT', () => {
  expect(['<CT>', '<AS>', '<SN>', '<SK>', '<ERR>'].map(morseSign)).toEqual([
    '-.-.-',
    '.-...',
    '...-.',
    '...-.-',
    '........',
  ]);
  expect(morseSign('<AR>')).toBe(morseSign('+'));
  expect(morseSign('<BT>')).toBe(morseSign('='));
  expect(morseSign('<IMI>')).toBe(morseSign('?'));
  expect(morseChar('........')).toBe('<ERR>');
  expect(morseChar('.-.-..-')).toBe('*');
});

test('PARIS is 50 dots and CODEX 60 with the word gap; 20 wpm is a dot of 60 ms, 24 wpm 20 Bd', () => {
  expect(morseUnits('PARIS') + 7).toBe(50);
  expect(morseUnits('CODEX') + 7).toBe(60);
  expect(dot_us(20)).toBe(60_000);
  expect(1e6 / dot_us(24)).toBe(20);
  expect(morseEdges('PARIS PARIS', 0, 20).end_us).toBe((50 + 43) * 60_000);
  expect(() => dot_us(0)).toThrow(RangeError);
});

test('a character Morse lacks is listed', () => {
  expect(morseText('A#B').errors).toEqual([{ code: 'no-such-character', at: 1, char: '#' }]);
});

test('machine sending reads back at 5 to 30 wpm without being told the speed', () => {
  const word = fc.string({ unit: fc.constantFrom(...Object.keys(MORSE)), minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(fc.array(word, { minLength: 2, maxLength: 6 }), fc.integer({ min: 5, max: 30 }), (words, wpm) => {
      const text = `VVV ${words.join(' ')}`;
      expect(readKeying(morseEdges(text, 1000, wpm).edges)).toBe(text);
    }),
    { seed: 4, numRuns: 200 },
  );
});

// A fixed spread of -1..1 that looks unordered, from the fractional parts of multiples of the golden ratio.
const spread = (i: number) => 2 * ((i * 0.6180339887498949) % 1) - 1;
const TEXT = 'QV4M DE QV7K K QV7K DE QV4M R MSG NR 12 GR 25 = WHARF LIGHT OUT SEND LAMP = <SK>';

test('a hand whose lengths wander by 25 % is still read', () => {
  const clean = morseEdges(TEXT, 0, 14).edges;
  let shift = 0;
  const edges = clean.map((e, i) => {
    const length = e.t_us - (clean[i - 1]?.t_us ?? 0);
    shift += length * 0.25 * spread(i);
    return { t_us: Math.round(e.t_us + shift), down: e.down };
  });
  expect(readKeying(edges)).toBe(TEXT);
});

test('a hand that slows from 18 to 11 wpm is followed', () => {
  const clean = morseEdges(TEXT, 0, 18).edges;
  const end = clean.at(-1)!.t_us;
  const edges = clean.map((e) => ({ t_us: Math.round(e.t_us * (1 + (0.35 * e.t_us) / end)), down: e.down }));
  expect(readKeying(edges)).toBe(TEXT);
});

test('reading in pieces equals reading at once, and the state is plain JSON', () => {
  const { edges, end_us } = morseEdges(TEXT, 1, 15);
  let state = morseReader(15);
  let text = '';
  for (let t = 0; t < end_us + 2e6; t += 70_001) {
    const out = morseRun(JSON.parse(JSON.stringify(state)), edges, t);
    state = out.state;
    text += out.read.map((r) => r.text).join('');
  }
  expect(text.trim()).toBe(TEXT);
  expect(morseTiming(state).dot_us).toBeCloseTo(80_000, -2);
});

test('a machine measures as M.1677-1: dash 3, gaps 1, 3, 7, no spread', () => {
  const hand = measureHand(morseEdges(TEXT, 0, 16).edges)!;
  expect(hand.wpm).toBeCloseTo(16, 2);
  expect(hand.dash.dots).toBeCloseTo(3, 3);
  expect(hand.elementGap.dots).toBeCloseTo(1, 3);
  expect(hand.letterGap.dots).toBeCloseTo(3, 3);
  expect(hand.wordGap.dots).toBeCloseTo(7, 3);
  expect(hand.dot.spread).toBeLessThan(1e-3);
});

test('a hand with long dashes and wide letter gaps is measured as sent', () => {
  const hand = measureHand(morseEdges(TEXT, 0, 12, { dash: 4, letter: 4, word: 10 }).edges)!;
  expect(hand.dash.dots).toBeCloseTo(4, 3);
  expect(hand.letterGap.dots).toBeCloseTo(4, 3);
  expect(hand.wordGap.dots).toBeCloseTo(10, 3);
  expect(measureHand([])).toBeNull();
});
