/** A state kept up for a while. */
import * as v from 'valibot';
import { lasting } from '../../quantity/time-text.ts';
import { momentText } from '../../record/moment.ts';
import { pattern, type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import { list, number } from '../../record/shape.ts';
import { measure, notExercised } from '../measure.ts';

/**
 * All of `while` held without a break during the last seconds before the first line that matches `before` (and at which
 * all of `during` stand, if given).
 */
export const lasted = measure({
  id: 'lasted',
  about: 'Quantities stood so without a break for a time before a moment.',
  entries: {
    while: list(quantityTest, 20, 1),
    seconds: number(0, 86_400),
    before: pattern,
    during: v.optional(list(quantityTest, 20, 1)),
  },
  judge({ while: tests, seconds, before, during }, evidence) {
    const moment = evidence.all(before).find((line) => evidence.stoodAt((during ?? []) as QuantityTest[], line));
    if (!moment) return notExercised(`the moment never came: ${momentText(evidence.names, before)}`);
    const spans = evidence.spans(tests as QuantityTest[], evidence.lines.slice(0, moment.i));
    const last = spans[spans.length - 1];
    // What the moment itself ends (a receiver goes deaf as the sender comes up) is written at the same instant, before it.
    const open = last !== undefined && last.to.t === moment.t;
    const held_us = open ? moment.t - last.from.t : 0;
    const because = last ? [moment.i, last.from.i, last.to.i] : [moment.i];
    return {
      exercised: true,
      go: held_us >= Math.round(seconds * 1e6),
      value: held_us > 0 ? lasting(held_us) : 'not at all',
      because,
    };
  },
});
