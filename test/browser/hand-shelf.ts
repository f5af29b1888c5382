/** A run put on the browser's shelf as if it had been worked there: to come to any instant of a drill at once. */
import type { Page } from 'playwright-core';
import { ENGINE } from '../../src/core/record/record.ts';
import { NAME } from './hand-drill.ts';
import type { Plan } from './hand-plan.ts';

/** Stores the run of a plan up to drill time `t` (us), whole if there is none, and returns its id. The page must be on the site. */
export async function shelve(page: Page, { moves, scenario, text, seed, manner }: Plan, t?: number): Promise<string> {
  const id = `shelved-${manner}-${t ?? 'whole'}`;
  const head = {
    ...{ id, title: scenario.title, name: NAME, scenario: text, engine: ENGINE, seed, manner, stretch: 1 },
    began_ms: 0,
  };
  const entries = moves.flatMap((m) => m.stored).filter((e) => t === undefined || e.t <= t);
  const clock = { t: t ?? entries.at(-1)?.t ?? 0, wall_ms: 0, ...(t === undefined ? { outcome: 'handed over' } : {}) };
  const keys = [
    [`keydown/run/${id}`, head],
    ...entries.map((e, i) => [`keydown/run/${id}/${String(i + 1).padStart(6, '0')}`, e]),
    [`keydown/run/${id}/clock`, clock],
  ] as [string, object][];
  await page.evaluate(
    (all) => {
      for (const [key, text] of all) localStorage.setItem(key as string, text as string);
    },
    keys.map(([key, value]) => [key, JSON.stringify(value)]),
  );
  return id;
}

/** Drill time (us) of the first move of `control` to `value`. */
export function momentOf({ moves }: Plan, control: string, value: string | boolean): number {
  const move = moves.find((m) => m.control === control && m.stored.some((s) => s.value === value));
  if (!move) throw new Error(`the plan never sets ${control} to ${value}`);
  return move.t;
}

/** A hand that fits the insulator guard never. */
export const unguarded = (steps: Plan['scenario']['steps']): Plan['scenario']['steps'] =>
  steps.map((step) =>
    step.id !== 'outside' && step.id !== 'hand-over'
      ? step
      : {
          ...step,
          do: step.do.map((a) =>
            'set' in a
              ? { set: Object.fromEntries(Object.entries(a.set).filter(([control]) => control !== 'aerial.guard')) }
              : a,
          ),
          ...(step.done ? { done: { standing: 'aerial.earth', is: true } } : {}),
        },
  );
