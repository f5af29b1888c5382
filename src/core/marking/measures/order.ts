/** One thing after another. */
import * as v from 'valibot';
import { pattern } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { flag, list } from '../../record/shape.ts';
import { type Judgement, measure, notExercised } from '../measure.ts';

const broken = (why: string, found: readonly Line[], last?: Line): Judgement => ({
  exercised: true,
  go: false,
  value: why,
  because: [...(last ? [last.i] : []), ...found.map((l) => l.i)],
});

/**
 * Each moment happens after the one before it. Strictly: each moment's very first happening does, so doing a later thing
 * too early cannot be mended by doing it again.
 */
export const order = measure({
  id: 'order',
  about: 'Moments happen one after the other.',
  entries: { moments: list(pattern, 40, 1), strict: v.optional(flag) },
  judge({ moments, strict }, evidence) {
    const firsts = moments.map((moment) => evidence.first(moment));
    const there = firsts.filter((line) => line !== undefined);
    if (there.length === 0) return notExercised('nothing of it happened');
    const found: Line[] = [];
    for (const [n, moment] of moments.entries()) {
      const after = found[found.length - 1]?.i ?? 0;
      const first = firsts[n];
      const line = strict ? first : evidence.first(moment, after);
      const place = `${n + 1} of ${moments.length}`;
      if (!line && first) return broken(`${place} only before its turn`, found, first);
      // Nothing to point at but what did happen, earlier or later in the row.
      if (!line) return broken(`${place} missing`, found.length > 0 ? found : there);
      if (line.i <= after) return broken(`${place} too early`, found, line);
      found.push(line);
    }
    return { exercised: true, go: true, value: 'in order', because: found.map((l) => l.i).reverse() };
  },
});
