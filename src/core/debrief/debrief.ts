/**
 * The debrief as data: what was planned, what happened, why it matters, what to do next time (the four questions of an
 * after-action review, TC 25-20, 1993). From record, mark and scenario alone.
 */
import type { Marked, Verdict } from '../marking/marking.ts';
import { airtime_us, carriersOf } from '../record/carriers.ts';
import { type Names, NO_NAMES } from '../record/names.ts';
import type { DrillRecord, Manner } from '../record/record.ts';
import type { MeasureSpec, Scenario } from '../scenario/scenario.ts';
import type { Span } from './air.ts';
import { byWeight, type Finding, findingOf } from './finding.ts';
import { type Garble, garblesOf } from './garble.ts';
import { type Moment, momentsOf } from './moments.ts';
import { type Event, timelineOf } from './timeline.ts';

export type { Event, Finding, Garble, Moment, Span };

/** One measure as judged; `yours` is what it was, in words. */
export type Judged = Omit<Verdict, 'value'> & { yours: string };

/** A debrief. */
export type Debrief = {
  title: string;
  task: string;
  manner: Manner;
  seed: number;
  stretch: number;
  /** What made the record's lines, as in its header. */
  engine: string;
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
  /** How long in all. */
  air_us: number;
  findings: Finding[];
  garbles: Garble[];
  interruptions: { at_us: number; wall_ms: number; why: string }[];
  helps: number;
};

/** The debrief of a marked record, told in the words of `names`. Every measure that is not GO has a finding. */
export function debrief(record: DrillRecord, marked: Marked, scenario: Scenario, names: Names = NO_NAMES): Debrief {
  const { header, lines } = record;
  const end = lines.find((line) => line.k === 'end');
  const end_us = end?.t ?? lines[lines.length - 1]?.t ?? 0;
  const { date, utc } = scenario.world;
  const carriers = carriersOf(lines, scenario.own.call);
  const specs = new Map(scenario.measures.map((m) => [m.id, m]));
  const findings = marked.measures
    .filter((v) => !v.go && specs.has(v.id))
    .map((v) => findingOf(v, specs.get(v.id) as MeasureSpec, utc, end_us))
    .sort(byWeight);
  return {
    title: scenario.title,
    task: scenario.order.task,
    manner: header.manner,
    seed: header.seed,
    stretch: header.stretch,
    engine: header.engine,
    date,
    utc0: utc,
    end_us,
    ended: end?.k === 'end' ? end.why : 'not ended',
    verdict: marked.verdict,
    score: marked.score,
    pass: marked.pass,
    measures: marked.measures.map(({ value, ...rest }) => ({ ...rest, yours: value })),
    moments: momentsOf(record, scenario),
    timeline: timelineOf(record, scenario, names, findings),
    air: carriers.map(({ from_us, to_us }) => ({ from_us, to_us })),
    air_us: airtime_us(carriers),
    findings,
    garbles: garblesOf(record, scenario),
    interruptions: lines.flatMap((l) =>
      l.k === 'interruption' ? [{ at_us: l.t, wall_ms: l.wall_ms, why: l.why }] : [],
    ),
    helps: lines.filter((l) => l.k === 'help').length,
  };
}
