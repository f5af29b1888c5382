/** Who works the steps as they are written is told each of them while it is due: no step ends before all that it asks is done. */
import { expect, test } from 'vitest';
import { Guide } from '../../src/core/guide/guide.ts';
import { workThrough } from '../../src/core/hand/model.ts';
import { begin, scenarioOf } from './first-call.ts';

type Told = { control: string; value: unknown; step: string };

/** The model operator's acts, each with the step that the guide told just before it. */
function told(seed: number): Told[] {
  const scenario = scenarioOf(seed);
  const drill = begin(seed);
  workThrough(scenario, drill, seed);
  const again = begin(seed);
  const guide = new Guide(scenario);
  const out: Told[] = [];
  for (const line of drill.record.lines) {
    if (line.k !== 'do') continue;
    again.advance(line.t);
    out.push({ control: line.control, value: line.value, step: guide.next(again)?.step.id ?? 'none' });
    again.act(line.control, line.value);
  }
  return out;
}

// The next thing comes within seconds: what is logged may wait, and the step must not.
const MAY_WAIT = /^desk.log (CALLED|RECOGNITION|SENT|RECEIPT)/;

/** What a step asks outright, whatever comes: settings, presses, log entries, the first words of what is said. */
const asked = scenarioOf(1).steps.flatMap((step) =>
  step.do.flatMap((a): [string, string, (value: unknown) => boolean][] => {
    if ('set' in a) return Object.entries(a.set).map(([control, is]) => [step.id, control, (v) => v === is]);
    if ('press' in a) return a.press.map((control) => [step.id, control, (v) => v === true]);
    if ('hold' in a) return [[step.id, a.hold.control, (v) => v === true]];
    if ('log' in a) return [[step.id, 'desk.log', (v) => v === a.log]];
    if ('say' in a) return [[step.id, 'hand.say', (v) => String(v).startsWith(a.say.split('{')[0]!)]];
    return [];
  }),
);

test.each([1, 2, 3])('seed %i', (seed) => {
  const acts = told(seed);
  const early: string[] = [];
  let from = 0;
  for (const [step, control, fits] of asked) {
    const at = acts.findIndex((a, i) => i >= from && a.control === control && fits(a.value));
    if (at < 0) continue;
    from = at;
    const { value, step: then } = acts[at]!;
    const act = `${control} ${value}`;
    if (then !== step && !MAY_WAIT.test(act)) early.push(`${act} is asked by ${step}, and was told ${then}`);
  }
  expect(early).toEqual([]);
  expect(acts.at(-1)!.step).toBe('hand-over');
});
