/** An answer in time. */
import * as v from 'valibot';
import { lasting, overLimit } from '../../quantity/time-text.ts';
import { pattern } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { flag, number, oneOf } from '../../record/shape.ts';
import { measure, notExercised } from '../measure.ts';

/** An asking with what came of it. */
type Turn = { start: Line; answer: Line | undefined; took_us: number };

/**
 * After each `from` (or only the first) comes a `to` within so many seconds; `stretch` lets the drill's time stretch apply.
 * Where nothing came, but the drill ended before the time was up, it was neither kept nor missed.
 */
export const within = measure({
  id: 'within',
  about: 'One thing follows another within a time.',
  entries: {
    from: pattern,
    to: pattern,
    seconds: number(0, 86_400),
    which: v.optional(oneOf(['first', 'every'])),
    stretch: v.optional(flag),
  },
  judge({ from, to, seconds, which = 'every', stretch = false }, evidence) {
    const starts = evidence.all(from).slice(0, which === 'first' ? 1 : undefined);
    if (starts.length === 0) return notExercised('nothing asked for it');
    const limit_us = Math.round(seconds * 1e6 * (stretch ? evidence.stretch : 1));
    const turns = starts.map((start): Turn => {
      const answer = evidence.first(to, start.i);
      return { start, answer, took_us: answer ? answer.t - start.t : Number.POSITIVE_INFINITY };
    });
    const decided = turns.filter(({ start, answer }) => answer || start.t + limit_us <= evidence.end_us);
    const go = decided.every((turn) => turn.took_us <= limit_us);
    if (go && decided.length < turns.length)
      return notExercised(`the drill ended at ${evidence.utc({ t: evidence.end_us })}, with time left for it`);
    const slowest = decided.reduce((a, b) => (b.took_us > a.took_us ? b : a));
    const late_us = slowest.start.t + limit_us;
    const because = slowest.answer ? [slowest.answer.i, slowest.start.i] : [slowest.start.i];
    const slow = starts.length > 1 ? `, the slowest of ${starts.length}` : '';
    const took = go ? lasting : overLimit;
    const value = slowest.answer
      ? `${took(slowest.took_us)}, at ${evidence.utc(slowest.answer)}${slow}`
      : `nothing came by ${evidence.utc({ t: late_us })}`;
    const judged = { exercised: true, go, value, because };
    return go ? judged : { ...judged, at_us: late_us };
  },
});
