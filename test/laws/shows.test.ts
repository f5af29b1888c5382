/** What indicators and sampled quantities are said to show is all that they show: else `check` would refuse what can be. */
import { expect, it } from 'vitest';
import { BOXES, KINDS } from '../../src/core/catalogue.ts';
import { workThrough } from '../../src/core/hand/model.ts';
import { canShow } from '../../src/core/record/shows.ts';
import { checkNames } from '../../src/core/scenario/check-patterns.ts';
import { Findings } from '../../src/core/scenario/findings.ts';
import type { Json } from '../../src/core/signals.ts';
import { begin, scenarioOf } from './first-call.ts';

const by = (detail: { [key: string]: Json }) => ('by' in detail ? { 'detail.by': detail['by'] as Json } : {});

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
  // What a drill writes, a measure may ask for.
  const found = new Findings(scenarioOf(seed), KINDS);
  for (const line of worked.record.lines) {
    if (line.k === 'far')
      checkNames(found, [], { k: 'far', station: line.station, what: line.what, ...by(line.detail) });
    if (line.k === 'air' || line.k === 'spoke') checkNames(found, [], { k: line.k, station: line.station });
    if (line.k === 'print') checkNames(found, [], { k: 'print', at: line.at });
  }
  expect(found.list).toEqual([]);
});

it('every box has its modes, and at rest every window shows what it may', () => {
  const drill = begin(1);
  for (const box of BOXES) expect(KINDS.modes.get(box.id)).toContain(drill.station.state.boxes[box.id]!.mode);
  for (const [name, shows] of KINDS.indicators) expect([name, canShow(shows, drill.see(name)!)]).toEqual([name, true]);
});
