/** What must not happen. */
import * as v from 'valibot';
import { lasting, times } from '../../quantity/time-text.ts';
import { lineText } from '../../record/moment.ts';
import { stood } from '../../record/names.ts';
import { matches } from '../../record/pattern.ts';
import { pattern, type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { list, text } from '../../record/shape.ts';
import type { Evidence } from '../evidence.ts';
import { holds, measure, notExercised } from '../measure.ts';

/** So many different faults are named. */
const NAMED = 3;

/** One fault by name (the line itself tells more than the pattern that caught it), with what stood so meanwhile. */
function faultOf(line: Line, tests: readonly QuantityTest[], evidence: Evidence): string {
  const { names } = evidence;
  const name = lineText(names, line);
  const meanwhile = tests.map((test) => stood(names, test.q, evidence.valueAt(test.q, line)?.v));
  return meanwhile.length > 0 ? `${name} with ${meanwhile.join(' and ')}` : name;
}

/** What happened, how often, and when. */
function faults(bad: readonly Line[], tests: readonly QuantityTest[], evidence: Evidence): string {
  const byName = new Map<string, number>();
  for (const line of bad) {
    const name = faultOf(line, tests, evidence);
    byName.set(name, (byName.get(name) ?? 0) + 1);
  }
  const each = Array.from(byName, ([name, n]) => (bad.length === 1 ? name : `${name}, ${times(n)}`));
  const more = each.length - NAMED;
  const rest = more > 0 ? ` and ${more} other ${more === 1 ? 'fault' : 'faults'}` : '';
  const [first, last] = [bad[0] as Line, bad[bad.length - 1] as Line];
  const when = bad.length === 1 ? `at ${evidence.utc(first)}` : `from ${evidence.utc(first)} to ${evidence.utc(last)}`;
  return `${each.slice(0, NAMED).join('; ')}${rest}, ${when}`;
}

/** What stood between an occasion and the fault, and for how long it had: "printer motor off 12.0 s before". */
function lead(
  line: Line,
  tests: readonly QuantityTest[],
  evidence: Evidence,
): { us: number; words: string } | undefined {
  const kept = tests.flatMap((test) => {
    const at = evidence.valueAt(test.q, line);
    const since = at && evidence.lines[at.i - 1];
    return at && since && !holds(at.v, test)
      ? [{ us: line.t - since.t, words: stood(evidence.names, test.q, at.v) }]
      : [];
  });
  return kept.sort((a, b) => b.us - a.us)[0];
}

/** The narrowest of all occasions. */
function narrowest(occasions: readonly Line[], tests: readonly QuantityTest[], evidence: Evidence): string | undefined {
  const leads = occasions.flatMap((line) => lead(line, tests, evidence) ?? []).sort((a, b) => a.us - b.us);
  return leads[0] && `${leads[0].words} ${lasting(leads[0].us)} before`;
}

/** `{calls}` becomes "3 calls", or "1 call"; `{after}` a time. */
const filled = (kept: string, n: number, after: string): string =>
  kept.replace(/\{(\w+)\}/g, (_, word: string) =>
    word === 'after' ? after : `${n} ${n === 1 ? word.replace(/s$/, '') : word}`,
  );

/**
 * No line matches `what` (while all of `while` hold, if given; save those that match `unless`). It is exercised only if
 * there was occasion: a line that matches `given`, else a while that held, else any act of the operator. `kept` says in
 * words what it was when nothing was amiss: `{calls}` in it counts the lines that match `instead` (or else the occasions),
 * `{after}` is the time from the first occasion to the next of them.
 */
export const never = measure({
  id: 'never',
  about: 'Something never happens, or never while quantities stand so.',
  entries: {
    what: pattern,
    while: v.optional(list(quantityTest, 20, 1)),
    unless: v.optional(pattern),
    given: v.optional(pattern),
    kept: v.optional(text(120)),
    instead: v.optional(pattern),
  },
  judge({ what, while: during, unless, given, kept, instead }, evidence) {
    const tests = (during ?? []) as QuantityTest[];
    const stoodSo = (line: Line): boolean => evidence.stoodAt(tests, line);
    const bad = evidence.all(what).filter((line) => stoodSo(line) && !(unless && matches(line, unless)));
    if (bad.length > 0)
      return {
        exercised: true,
        go: false,
        value: faults(bad, tests, evidence),
        because: bad.slice(0, 20).map((l) => l.i),
      };
    const occasions = given ? evidence.all(given) : [];
    const occasion = given ? occasions[0] : during ? evidence.spans(tests)[0]?.from : evidence.first({ k: 'do' });
    if (!occasion) return notExercised('no occasion for it');
    const came = instead && evidence.first(instead, occasion.i);
    const after = came ? lasting(came.t - occasion.t) : '';
    const value =
      kept !== undefined && (came || !kept.includes('{after}'))
        ? filled(kept, (instead ? evidence.all(instead) : occasions).length, after)
        : (narrowest(occasions, tests, evidence) ?? 'no breach seen');
    return { exercised: true, go: true, value, because: [occasion.i] };
  },
});
