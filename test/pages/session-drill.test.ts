/** The session on the real station: what the shelf brings back is the same record, byte for byte. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { KINDS } from '../../src/core/catalogue.ts';
import { Drill } from '../../src/core/drill.ts';
import { Guide } from '../../src/core/guide/guide.ts';
import { writeRecord } from '../../src/core/record/format.ts';
import { ENGINE } from '../../src/core/record/record.ts';
import { parseScenario } from '../../src/core/scenario/scenario.ts';
import { HandClock } from '../../src/pages/clock.ts';
import type { Rooms, StoredRun } from '../../src/pages/host.ts';
import { fresh, replay } from '../../src/pages/replay.ts';
import { Session } from '../../src/pages/session.ts';
import { Runs } from '../../src/store/runs.ts';
import { MemoryShelf } from '../../src/store/shelf.ts';
import { OLD, OLD_RUN, oldJournal, oldKeys } from '../old/old.ts';

const text = readFileSync(new URL('../../scenarios/first-call.yaml', import.meta.url), 'utf8');
const rooms = {
  scenario: (yaml, file, seed) => parseScenario(yaml, KINDS, { file, seed }),
  drill: (scenario, setting) => new Drill(scenario, setting),
  guide: (scenario) => new Guide(scenario),
} as Pick<Rooms, 'scenario' | 'drill' | 'guide'> as Rooms;

it('first-call, worked, killed and taken up again, has one record', async () => {
  const runs = new Runs(new MemoryShelf(), () => 0);
  const about = { name: 'first-call.yaml', scenario: text, seed: 7, stretch: 1, engine: ENGINE, title: 'First' };
  const head = runs.begin({ ...about, manner: 'shown' });
  const begun = fresh(rooms, head);
  if (!begun.ok) throw new Error(JSON.stringify(begun.errors[0]));
  const clock = new HandClock();
  const session = new Session({ runs, clock, wall_ms: () => 0 }, head, begun.value.drill, begun.value.guide);
  session.go();
  const acts = ['feed.isolator', 'feed.master', 'feed.vent', 'feed.receiver', 'receiver.power', 'receiver.bfo'];
  for (const [i, control] of acts.entries()) {
    clock.advance(733 + 97 * i);
    session.look();
    expect(session.act(control, true)).toBeUndefined();
  }
  for (let i = 0; i < 80; i++) {
    clock.advance(217);
    session.look();
  }
  session.stop('hidden');
  session.go();
  session.end('given up');
  const again = await replay(rooms, runs.load(head.id) as StoredRun, () => {});
  expect(again.ok && writeRecord(again.value.drill.record)).toBe(writeRecord(session.drill.record));
  expect(session.drill.record.lines.some((l) => l.k === 'help')).toBe(true);
});

it('the journal of an engine whose drill this one does not take is refused whole, and stays on the shelf to the byte', async () => {
  const shelf = new MemoryShelf();
  for (const [key, value] of oldKeys) shelf.setItem(key, value);
  const runs = new Runs(shelf, () => 0);
  const run = runs.load(OLD_RUN) as StoredRun;
  expect([run.head.engine, run.entries.length, run.broken]).toEqual([OLD, 389, undefined]);
  const again = await replay(rooms, run, () => {});
  expect(again.ok ? [] : again.errors.map((e) => e.code)).toContain('unknown-kind');
  expect(runs.raw(OLD_RUN)).toBe(oldJournal);
});
