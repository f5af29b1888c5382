/** The recognition card. Challenge and reply by table: common practice; the card is ours. */
import { describe, expect, it } from 'vitest';
import { challengeFrom, replyFor } from '../../../src/core/procedure/recognition.ts';

const card = {
  rows: 'AB',
  columns: 'MNP',
  cells: [
    ['QX', 'RT', 'ZZ'],
    ['KL', 'VD', 'EW'],
  ],
};

describe('a card', () => {
  it('gives the cell of row and column, spelled or not', () => {
    expect(replyFor(card, 'B', 'N')).toBe('VD');
    expect(replyFor(card, 'BRAVO', 'NOVEMBER')).toBe('VD');
    expect(replyFor(card, 'A', 'P')).toBe('ZZ');
  });

  it('has nothing for what is not on it', () => {
    expect(replyFor(card, 'M', 'A')).toBeNull();
    expect(replyFor(card, 'A', '')).toBeNull();
    expect(replyFor(card, '', 'M')).toBeNull();
    expect(replyFor(card, 'AB', 'MN')).toBeNull();
    expect(replyFor(null, 'A', 'M')).toBeNull();
  });

  it('challenges by two throws, every cell reachable', () => {
    const seen = new Set<string>();
    for (let a = 0; a < 2; a++)
      for (let b = 0; b < 3; b++) {
        const throws = [a, b];
        const { row, column } = challengeFrom(card, (n) => Math.min(n - 1, throws.shift()!));
        seen.add(row + column);
        expect(replyFor(card, row, column)).not.toBeNull();
      }
    expect(seen.size).toBe(6);
  });

  it('without cells cannot challenge', () => {
    expect(() => challengeFrom(null, () => 0)).toThrow(RangeError);
    expect(() => challengeFrom({ rows: '', columns: 'M', cells: [] }, () => 0)).toThrow(RangeError);
  });
});
