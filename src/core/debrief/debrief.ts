/**
 * The debrief as data: what was planned, what happened, why it matters, what to do next time (the four questions of an
 * after-action review, TC 25-20, 1993). From record, mark and scenario alone.
 */
import type { Marked, Verdict } from '../marking/marking.ts';
import type { DrillRecord, Manner } from '../record/record.ts';
import type { MeasureSpec, Scenario } from '../scenario/scenario.ts';
import { type Garble, garblesOf } from './garble.ts';
import { type Moment, momentsOf, type Span } from './moments.ts';
import { type Event, timelineOf, utcAt } from './timeline.ts';

export type { Event, Garble, Moment, Span };

/** One measure as judged; `yours` is what it was, in words. */
export type Judged = Omit<Verdict, 'value'> & { yours: string };

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
  happened: string;
  why: string;
  next: string;
  /** Record lines, the decisive one first. */
  because: number[];
};

/** A debrief. */
export type Debrief = {
  title: string;
  task: string;
  manner: Manner;
  seed: number;
  stretch: number;
  /** `YYYY-MM-DD`. */
  date: string;
  /** UTC at the drill's instant 0, `HH:MM:SS`. */
  utc0: string;
  end_us: number;
  ended: string;
  verdict: Marked['verdict'];
  score: number;
  pass: number;
  measures: Judged[];
  moments: Moment[];
  timeline: Event[];
  /** When the own station radiated. */
  air: Span[];
  findings: Finding[];
  garbles: Garble[];
  interruptions: { at_us: number; wall_ms: number; why: string }[];
  helps: number;
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

function airOf(record: DrillRecord, own: string, end_us: number): Span[] {
  const spans: Span[] = [];
  let from_us: number | undefined;
  for (const line of record.lines) {
    if (line.k !== 'air' || line.station !== own) continue;
    if (line.power_W > 0) from_us ??= line.t;
    else if (from_us !== undefined) {
      spans.push({ from_us, to_us: line.t });
      from_us = undefined;
    }
  }
  return from_us === undefined ? spans : [...spans, { from_us, to_us: end_us }];
}

function findingOf(v: Verdict, spec: MeasureSpec, record: DrillRecord, utc0: string, end_us: number): Finding {
  const at_us = record.lines[(v.because[0] ?? 0) - 1]?.t ?? end_us;
  return {
    measure: v.id,
    title: v.title,
    flag: flagOf(v.title),
    critical: v.critical,
    exercised: v.exercised,
    at_us,
    utc: utcAt(utc0, at_us),
    expected: v.standard,
    happened: v.exercised ? v.value : `not exercised: ${v.value}`,
    why: spec.why,
    next: spec.next,
    because: v.because,
  };
}

/** Critical findings first, then in order of time. */
const byWeight = (a: Finding, b: Finding): number => Number(b.critical) - Number(a.critical) || a.at_us - b.at_us;

/** The debrief of a marked record. Every measure that is not GO has a finding. */
export function debrief(record: DrillRecord, marked: Marked, scenario: Scenario): Debrief {
  const { header, lines } = record;
  const end = lines.find((line) => line.k === 'end');
  const end_us = end?.t ?? lines[lines.length - 1]?.t ?? 0;
  const { date, utc } = scenario.world;
  const specs = new Map(scenario.measures.map((m) => [m.id, m]));
  return {
    title: scenario.title,
    task: scenario.order.task,
    manner: header.manner,
    seed: header.seed,
    stretch: header.stretch,
    date,
    utc0: utc,
    end_us,
    ended: end?.k === 'end' ? end.why : 'not ended',
    verdict: marked.verdict,
    score: marked.score,
    pass: marked.pass,
    measures: marked.measures.map(({ value, ...rest }) => ({ ...rest, yours: value })),
    moments: momentsOf(record, scenario),
    timeline: timelineOf(record, scenario),
    air: airOf(record, scenario.own.call, end_us),
    findings: marked.measures
      .filter((v) => !v.go && specs.has(v.id))
      .map((v) => findingOf(v, specs.get(v.id) as MeasureSpec, record, utc, end_us))
      .sort(byWeight),
    garbles: garblesOf(record, scenario),
    interruptions: lines.flatMap((l) =>
      l.k === 'interruption' ? [{ at_us: l.t, wall_ms: l.wall_ms, why: l.why }] : [],
    ),
    helps: lines.filter((l) => l.k === 'help').length,
  };
}
