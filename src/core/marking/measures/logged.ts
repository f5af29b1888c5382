/** The station log. */
import * as v from 'valibot';
import { fits, type Pattern } from '../../record/pattern.ts';
import { pattern } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { list, map, number, text } from '../../record/shape.ts';
import type { Evidence } from '../evidence.ts';
import { measure, notExercised } from '../measure.ts';

/** How long after what it tells of an entry may be written, minutes, unless stated; and how long before, as it begins. */
const NEAR_MIN = 5;
const AHEAD_US = 60e6;

const one = text(120);
const words: v.GenericSchema<string[]> = list(one, 10, 1);

type Entry = { like: string | string[]; near?: Pattern | undefined; minutes?: number | undefined; name?: string };
type Written = Extract<Line, { k: 'log' }>;

/** Words in any order; where a bar stands between some, one of them is enough. */
const says = (line: Written, like: string | string[]): boolean =>
  typeof like === 'string'
    ? fits(line.text, like)
    : like.every((word) => word.split('|').some((one) => fits(line.text, `*${one}*`)));

function fitting(entry: Entry, evidence: Evidence): number[] {
  const events = entry.near ? evidence.all(entry.near) : null;
  const after_us = (entry.minutes ?? NEAR_MIN) * 60e6;
  const isNear = (line: Line): boolean =>
    !events || events.some((event) => line.t >= event.t - AHEAD_US && line.t <= event.t + after_us);
  return evidence.lines.flatMap((line) => (line.k === 'log' && says(line, entry.like) && isNear(line) ? [line.i] : []));
}

/** A line of its own for as many entries as can be (Kuhn 1955): the line of each, or undefined. */
function share(choices: readonly number[][]): (number | undefined)[] {
  const takenBy = new Map<number, number>();
  const seat = (entry: number, tried: Set<number>): boolean =>
    (choices[entry] as number[]).some((line) => {
      if (tried.has(line)) return false;
      tried.add(line);
      const before = takenBy.get(line);
      if (before !== undefined && !seat(before, tried)) return false;
      takenBy.set(line, entry);
      return true;
    });
  for (const entry of choices.keys()) seat(entry, new Set());
  const lines = new Map(Array.from(takenBy, ([line, entry]) => [entry, line]));
  return choices.map((_, entry) => lines.get(entry));
}

/** Whether an act works the station; whoever only reads at the desk has nothing to log. */
const isWork = (line: Line): boolean => line.k === 'do' && !line.control.startsWith('desk.');

const inPlain = (like: string | string[]): string =>
  typeof like === 'string'
    ? like.replaceAll('*', ' ').trim()
    : like.map((word) => word.replace(/\|.*/, '').replaceAll('*', ' ').trim()).join(' ');

/** An entry that is not there, or is there at another time than that of what it tells. */
function missed(entry: Entry, evidence: Evidence): string {
  const name = entry.name ?? inPlain(entry.like);
  const other = evidence.lines.find((line): line is Written => line.k === 'log' && says(line, entry.like));
  return entry.near && other && fitting(entry, evidence).length === 0
    ? `${name} (logged at ${other.utc}, not in its time)`
    : name;
}

/**
 * Each entry is in the log on a line of its own, and near the moment it tells of where one is given: from a minute before
 * it to so many minutes after. Each that is there earns its part. `name` is what people call the entry.
 */
export const logged = measure({
  id: 'logged',
  about: 'Entries stand in the station log, each on a line of its own.',
  entries: {
    entries: list(
      map({
        like: v.lazy((x) => (x === undefined ? v.union([one, words]) : Array.isArray(x) ? words : one)),
        near: v.optional(pattern),
        minutes: v.optional(number(0, 600)),
        name: v.optional(one),
      }),
      40,
      1,
    ),
  },
  judge({ entries }, evidence) {
    if (!evidence.first({ k: 'log' })) {
      const none = notExercised('no entry was made');
      // An empty log of a station that was worked is a fault, not a thing left untried.
      return evidence.lines.some(isWork) ? { ...none, exercised: true, at_us: evidence.end_us } : none;
    }
    const found = share(entries.map((entry) => fitting(entry as Entry, evidence)));
    const missing = entries.filter((_, n) => found[n] === undefined).map((entry) => missed(entry as Entry, evidence));
    const there = found.filter((i) => i !== undefined);
    const lack = missing.length > 0 ? `; missing: ${missing.join(', ')}` : '';
    return {
      ...(missing.length > 0 ? { at_us: evidence.end_us } : {}),
      exercised: true,
      go: missing.length === 0,
      share: there.length / entries.length,
      value: `${there.length} of ${entries.length} entries${lack}`,
      because: there,
    };
  },
});
