/** Time on the air. */
import { lasting, overLimit } from '../../quantity/time-text.ts';
import { airtime_us, carriersOf } from '../../record/carriers.ts';
import { number } from '../../record/shape.ts';
import { measure, notExercised } from '../measure.ts';

/** The own station was on the air for at most so many seconds in all, with whatever power. */
export const airtime = measure({
  id: 'airtime',
  about: 'The own station is on the air for at most so long in all.',
  entries: { seconds: number(0, 86_400) },
  judge({ seconds }, { lines, sheet }) {
    const limit_us = Math.round(seconds * 1e6);
    const carriers = carriersOf(lines, sheet.own.call);
    if (carriers.length === 0) return notExercised('never on the air');
    const sum_us = airtime_us(carriers);
    const longest = carriers.toSorted((a, b) => b.to_us - b.from_us - (a.to_us - a.from_us) || a.line - b.line);
    // It was spent while some carrier stood.
    let left_us = limit_us;
    const last = carriers.find(({ from_us, to_us }) => {
      left_us -= to_us - from_us;
      return left_us < 0;
    });
    const go = sum_us <= limit_us;
    const told = go ? lasting(sum_us) : overLimit(sum_us);
    return {
      ...(last ? { at_us: last.to_us + left_us } : {}),
      exercised: true,
      go,
      value: carriers.length > 1 ? `${told} in all` : told,
      because: longest.slice(0, 10).map(({ line }) => line),
    };
  },
});
