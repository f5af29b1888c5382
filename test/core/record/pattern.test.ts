import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fits, matches, meets } from '../../../src/core/record/pattern.ts';
import type { Line } from '../../../src/core/record/record.ts';

describe('like', () => {
  it.each([
    ['CALLED QV7K ON 4718', '*CALL*QV7K*', true],
    ['called  qv7k', 'CALLED QV7K', true],
    ['CALLED QV7K', 'CALLED', false],
    ['', '*', true],
    ['', '', true],
    ['A', '', false],
    ['A.C', 'A*C', true],
    ['ABC', 'A.C', false],
    ['ABAB', '*AB', true],
    ['ABABC', '*AB', false],
    ['THIS IS QUEBEC OVER', '*THIS IS*OVER', true],
  ])('%j fits %j: %s', (text, glob, yes) => {
    expect(fits(text, glob)).toBe(yes);
  });
  it('agrees with a regular expression', () => {
    const piece = fc.string({ unit: fc.constantFrom('A', 'B', '*'), maxLength: 8 });
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('A', 'B'), maxLength: 10 }), piece, (text, glob) => {
        expect(fits(text, glob)).toBe(new RegExp(`^${glob.replaceAll('*', '.*')}$`).test(text));
      }),
      { seed: 71, numRuns: 1000 },
    );
  });
  it('many stars do not run away', () => {
    expect(fits('A'.repeat(2000), `${'*A'.repeat(200)}*B`)).toBe(false);
  });
});

describe('tests and patterns', () => {
  const line: Line = { t: 5, i: 2, k: 'far', station: 'QV7K', what: 'asked', detail: { part: 'SAND QUAY', n: 3 } };
  it('every part must hold', () => {
    expect(meets(5, { above: 4, below: 6 })).toBe(true);
    expect(meets(4, { above: 4 })).toBe(false);
    expect(meets('5', { above: 4 })).toBe(false);
    expect(meets(undefined, { not: 1 })).toBe(false);
    expect(meets('A3E', { in: ['F1B', 'A3E'] })).toBe(true);
    expect(meets(false, { not: true })).toBe(true);
  });
  it('every field must match, and detail can be reached', () => {
    expect(matches(line, { k: 'far', station: 'QV7K' })).toBe(true);
    expect(matches(line, { k: 'far', station: { not: 'QV7K' } })).toBe(false);
    expect(matches(line, { k: 'far', 'detail.part': { like: 'sand*' }, 'detail.n': 3 })).toBe(true);
    expect(matches(line, { k: 'far', 'detail.q': 3 })).toBe(false);
    expect(matches(line, { k: 'do' })).toBe(false);
    expect(matches(line, { constructor: { not: 1 } })).toBe(false);
  });
});
