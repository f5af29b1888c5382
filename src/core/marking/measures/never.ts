/** What must not happen. */
import * as v from 'valibot';
import { matches } from '../../record/pattern.ts';
import { pattern, type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { list } from '../../record/shape.ts';
import { measure, notExercised } from '../measure.ts';

/**
 * No line matches `what` (while all of `while` hold, if given; save those that match `unless`). It is exercised only if
 * there was occasion: a line that matches `given`, else a while that held, else any act of the operator.
 */
export const never = measure({
  id: 'never',
  about: 'Something never happens, or never while quantities stand so.',
  entries: {
    what: pattern,
    while: v.optional(list(quantityTest, 20, 1)),
    unless: v.optional(pattern),
    given: v.optional(pattern),
  },
  judge({ what, while: during, unless, given }, evidence) {
    const tests = during as QuantityTest[] | undefined;
    const stood = (line: Line): boolean => evidence.stoodAt(tests ?? [], line);
    const bad = evidence.all(what).filter((line) => stood(line) && !(unless && matches(line, unless)));
    if (bad.length > 0) {
      const value = bad.length === 1 ? 'once' : `${bad.length} times`;
      return { exercised: true, go: false, value, because: bad.slice(0, 20).map((l) => l.i) };
    }
    const occasion = given
      ? evidence.first(given)
      : tests
        ? evidence.spans(tests)[0]?.from
        : evidence.first({ k: 'do' });
    if (!occasion) return notExercised('no occasion for it');
    return { exercised: true, go: true, value: 'never', because: [occasion.i] };
  },
});
