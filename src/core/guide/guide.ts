/** What the manners *shown* and *prompted* say next, from the scenario's own steps. */
import type { Action, Condition, Scenario, Step } from '../scenario/scenario.ts';
import { holds } from './condition.ts';
import type { View } from './view.ts';

/** The step that is due: its number from 0, how many there are, and what to say of it. */
export type NextStep = { index: number; of: number; step: Step; tip: string; why: string };

/** A step's own end, or else that every control it sets stands as set. */
function endOf(step: Step): Condition | undefined {
  return step.done ?? (settings(step.do).length > 0 ? { all: settings(step.do) } : undefined);
}

function settings(actions: readonly Action[]): Condition[] {
  return actions.flatMap((a) => ('set' in a ? Object.entries(a.set).map(([standing, is]) => ({ standing, is })) : []));
}

/**
 * Follows a trainee through the steps: a step that is done stays done, and the first that is not is the next. What was done,
 * heard or printed while the step before was due counts too: two may come in one breath.
 */
export class Guide {
  private index = 0;
  private began_us = 0;
  private before_us = 0;
  constructor(private readonly scenario: Scenario) {}

  /** The step that is due now, or null when all are done. Give it the same view each time; it only looks. */
  next(view: View): NextStep | null {
    const { steps } = this.scenario;
    for (; this.index < steps.length; this.index++) {
      const end = endOf(steps[this.index] as Step);
      if (end && !holds(end, view, this.before_us, {}, this.began_us)) break;
      this.before_us = this.began_us;
      this.began_us = view.now_us;
    }
    const step = steps[this.index];
    return step ? { index: this.index, of: steps.length, step, tip: step.tip ?? step.title, why: step.why } : null;
  }
}
