/** What was to be done and when it was done: the scenario's phases beside the operator's acts. */
import { inOrder } from '../numeric/in-order.ts';
import { fits } from '../record/pattern.ts';
import type { DrillRecord, Line } from '../record/record.ts';
import type { Action, Scenario, Step } from '../scenario/scenario.ts';
import type { ControlValue } from '../signals.ts';
import type { Span } from './air.ts';
import { expectedOf } from './expected.ts';

/** A thing that was to be done: when an expert would have, and when it was (null: never). */
export type Moment = { label: string; expected: Span; happened: Span | null };

/** An act as the record would show it. A text is compared by its words, since people put things differently. */
type Act = { control: string; value: ControlValue | undefined; words?: string };

function actsOf(a: Action): Act[] {
  if ('set' in a) return Object.entries(a.set).map(([control, value]) => ({ control, value }));
  if ('press' in a) return a.press.map((control) => ({ control, value: true }));
  if ('hold' in a) return [{ control: a.hold.control, value: true }, ...a.hold.do.flatMap(actsOf)];
  if ('turn' in a) return [{ control: a.turn.control, value: undefined }];
  if ('tune' in a) return [{ control: a.tune.control, value: undefined }];
  if ('say' in a) return [{ control: 'hand.say', value: undefined, words: a.say }];
  if ('log' in a) return [{ control: 'desk.log', value: undefined, words: a.log }];
  if ('when' in a || 'again' in a) return a.do.flatMap(actsOf);
  return [];
}

type Done = Extract<Line, { k: 'do' }>;

/** Share of words in common, 0..1. */
function likeness(a: string, b: string): number {
  const left = new Set(a.toUpperCase().split(/\s+/));
  const right = new Set(b.toUpperCase().split(/\s+/));
  const both = Array.from(left).filter((word) => right.has(word)).length;
  return both / (left.size + right.size - both);
}

/** A text said or logged counts as the expected one when most of their words are the same. */
const ALIKE = 0.6;

function rating(act: Act, line: Done): number {
  if (line.control !== act.control) return 0;
  if (act.words === undefined) return act.value === undefined || act.value === line.value ? 1 : 0;
  const text = String(line.value);
  if (fits(text, act.words.replace(/\{\w+\}/g, '*'))) return 1;
  const like = likeness(text, act.words);
  return like >= ALIKE ? like * 0.99 : 0;
}

/** Neighbouring steps of one phase. */
function phasesOf(steps: readonly Step[]): Step[][] {
  const phases: Step[][] = [];
  for (const step of steps) {
    const last = phases[phases.length - 1];
    if (last?.[0]?.phase === step.phase) last.push(step);
    else phases.push([step]);
  }
  return phases;
}

const named = (phase: string): string => phase.charAt(0).toUpperCase() + phase.slice(1).replaceAll('-', ' ');

/** A phase's acts with when each was done, and which of those came in the order asked for. */
type Found = { at: number[]; inTurn: number[] };

/** Finds for the acts of every phase the lines that did them, each line once: those in the order asked for, then what else fits. */
function findAll(phases: readonly (readonly Act[])[], lines: readonly Line[]): Found[] {
  const acts = phases.flatMap((list, n) => list.map((act) => ({ act, n })));
  const asked = new Set(acts.map(({ act }) => act.control));
  const done = lines.filter((line): line is Done => line.k === 'do' && asked.has(line.control));
  const found: Found[] = phases.map(() => ({ at: [], inTurn: [] }));
  const taken = new Set<Done>();
  const lost: typeof acts = [];
  const pairs = inOrder(acts.length, done.length, (i, j) => rating((acts[i] as (typeof acts)[0]).act, done[j] as Done));
  for (const [i, one] of acts.entries()) {
    const line = done[pairs.get(i) ?? -1];
    if (!line) lost.push(one);
    else {
      taken.add(line);
      (found[one.n] as Found).at.push(line.t);
      (found[one.n] as Found).inTurn.push(line.t);
    }
  }
  for (const { act, n } of lost) {
    const line = best(act, done, taken);
    if (!line) continue;
    taken.add(line);
    (found[n] as Found).at.push(line.t);
  }
  return found;
}

/** The best line for an act that no other has; of equals the earliest. */
function best(act: Act, done: readonly Done[], taken: ReadonlySet<Done>): Done | undefined {
  const free = done.filter((line) => !taken.has(line) && rating(act, line) > 0);
  return free.reduce<Done | undefined>((a, b) => (a && rating(act, a) >= rating(act, b) ? a : b), undefined);
}

/** From its first act to its last; without those out of turn, where most of its acts came in turn. */
function spanOf({ at, inTurn }: Found): Span | null {
  const most = 2 * inTurn.length >= at.length ? inTurn : at;
  return most.length > 0 ? { from_us: Math.min(...most), to_us: Math.max(...most) } : null;
}

/**
 * The phases in the order of the scenario; one that asks for no act is left out. An expert's time is shared out by what the
 * steps ask for. What happened begins with the first of a phase's acts and ends when another phase begins; the last phase, and
 * one before a phase that asks for no act, ends with its last act. A control touched again later does not stretch a phase.
 */
export function momentsOf(record: DrillRecord, scenario: Scenario): Moment[] {
  const phases = phasesOf(scenario.steps);
  const acts = phases.map((steps) => steps.flatMap((step) => step.do.flatMap(actsOf)));
  const spans = findAll(acts, record.lines).map(spanOf);
  const expected = expectedOf(phases, scenario);
  const ends = (n: number, span: Span): Span => {
    const later = spans.flatMap((other) => (other && other.from_us > span.from_us ? other.from_us : []));
    return { ...span, to_us: acts[n + 1]?.length && later.length > 0 ? Math.min(...later) : span.to_us };
  };
  return phases.flatMap((steps, n) => {
    const span = spans[n] ?? null;
    if (acts[n]?.length === 0) return [];
    const label = named((steps[0] as Step).phase);
    return [{ label, expected: expected[n] as Span, happened: span && ends(n, span) }];
  });
}
