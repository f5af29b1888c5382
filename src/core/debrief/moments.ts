/** What was to be done and when it was done: the scenario's phases beside the operator's acts. */
import { fits } from '../record/pattern.ts';
import type { DrillRecord, Line } from '../record/record.ts';
import type { Action, Scenario, Step } from '../scenario/scenario.ts';
import type { ControlValue } from '../signals.ts';
import type { Span } from './air.ts';

/** A thing that was to be done: when an expert would have, and when it was (null: never). */
export type Moment = { label: string; expected: Span; happened: Span | null };

// How long the parts of a step take, seconds: common practice at a desk; only their proportions matter.
const REACH_S = 0.7;
const PRESS_S = 0.9;
const WORD_S = 0.4;
const KEY_S = 0.18;
const ANSWER_S = 8;
const UNTIL_S = 6;

function duration_s(a: Action, s: Scenario): number {
  const all = (list: readonly Action[]): number => list.reduce((sum, one) => sum + duration_s(one, s), 0);
  if ('set' in a) return Object.keys(a.set).length * REACH_S;
  if ('press' in a) return a.press.length * PRESS_S;
  if ('hold' in a) return REACH_S + all(a.hold.do);
  if ('wait' in a) return a.wait;
  if ('say' in a) return 2 * REACH_S + a.say.split(/\s+/).length * WORD_S;
  if ('hear' in a) return Math.min(a.within, ANSWER_S);
  if ('type' in a) return a.type.length * KEY_S;
  if ('punch' in a) return KEY_S * (s.papers.messages.find((m) => m.id === a.punch)?.lines.join('\r\n').length ?? 0);
  if ('tune' in a) return (Math.abs(a.tune.to - a.tune.from) / a.tune.by) * a.tune.every_s;
  if ('when' in a) return all(a.do);
  if ('again' in a) return all(a.do);
  if ('until' in a) return Math.min(a.within, UNTIL_S);
  return 2 * REACH_S;
}

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

/** Takes record lines one by one, so that the same act asked for twice is found twice. */
class Claims {
  private readonly taken = new Set<number>();
  private readonly byControl = new Map<string, Done[]>();
  constructor(lines: readonly Line[]) {
    for (const line of lines) {
      if (line.k !== 'do') continue;
      const list = this.byControl.get(line.control) ?? [];
      list.push(line);
      this.byControl.set(line.control, list);
    }
  }
  /** The best line for an act that no other has; of equals the earliest. */
  claim(act: Act): Done | undefined {
    let best: Done | undefined;
    let most = 0;
    for (const line of this.byControl.get(act.control) ?? []) {
      if (this.taken.has(line.i)) continue;
      const r = rating(act, line);
      if (r > most) [best, most] = [line, r];
      if (most === 1) break;
    }
    if (best) this.taken.add(best.i);
    return best;
  }
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

/**
 * The phases in the order of the scenario. An expert's time is shared out by what the steps ask for; what happened is
 * from the first to the last of the operator's acts that a phase asks for. A phase that asks for none is left out.
 */
export function momentsOf(record: DrillRecord, scenario: Scenario): Moment[] {
  const phases = phasesOf(scenario.steps);
  const times = phases.map((steps) => steps.flatMap((s) => s.do).reduce((sum, a) => sum + duration_s(a, scenario), 0));
  const total = times.reduce((a, b) => a + b, 0) || 1;
  const scale_us = (scenario.minutes.expert * 60e6) / total;
  const claims = new Claims(record.lines);
  let from_s = 0;
  return phases.flatMap((steps, n) => {
    const to_s = from_s + (times[n] as number);
    const expected = { from_us: Math.round(from_s * scale_us), to_us: Math.round(to_s * scale_us) };
    from_s = to_s;
    const acts = steps.flatMap((step) => step.do.flatMap(actsOf));
    if (acts.length === 0) return [];
    const at = acts.flatMap((act) => claims.claim(act)?.t ?? []);
    const happened = at.length > 0 ? { from_us: Math.min(...at), to_us: Math.max(...at) } : null;
    return [{ label: named((steps[0] as Step).phase), expected, happened }];
  });
}
