/** Whether a test in a scenario can ever hold of what a control can be set to, or of what an indicator or quantity shows. */
import type { Range } from '../record/range.ts';
import { canShow, type Shows, showsText } from '../record/shows.ts';
import type { Json } from '../signals.ts';
import type { Test } from './scenario.ts';
import { misfitOf } from './settings.ts';

/** A test, perhaps with the `near` of a quantity's. */
export type Comparable = Test & { near?: number };
/** Values that a thing takes: in words, one by one, the bounds if they are numbers, whether they are texts. */
export type Takes = {
  says: string;
  fits(value: Json): boolean;
  bounds?: { min: number; max: number };
  isText: boolean;
};
/** What is wrong with a test: `at` leads from the test to it. */
export type TestFault = { at: (string | number)[]; expected: string; key?: true };

const TEST_KEYS = ['is', 'not', 'above', 'below', 'in', 'like'];
/** Whether plain data is a test rather than a value. */
export const isTest = (x: Json): x is { [key: string]: Json } & Comparable =>
  typeof x === 'object' && x !== null && Object.keys(x).some((key) => TEST_KEYS.includes(key));

const UNBOUNDED = { min: Number.NEGATIVE_INFINITY, max: Number.POSITIVE_INFINITY };

/** What a control takes. */
export const controlTakes = (range: Range): Takes => ({
  // Nothing can be set to null, so the answer is what can be.
  says: misfitOf(range, null) ?? '',
  fits: (value) => misfitOf(range, value) === undefined,
  ...(range.kind === 'number' ? { bounds: range } : {}),
  isText: range.kind === 'words' || range.kind === 'text',
});

/** What an indicator or a quantity shows. */
export const shownTakes = (shows: Shows): Takes => ({
  says: showsText(shows),
  fits: (value) => canShow(shows, value),
  ...(shows === 'number' ? { bounds: UNBOUNDED } : {}),
  isText: shows === 'text' || typeof shows !== 'string',
});

/** Every part of a test that can never hold, or always does. */
export function testFaults({ says, fits, bounds, isText }: Takes, test: Comparable): TestFault[] {
  const found: TestFault[] = [];
  for (const key of ['is', 'not'] as const) {
    const value = test[key];
    if (value !== undefined && !fits(value)) found.push({ at: [key], expected: says });
  }
  for (const [i, value] of (test.in ?? []).entries()) if (!fits(value)) found.push({ at: ['in', i], expected: says });
  const cannot = (key: keyof Comparable) =>
    test[key] !== undefined && found.push({ at: [key], expected: `is, not or in, with ${says}`, key: true });
  if (!isText) cannot('like');
  if (!bounds) {
    for (const key of ['above', 'below', 'near'] as const) cannot(key);
    return found;
  }
  const { above, below } = test;
  if (above !== undefined && above >= bounds.max)
    found.push({ at: ['above'], expected: `a number below ${bounds.max}` });
  const least = Math.max(bounds.min, above ?? bounds.min);
  if (below !== undefined && below <= least) found.push({ at: ['below'], expected: `a number above ${least}` });
  return found;
}
