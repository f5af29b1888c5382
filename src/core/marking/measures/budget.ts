/** Time spent. */

import { lasting } from '../../quantity/time-text.ts';
import { type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import { list, number } from '../../record/shape.ts';
import { measure, notExercised } from '../measure.ts';

/** All of `what` held for at most so many seconds in sum. */
export const budget = measure({
  id: 'budget',
  about: 'Quantities stand so for at most so long in all.',
  entries: { what: list(quantityTest, 20, 1), seconds: number(0, 86_400) },
  judge({ what, seconds }, evidence) {
    const spans = evidence.spans(what as QuantityTest[]);
    const sum_us = spans.reduce((sum, span) => sum + span.to.t - span.from.t, 0);
    if (sum_us === 0) return notExercised('it never stood so');
    const longest = spans.slice().sort((a, b) => b.to.t - b.from.t - (a.to.t - a.from.t) || a.from.i - b.from.i);
    return {
      exercised: true,
      go: sum_us <= Math.round(seconds * 1e6),
      value: spans.length > 1 ? `${lasting(sum_us)} in all` : lasting(sum_us),
      because: longest.slice(0, 10).map((span) => span.from.i),
    };
  },
});
