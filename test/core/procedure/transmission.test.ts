/** The grammar of a transmission. Rules: ACP 125 (from memory): called station first, THIS IS, caller, one of OVER and OUT. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROWORDS } from '../../../src/core/procedure/prowords.ts';
import { FORM_FAULTS, mentions, parseTransmission } from '../../../src/core/procedure/transmission.ts';
import { spell } from '../../../src/core/telegraphy/alphabet.ts';

const parse = (words: string) => parseTransmission(words, 'QV7K');
const LETTERS = Array.from('ABCDEFGHIJKLMNOPQRSTUVWXYZ');
const callSign = fc
  .tuple(
    fc.constantFrom(...LETTERS),
    fc.constantFrom(...LETTERS),
    fc.integer({ min: 0, max: 9 }),
    fc.constantFrom(...LETTERS),
  )
  .map((parts) => parts.join(''));

describe('call signs', () => {
  it('spelled or written, are the same', () => {
    fc.assert(
      fc.property(callSign, callSign, fc.constantFrom('OVER', 'OUT'), (to, from, end) => {
        const written = parseTransmission(`${to} THIS IS ${from} ${end}`);
        const spelled = parseTransmission(`${spell(to).join(' ')} THIS IS ${spell(from).join(' ')} ${end}`);
        expect(spelled).toEqual(written);
        expect(written).toMatchObject({ to, from, order: 'right', ending: end, faults: [] });
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  it('said twice over are one', () => {
    expect(parse('QV7K QV7K THIS IS QV4M QV4M OVER')).toMatchObject({ to: 'QV7K', from: 'QV4M', faults: [] });
    expect(parseTransmission('QV7K QV7K THIS IS QV4M QV4M OVER')).toMatchObject({ to: 'QV7K', from: 'QV4M' });
  });

  it('are taken with any set of figures', () => {
    expect(parse('QUEBEC VICTOR SETTESEVEN KILO THIS IS QUEBEC VICTOR FOW-ER MIKE OVER').from).toBe('QV4M');
  });

  it('stand before and after DE as well', () => {
    expect(parse('QV7K DE QV4M OVER')).toMatchObject({ to: 'QV7K', from: 'QV4M', order: 'right' });
  });

  it.each([
    ['QV4M THIS IS QV7K OVER', 'own-first'],
    ['THIS IS QV4M QV7K OVER', 'own-first'],
    ['QV7K QV4M OVER', 'missing'],
    ['QV7K OVER', 'missing'],
    ['THIS IS QV4M OVER', 'missing'],
    ['ROGER OVER', 'missing'],
  ])('%s: order %s', (words, order) => {
    expect(parse(words).order).toBe(order);
    expect(parse(words).faults).not.toEqual([]);
  });

  it('own sign first still tells who is who', () => {
    expect(parse('QV4M THIS IS QV7K OVER')).toMatchObject({ to: 'QV7K', from: 'QV4M', faults: ['own-call-first'] });
    expect(parse('THIS IS QV4M QV7K OVER')).toMatchObject({ to: 'QV7K', from: 'QV4M', faults: ['own-call-first'] });
  });

  it('do not swallow a count', () => {
    expect(parse('QV7K THIS IS QV4M ONE PRIORITY BY TELEPRINTER OVER').from).toBe('QV4M');
  });

  it('are found anywhere by one who listens for his own', () => {
    expect(mentions('HELLO QUEBEC VICTOR SEVEN KILO ARE YOU THERE', 'QV7K')).toBe(true);
    expect(mentions('HELLO QUEBEC VICTOR NINE KILO', 'QV7K')).toBe(false);
  });
});

describe('endings', () => {
  it.each([
    ['OVER', 'OVER', []],
    ['OUT', 'OUT', []],
    ['OVER AND OUT', 'both', ['over-and-out']],
    ['OVER OUT', 'both', ['over-and-out']],
    ['', 'none', ['no-ending']],
    ['ROGER OVER I WAIT OVER', 'OVER', ['ended-twice']],
  ])('"%s"', (end, ending, faults) => {
    expect(parse(`QV7K THIS IS QV4M ${end}`)).toMatchObject({ ending, faults });
  });
});

describe('what it wants', () => {
  const intents = (body: string) => parse(`QV7K THIS IS QV4M ${body} OVER`).intents;

  it.each([
    ['AUTHENTICATE CHARLIE PAPA', [{ kind: 'challenge', row: 'C', column: 'P' }]],
    ['AUTHENTICATE C P', [{ kind: 'challenge', row: 'C', column: 'P' }]],
    ['AUTHENTICATE CP', [{ kind: 'challenge', row: 'C', column: 'P' }]],
    ['I AUTHENTICATE INDIA ALFA', [{ kind: 'reply', reply: 'IA' }]],
    ['I AUTHENTICATE I A', [{ kind: 'reply', reply: 'IA' }]],
    ['I AUTHENTICATE ALFA', [{ kind: 'reply', reply: 'A' }]],
    [
      'I AUTHENTICATE A B AUTHENTICATE C D',
      [
        { kind: 'reply', reply: 'AB' },
        { kind: 'challenge', row: 'C', column: 'D' },
      ],
    ],
    ['I HAVE ONE PRIORITY BY TELEPRINTER', [{ kind: 'offer', precedence: 'PRIORITY', count: 1, by: 'teleprinter' }]],
    ['I HAVE TWO ROUTINE MESSAGES', [{ kind: 'offer', precedence: 'ROUTINE', count: 2, by: 'voice' }]],
    ['ONE IMMEDIATE BY MORSE', [{ kind: 'offer', precedence: 'IMMEDIATE', count: 1, by: 'morse' }]],
    ['SAY AGAIN', [{ kind: 'say-again' }]],
    ['I SAY AGAIN', []],
    ['RADIO CHECK', [{ kind: 'radio-check' }]],
    ['ROGER', [{ kind: 'roger' }]],
    ['WAIT', [{ kind: 'wait' }]],
    ['SEND', [{ kind: 'send' }]],
    ['', []],
  ])('"%s"', (body, wanted) => {
    expect(intents(body)).toEqual(wanted);
  });

  it('a challenge without row and column is a fault, and so is ROGER WILCO', () => {
    expect(parse('QV7K THIS IS QV4M AUTHENTICATE OVER').faults).toEqual(['challenge-unclear']);
    expect(parse('QV7K THIS IS QV4M ROGER WILCO OVER').faults).toEqual(['roger-and-wilco']);
  });

  it('lost words are a fault', () => {
    expect(parse('QV7K THIS IS QV4M I ... ONE PRIORITY OVER').faults).toEqual(['unreadable']);
  });

  it('prowords come in the order said, the longer before the shorter', () => {
    expect(parse('QV7K THIS IS QV4M I SAY AGAIN ALL AFTER QUAY I AUTHENTICATE A B WAIT OUT').prowords).toEqual([
      'THIS IS',
      'I SAY AGAIN',
      'ALL AFTER',
      'I AUTHENTICATE',
      'WAIT OUT',
    ]);
  });
});

describe('any words at all', () => {
  const word = fc.constantFrom(
    'QUEBEC',
    'SEVEN',
    'QV4M',
    'THIS',
    'IS',
    'OVER',
    'OUT',
    'I',
    'AUTHENTICATE',
    'A',
    '...',
    'PRIORITY',
    'X,',
    '',
  );
  it('are taken apart without a fall, and every fault has words', () => {
    fc.assert(
      fc.property(fc.array(word, { maxLength: 14 }), (words) => {
        const t = parse(words.join(' '));
        for (const fault of t.faults) expect(FORM_FAULTS[fault]).toBeTruthy();
        expect(t.order === 'right' ? t.to !== null && t.from !== null : t.faults.length > 0).toBe(true);
      }),
      { seed: 22, numRuns: 500 },
    );
  });

  it('no proword hides behind a shorter one', () => {
    for (const [i, { words }] of PROWORDS.entries())
      for (const before of PROWORDS.slice(0, i)) expect(`${words} `.startsWith(`${before.words} `)).toBe(false);
  });
});
