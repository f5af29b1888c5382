/** Which letters of a message went wrong where it was received, and which of their five units. */
import { asOneText, compare, printedAt, type Slip } from '../marking/copy.ts';
import type { DrillRecord } from '../record/record.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { codeOf } from '../telegraphy/ita2.ts';

/** One letter that went wrong. `want` is empty for one too many, `got` for one that is missing. */
export type Wrong = {
  /** Place in the message's text, from 0. */
  at: number;
  want: string;
  got: string;
  /** Numbers 1..5 of the units that differ; empty when units cannot tell (missing, too many, or the case was wrong). */
  units: number[];
  how: 'wrong' | 'missing' | 'extra' | 'case';
  /** Record line that printed it; null when missing. */
  line: number | null;
  at_us: number | null;
};

/** A message as one place received it. `text` is the message in one line. */
export type Garble = { measure: string; message: string; at: string; text: string; errors: number; wrong: Wrong[] };

function wrongOf({ at, want, got }: Slip): Wrong {
  const place = { at, want, got: got?.c ?? '', units: [], line: got?.line ?? null, at_us: got?.t ?? null };
  if (got === null) return { ...place, how: 'missing' };
  if (want === '') return { ...place, how: 'extra' };
  const sent = codeOf(want, 'letters') ?? codeOf(want, 'figures');
  const differ = sent === null ? 0 : sent ^ got.code;
  // The same five units in the other case: the shift was lost, not the letter.
  if (differ === 0) return { ...place, how: 'case' };
  return { ...place, how: 'wrong', units: [1, 2, 3, 4, 5].filter((unit) => differ & (1 << (unit - 1))) };
}

/** For every measure of a copied message: what went wrong in it. */
export function garblesOf(record: DrillRecord, scenario: Scenario): Garble[] {
  return scenario.measures.flatMap((m) => {
    if (m.kind !== 'copied') return [];
    const [at, message] = [String(m['at']), String(m['message'])];
    const lines = scenario.papers.messages.find((one) => one.id === message)?.lines;
    const printed = printedAt(record.lines, at);
    if (!lines || printed.length === 0) return [];
    const text = asOneText(lines);
    const copy = compare(text, printed);
    return [{ measure: m.id, message, at, text, errors: copy.errors, wrong: copy.slips.map(wrongOf) }];
  });
}
