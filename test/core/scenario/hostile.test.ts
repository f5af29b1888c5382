import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../../src/core/scenario/scenario.ts';
import { kinds, SAMPLE } from './sample.ts';

/** First error of a text that must be refused. */
function refused(text: string): { code: string; line: number; col: number } {
  const read = readScenario(text, kinds, 'hostile.yaml');
  if (read.ok) throw new RangeError('was read');
  expect(read.errors.length).toBeLessThanOrEqual(50);
  for (const e of read.errors) expect(e.source.length).toBeLessThanOrEqual(160);
  const { code, line, col } = read.errors[0] as (typeof read.errors)[0];
  return { code, line, col };
}

const bomb = `a: &a [x,x,x,x,x,x,x,x,x,x]\n${'bcdefgh'
  .split('')
  .map((c, i) => `${c}: &${c} [${Array(4).fill(`*${'abcdefg'[i]}`).join(',')}]`)
  .join('\n')}`;

describe('text that is not a scenario', () => {
  it.each([
    ['nothing', '', 'wrong-type', 1, 1],
    ['a word', 'hello', 'wrong-type', 1, 1],
    ['a null character', '\u0000', 'wrong-type', 1, 1],
    ['ten megabytes', 'a: b\n'.repeat(2_000_000), 'too-large', 1, 1],
    ['an open bracket', 'a: [1, 2', 'bad-yaml', 1, 9],
    ['an open quote', 'a: "b', 'bad-yaml', 1, 6],
    ['tabs before a line', 'a:\n\tb: 1', 'bad-yaml', 2, 1],
    ['a key twice', 'a: 1\na: 2', 'duplicate-key', 2, 1],
    ['two documents', '--- 1\n--- 2', 'bad-yaml', 2, 1],
    ['a tag', 'a: !foo 1', 'bad-yaml', 1, 4],
    ['a directive', '%YAML 1.1\n---\na: 1', 'bad-yaml', 1, 1],
    ['a map as key', '? [1, 2]\n: 3', 'bad-key', 1, 3],
    ['the name of all prototypes as key', '__proto__: 1', 'bad-key', 1, 1],
    ['a number without end', 'a: .inf', 'bad-number', 1, 4],
    ['an alias of nothing', 'a: *b', 'bad-yaml', 1, 4],
    ['an alias within itself', 'a: &a [*a]', 'cyclic-alias', 1, 8],
    ['an alias within itself, further down', 'a: &a { b: { c: *a } }', 'cyclic-alias', 1, 17],
    ['many aliases', `a: &a 1\nb: [${Array(33).fill('*a').join(', ')}]`, 'too-many-aliases', 2, 133],
    ['an alias bomb', bomb, 'too-many-values', 1, 20],
    ['brackets in brackets', '['.repeat(1_000_000), 'too-deep', 1, 25],
    ['lists in lists', '- '.repeat(500_000), 'too-deep', 1, 49],
    ['keys in keys', '? '.repeat(500_000), 'too-deep', 1, 49],
    ['braces that close', `a: ${'{b: '.repeat(30)}1${'}'.repeat(30)}`, 'too-deep', 1, 96],
    ['keys without end', Array.from({ length: 100_000 }, (_, i) => `k${i}: 1`).join('\n'), 'too-many-values', 20001, 1],
    ['anchors without end', '&a '.repeat(300_000), 'too-many-values', 1, 150_001],
    ['commas without end', `[${','.repeat(1_000_000)}`, 'too-many-values', 1, 100_001],
  ])('%s', (_, text, code, line, col) => {
    expect(refused(text)).toEqual({ code, line, col });
  });
  it('a comment of a megabyte is nothing', () => {
    expect(refused('#'.repeat(1_000_000)).code).toBe('wrong-type');
  });
  it('every truncation of a good one is refused and never throws', () => {
    for (let n = 0; n < SAMPLE.length - 200; n += 97) refused(SAMPLE.slice(0, n));
  });
  it('any text at all is read or refused, never thrown', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'ab:- \n[]{}&*!|>\'"#%,?\t0.~$\\'), maxLength: 80 }), (text) => {
        expect(readScenario(text, kinds, 'x').ok).toBe(false);
      }),
      { seed: 31, numRuns: 400 },
    );
  });
  it('a good one with one character changed is read or refused, never thrown', () => {
    fc.assert(
      fc.property(fc.nat(SAMPLE.length - 1), fc.constantFrom(...':-"[]{}&*!\t\n0a$'), (at, c) => {
        const read = readScenario(SAMPLE.slice(0, at) + c + SAMPLE.slice(at + 1), kinds, 'sample.yaml');
        if (!read.ok) expect(read.errors.length).toBeGreaterThan(0);
      }),
      { seed: 32, numRuns: 150 },
    );
  });
});
