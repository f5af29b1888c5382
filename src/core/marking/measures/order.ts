/** One thing after another. */
import * as v from 'valibot';
import { momentText } from '../../record/moment.ts';
import { pattern } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { flag, list, text } from '../../record/shape.ts';
import { type Judgement, measure, notExercised } from '../measure.ts';

const broken = (why: string, found: readonly Line[], last?: Line): Judgement => ({
  exercised: true,
  go: false,
  value: why,
  because: [...(last ? [last.i] : []), ...found.map((l) => l.i)],
});

/**
 * Each moment happens after the one before it. Strictly: each moment's very first happening does, so doing a later thing
 * too early cannot be mended by doing it again. `names` are what people call the moments, in the same order.
 */
export const order = measure({
  id: 'order',
  about: 'Moments happen one after the other.',
  entries: { moments: list(pattern, 40, 1), strict: v.optional(flag), names: v.optional(list(text(80), 40)) },
  judge({ moments, strict, names = [] }, evidence) {
    const called = (n: number): string => names[n] ?? momentText(evidence.names, moments[n] ?? {});
    const firsts = moments.map((moment) => evidence.first(moment));
    const there = firsts.filter((line) => line !== undefined);
    if (there.length === 0) return notExercised('nothing of it happened');
    const missing = firsts.flatMap((line, n) => (line ? [] : [called(n)]));
    const found: Line[] = [];
    for (const [n, moment] of moments.entries()) {
      const before = found[found.length - 1];
      const after = before?.i ?? 0;
      const first = firsts[n];
      const line = strict ? first : evidence.first(moment, after);
      const turn = before && `before ${called(n - 1)} at ${evidence.utc(before)}`;
      if (!line && first) return broken(`${called(n)} only at ${evidence.utc(first)}, ${turn}`, found, first);
      // Nothing to point at but what did happen, earlier or later in the row; it was missed when the drill was over.
      if (!line)
        return {
          ...broken(`missing: ${missing.join('; ')}`, found.length > 0 ? found : there),
          at_us: evidence.end_us,
        };
      if (line.i <= after) return broken(`${called(n)} at ${evidence.utc(line)}, ${turn}`, found, line);
      found.push(line);
    }
    return { exercised: true, go: true, value: 'in order', because: found.map((l) => l.i).reverse() };
  },
});
