/** The station log. */
import * as v from 'valibot';
import type { Pattern } from '../../record/pattern.ts';
import { pattern } from '../../record/pattern-shape.ts';
import { list, map, number, text } from '../../record/shape.ts';
import type { Evidence } from '../evidence.ts';
import { measure, notExercised } from '../measure.ts';

/** How far an entry may stand from what it tells of, minutes, unless stated. */
const NEAR_MIN = 5;

type Entry = { like: string; near?: Pattern | undefined; minutes?: number | undefined };

function find(entry: Entry, evidence: Evidence): number | undefined {
  const lines = evidence.all({ k: 'log', text: { like: entry.like } });
  if (!entry.near) return lines[0]?.i;
  const events = evidence.all(entry.near);
  const far_us = (entry.minutes ?? NEAR_MIN) * 60e6;
  return lines.find((line) => events.some((event) => Math.abs(event.t - line.t) <= far_us))?.i;
}

/** Each entry is in the log, and near the moment it tells of where one is given. Each that is there earns its part. */
export const logged = measure({
  id: 'logged',
  about: 'Entries stand in the station log.',
  entries: {
    entries: list(map({ like: text(120), near: v.optional(pattern), minutes: v.optional(number(0, 600)) }), 40, 1),
  },
  judge({ entries }, evidence) {
    if (!evidence.first({ k: 'log' })) return notExercised('nothing was logged');
    const found = entries.map((entry) => find(entry as Entry, evidence));
    const missing = entries.filter((_, n) => found[n] === undefined).map((entry) => entry.like);
    const there = found.filter((i) => i !== undefined);
    const lack =
      missing.length > 0 ? `, missing ${missing.map((like) => like.replaceAll('*', ' ').trim()).join('; ')}` : '';
    return {
      exercised: true,
      go: missing.length === 0,
      share: there.length / entries.length,
      value: `${there.length} of ${entries.length} entries${lack}`,
      because: there,
    };
  },
});
