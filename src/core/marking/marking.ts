/**
 * The mark of a record. GO only if every critical measure is GO and the score reaches the pass mark: a critical step
 * cannot be made up for by others (the patient-safety standard of Yudkowsky et al. 2014).
 */
import { type Names, NO_NAMES } from '../record/names.ts';
import type { DrillRecord } from '../record/record.ts';
import { Evidence, type Sheet } from './evidence.ts';
import type { Measure, Stated } from './measure.ts';
import { MEASURES } from './measures/list.ts';

/** What became of one measure. */
export type Verdict = {
  id: string;
  title: string;
  critical: boolean;
  standard: string;
  go: boolean;
  /** Whether the record has anything the measure speaks of. */
  exercised: boolean;
  /** Points earned, to 0.01, of `of`. */
  points: number;
  of: number;
  /** What it was, as text. */
  value: string;
  /** Numbers of the record lines that decided it, the decisive one first. */
  because: number[];
  /** When it was decided, microseconds: the decisive line's instant, or a deadline; null when nothing decided it. */
  at_us: number | null;
};

/** The mark: `score` 0..100 to 0.1, rounded down so that rounding never passes anybody. */
export type Marked = { verdict: 'GO' | 'NO-GO'; score: number; pass: number; measures: Verdict[] };

/** What the mark needs of a scenario; a whole scenario will do. */
export type MarkSheet = Sheet & { pass: number; measures: readonly Stated[] };

function judgeOne(stated: Stated, evidence: Evidence, kinds: ReadonlyMap<string, Measure>): Verdict {
  const kind = kinds.get(stated.kind);
  if (!kind) throw new RangeError(`no kind of measure ${stated.kind}`);
  const { exercised, go, share, value, because, at_us } = kind.judge(stated, evidence);
  const part = !exercised ? 0 : go ? 1 : Math.max(0, Math.min(1, share ?? 0));
  const { id, title, critical, standard, weight } = stated;
  const points = Math.round(part * weight * 100) / 100;
  const decided_us = at_us ?? evidence.lines[(because[0] ?? 0) - 1]?.t ?? null;
  const met = exercised && go;
  return { id, title, critical, standard, go: met, exercised, points, of: weight, value, because, at_us: decided_us };
}

/** Verdicts to a mark. With no weight at all the score is 0. */
export function sumUp(measures: Verdict[], pass: number): Marked {
  const of = measures.reduce((sum, m) => sum + m.of, 0);
  const points = measures.reduce((sum, m) => sum + m.points, 0);
  // The small addition keeps 84/100 from falling to 83.9 in binary.
  const score = of > 0 ? Math.floor((points / of) * 1000 + 1e-6) / 10 : 0;
  const go = score >= pass && measures.every((m) => m.go || !m.critical);
  return { verdict: go ? 'GO' : 'NO-GO', score, pass, measures };
}

/** Mark a record by its scenario's measures. A function of its arguments alone; `names` change words and nothing else. */
export function mark(
  record: DrillRecord,
  sheet: MarkSheet,
  kinds: readonly Measure[] = MEASURES,
  names: Names = NO_NAMES,
): Marked {
  const evidence = new Evidence(record, sheet, names);
  const byId = new Map(kinds.map((kind) => [kind.id, kind]));
  return sumUp(
    sheet.measures.map((stated) => judgeOne(stated, evidence, byId)),
    sheet.pass,
  );
}
