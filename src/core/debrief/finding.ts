/** A measure that was not met, as a finding. */
import type { Verdict } from '../marking/marking.ts';
import { utcAt } from '../quantity/time-text.ts';
import { capital } from '../record/names.ts';
import type { MeasureSpec } from '../scenario/scenario.ts';

/** Something that went wrong or was not shown, with its moment. */
export type Finding = {
  measure: string;
  title: string;
  /** A few words, for a flag on a strip. */
  flag: string;
  critical: boolean;
  exercised: boolean;
  at_us: number;
  /** `HH MM SS`. */
  utc: string;
  /** What was expected: the standard. */
  expected: string;
  /** What was seen, amid a sentence. */
  happened: string;
  /** What was seen and what was wanted, in sentences. */
  told: string;
  why: string;
  next: string;
  /** Record lines, the decisive one first. */
  because: number[];
};

/** Longest flag, characters. */
const FLAG_CHARS = 24;

function flagOf(title: string): string {
  let flag = '';
  for (const word of title.split(' ')) {
    if (`${flag} ${word}`.trim().length > FLAG_CHARS) break;
    flag = `${flag} ${word}`.trim();
  }
  return flag || title.slice(0, FLAG_CHARS);
}

const ended = (text: string): string => `${text.replace(/\.$/, '')}.`;

/** The finding of a verdict; what decided nothing is found at the end. */
export function findingOf(v: Verdict, spec: MeasureSpec, utc0: string, end_us: number): Finding {
  const at_us = v.at_us ?? end_us;
  const seen = v.exercised ? v.value : `not tried: ${v.value}`;
  return {
    measure: v.id,
    title: v.title,
    flag: flagOf(v.title),
    critical: v.critical,
    exercised: v.exercised,
    at_us,
    utc: utcAt(utc0, at_us),
    expected: v.standard,
    happened: v.value,
    told: `${capital(ended(seen))} Wanted: ${ended(v.standard)}`,
    why: spec.why,
    next: spec.next,
    because: v.because,
  };
}

/** Critical findings first, then in order of time. */
export const byWeight = (a: Finding, b: Finding): number =>
  Number(b.critical) - Number(a.critical) || a.at_us - b.at_us;
