import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  frequencyText,
  grouped,
  lasting,
  overLimit,
  times,
  utcAt,
  utcText,
} from '../../../src/core/quantity/time-text.ts';

describe('times and numbers as the trade writes them', () => {
  it('time of day wraps at midnight', () => {
    expect(utcText(86_399, 2e6)).toBe('00 00 01');
    expect(utcAt('23:59:30', 45e6)).toBe('00 00 15');
  });
  it('lengths', () => {
    expect([0, 5_810_000, 59_940_000, 59_960_000, 354_700_000].map(lasting)).toEqual([
      '0.0 s',
      '5.8 s',
      '59.9 s',
      '59.9 s',
      '5 min 54 s',
    ]);
    // From 09 40 00 to what the clock shows then.
    expect([lasting(354_700_000), utcAt('09:40:00', 354_700_000)]).toEqual(['5 min 54 s', '09 45 54']);
  });
  it('a length over a limit never reads as the limit, and is a clock length with its tenths', () => {
    expect([180_400_000, 180_000_001, 20_030_000, 59_960_000, 31_000_000].map(overLimit)).toEqual([
      '3 min 00.4 s',
      '3 min 00.1 s',
      '20.1 s',
      '1 min 00.0 s',
      '31.0 s',
    ]);
    const us = fc.integer({ min: 1, max: 6e9 });
    const read = (text: string) => Array.from(text.matchAll(/[\d.]+/g), Number).reduce((sum, n) => sum * 60 + n, 0);
    fc.assert(
      fc.property(us, (over) => read(overLimit(over)) * 1e6 >= over - 1e-3 && read(lasting(over)) * 1e6 <= over + 1e-3),
      { seed: 1 },
    );
  });
  it('numbers lose nothing but the spaces', () => {
    expect([999, 4718, 4718035, -12345.25].map(grouped)).toEqual(['999', '4 718', '4 718 035', '-12 345.25']);
    const any = fc.double({ min: -1e12, max: 1e12, noNaN: true }).filter((n) => !String(n).includes('e'));
    fc.assert(
      fc.property(any, (n) => Object.is(Number(grouped(n).replaceAll(' ', '')), Number(String(n)))),
      { seed: 1 },
    );
  });
  it('frequencies and counts', () => {
    expect([35, 4_718_035, 12_345].map(frequencyText)).toEqual(['35 Hz', '4 718.035 kHz', '12.345 kHz']);
    expect([1, 2, 3].map(times)).toEqual(['once', 'twice', '3 times']);
  });
});
