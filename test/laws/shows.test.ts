/** What indicators and sampled quantities are said to show is all that they show: else `check` would refuse what can be. */
import { expect, it } from 'vitest';
import { BOXES, KINDS } from '../../src/core/catalogue.ts';
import { workThrough } from '../../src/core/hand/model.ts';
import { canShow } from '../../src/core/record/shows.ts';
import { begin, scenarioOf } from './first-call.ts';

it.each([1, 4])('a whole drill shows nothing else, draw %i', (seed) => {
  const worked = begin(seed);
  workThrough(scenarioOf(seed), worked, seed);
  const strange = new Set<string>();
  for (const line of worked.record.lines)
    if (line.k === 'value' && !canShow(KINDS.sampled.get(line.q)!, line.v))
      strange.add(`${line.q} ${JSON.stringify(line.v)}`);
  const again = begin(seed);
  for (const line of worked.record.lines) {
    if (line.k !== 'do' && line.k !== 'heard') continue;
    again.advance(line.t);
    if (line.k === 'do') again.act(line.control, line.value);
    for (const [name, shows] of KINDS.indicators) {
      const seen = again.see(name)!;
      if (!canShow(shows, seen)) strange.add(`${name} ${JSON.stringify(seen)}`);
    }
  }
  expect([...strange]).toEqual([]);
  for (const { k, ...line } of worked.record.lines) {
    if (k === 'far') expect(KINDS.notes).toContain((line as unknown as { what: string }).what);
  }
});

it('every box has its modes, and at rest every window shows what it may', () => {
  const drill = begin(1);
  for (const box of BOXES) expect(KINDS.modes.get(box.id)).toContain(drill.station.state.boxes[box.id]!.mode);
  for (const [name, shows] of KINDS.indicators) expect([name, canShow(shows, drill.see(name)!)]).toEqual([name, true]);
});
