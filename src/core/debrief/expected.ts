/** How long an expert would take for each phase. */
import type { Action, Scenario, Step } from '../scenario/scenario.ts';
import type { Span } from './air.ts';

// How long the parts of a step take, seconds: common practice at a desk; only their proportions matter.
const REACH_S = 0.7;
const PRESS_S = 0.9;
const WORD_S = 0.4;
const KEY_S = 0.18;
const ANSWER_S = 8;
const UNTIL_S = 6;
/** A character of the tape: 7.5 units at 50 Bd. */
const COLUMN_S = 0.15;

/** Characters of a message as it is punched. */
const charsOf = (s: Scenario, id: string): number =>
  s.papers.messages.find((m) => m.id === id)?.lines.join('\r\n').length ?? 0;

/** What the steps have punched so far is what the reader then sends. */
type Tape = { chars: number };

function duration_s(a: Action, s: Scenario, tape: Tape): number {
  const all = (list: readonly Action[]): number => list.reduce((sum, one) => sum + duration_s(one, s, tape), 0);
  if ('set' in a) return Object.keys(a.set).length * REACH_S + (a.set['tape.run'] === true ? COLUMN_S * tape.chars : 0);
  if ('press' in a) return a.press.length * PRESS_S;
  if ('hold' in a) return REACH_S + all(a.hold.do);
  if ('wait' in a) return a.wait;
  if ('say' in a) return 2 * REACH_S + a.say.split(/\s+/).length * WORD_S;
  if ('hear' in a) return Math.min(a.within, ANSWER_S);
  if ('type' in a) return a.type.length * KEY_S;
  if ('punch' in a) {
    tape.chars += charsOf(s, a.punch);
    return KEY_S * charsOf(s, a.punch);
  }
  if ('tune' in a) return (Math.abs(a.tune.to - a.tune.from) / a.tune.by) * a.tune.every_s;
  if ('when' in a) return all(a.do);
  if ('again' in a) return all(a.do);
  if ('until' in a) return Math.min(a.within, 'quiet' in a.until ? a.until.quiet : UNTIL_S);
  return 2 * REACH_S;
}

/** A step's time. An expert's first try does: what may be done again after something was said or waited for takes none. */
function step_s(step: Step, s: Scenario, tape: Tape): number {
  let sum = 0;
  let isTried = false;
  for (const action of step.do) {
    const isAgain = 'again' in action;
    if (!isAgain || !isTried) sum += duration_s(action, s, tape);
    isTried ||= isAgain || 'say' in action || 'until' in action;
  }
  return sum;
}

/** An expert's minutes, shared out over the phases by what their steps ask for. */
export function expectedOf(phases: readonly (readonly Step[])[], s: Scenario): Span[] {
  const tape: Tape = { chars: 0 };
  const times = phases.map((steps) => steps.reduce((sum, step) => sum + step_s(step, s, tape), 0));
  const scale_us = (s.minutes.expert * 60e6) / (times.reduce((a, b) => a + b, 0) || 1);
  let from_s = 0;
  return times.map((time) => {
    const from_us = Math.round(from_s * scale_us);
    from_s += time;
    return { from_us, to_us: Math.round(from_s * scale_us) };
  });
}
