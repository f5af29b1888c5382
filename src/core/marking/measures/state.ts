/** Values at an instant. */
import * as v from 'valibot';
import { momentText } from '../../record/moment.ts';
import { stood } from '../../record/names.ts';
import { pattern, type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { list, oneOf, text } from '../../record/shape.ts';
import type { Evidence } from '../evidence.ts';
import { holds, measure, notExercised } from '../measure.ts';

type Look = { line: Line; good: boolean; words: string; because: number[] };

function lookAt(line: Line, need: readonly QuantityTest[], evidence: Evidence): Look {
  const seen = need.map((test) => ({ test, at: evidence.valueAt(test.q, line) }));
  const bad = seen.filter(({ test, at }) => !holds(at?.v, test));
  const told = bad.length > 0 ? bad : seen;
  return {
    line,
    good: bad.length === 0,
    words: told.map(({ test, at }) => stood(evidence.names, test.q, at?.v, test.near)).join(', '),
    because: [line.i, ...told.flatMap(({ at }) => at?.i ?? [])],
  };
}

/**
 * Sampled quantities are as they must be at a moment: the first of its kind (unless told), every one, or the last.
 * `moment` is what people say for it: "when the heat came on".
 */
export const state = measure({
  id: 'state',
  about: 'Quantities are as they must be at a moment.',
  entries: {
    at: pattern,
    which: v.optional(oneOf(['first', 'every', 'last'])),
    need: list(quantityTest, 20, 1),
    moment: v.optional(text(80)),
  },
  judge({ at, which = 'first', need, moment }, evidence) {
    const called = moment ?? momentText(evidence.names, at);
    const all = evidence.all(at);
    if (all.length === 0) return notExercised(`the moment never came: ${momentText(evidence.names, at)}`);
    const lines = which === 'every' ? all : [(which === 'last' ? all[all.length - 1] : all[0]) as Line];
    const looks = lines.map((line) => lookAt(line, need as QuantityTest[], evidence));
    const bad = looks.filter((look) => !look.good);
    const told = (bad[0] ?? looks[looks.length - 1]) as Look;
    const at_utc = evidence.utc(told.line);
    const when = bad.length === 0 ? '' : moment ? ` ${moment} at ${at_utc}` : ` at ${at_utc} (${called})`;
    const count = lines.length > 1 ? ` (${lines.length - bad.length} of ${lines.length} times right)` : '';
    return { exercised: true, go: bad.length === 0, value: told.words + when + count, because: told.because };
  },
});
