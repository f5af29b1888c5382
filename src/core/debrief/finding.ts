/** A measure that was not met, as a finding. */
import type { Verdict } from '../marking/marking.ts';
import { utcAt } from '../quantity/time-text.ts';
import { capital } from '../record/names.ts';
import type { MeasureSpec } from '../scenario/scenario.ts';

/** Something that went wrong or was not shown, with its moment. */
export type Finding = {
  measure: string;
  title: string;
  /** The title, said as a fault: "Not met: Lamp lit". */
  head: string;
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

/** Longest flag, characters, without the dots for what is left out. */
const FLAG_CHARS = 36;

function flagOf(title: string): string {
  if (title.length <= FLAG_CHARS) return title;
  const cut = title.slice(0, FLAG_CHARS + 1).replace(/[\s,;:]+\S*$/, '');
  return `${cut.slice(0, FLAG_CHARS)} ...`;
}

const ended = (text: string): string => `${text.replace(/\.$/, '')}.`;

/** The finding of a verdict; what decided nothing is found at the end. */
export function findingOf(v: Verdict, spec: MeasureSpec, utc0: string, end_us: number): Finding {
  const at_us = v.at_us ?? end_us;
  return {
    measure: v.id,
    title: v.title,
    head: `${v.exercised ? 'Not met' : 'Not tried'}: ${v.title}`,
    flag: flagOf(v.title),
    critical: v.critical,
    exercised: v.exercised,
    at_us,
    utc: utcAt(utc0, at_us),
    expected: v.standard,
    happened: v.value,
    told: `${capital(ended(v.value))} Wanted: ${ended(v.standard)}`,
    why: spec.why,
    next: spec.next,
    because: v.because,
  };
}

/** Critical findings first, then in order of time. */
export const byWeight = (a: Finding, b: Finding): number =>
  Number(b.critical) - Number(a.critical) || a.at_us - b.at_us;
