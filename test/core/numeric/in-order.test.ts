/** Pairs in order, against the longest common subsequence found by trying every choice. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inOrder } from '../../../src/core/numeric/in-order.ts';

const isWithin = (part: readonly string[], whole: readonly string[]): boolean => {
  let at = 0;
  for (const c of whole) if (c === part[at]) at++;
  return at === part.length;
};

/** The length of the longest common subsequence, by trying all of them. */
function longest(a: readonly string[], b: readonly string[]): number {
  let most = 0;
  for (let chosen = 0; chosen < 2 ** a.length; chosen++) {
    const part = a.filter((_, i) => chosen & (1 << i));
    if (part.length > most && isWithin(part, b)) most = part.length;
  }
  return most;
}

const letters = fc.array(fc.constantFrom('a', 'b', 'c'), { maxLength: 8 });

describe('pairs in order', () => {
  it('are as many as can be, both rising, each of things that are worth it', () => {
    fc.assert(
      fc.property(letters, letters, (a, b) => {
        const pairs = [...inOrder(a.length, b.length, (i, j) => (a[i] === b[j] ? 1 : 0))];
        expect(pairs.length).toBe(longest(a, b));
        for (const [n, [i, j]] of pairs.entries()) {
          expect(a[i]).toBe(b[j]);
          if (n > 0) expect(i > pairs[n - 1]![0] && j > pairs[n - 1]![1]).toBe(true);
        }
      }),
    );
  });
  it('take what is worth most, and of equals the earliest', () => {
    const worth = [
      [0.6, 0, 1],
      [0, 0.5, 0],
    ];
    expect([...inOrder(2, 3, (i, j) => worth[i]![j]!)]).toEqual([
      [0, 0],
      [1, 1],
    ]);
    expect([...inOrder(1, 3, () => 1)]).toEqual([[0, 0]]);
    expect([...inOrder(0, 3, () => 1)]).toEqual([]);
  });
});
