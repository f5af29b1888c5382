/** A stored run brought back: the same scenario, seed and entries make the same drill, to the event. */
import type { Drill } from '../core/drill.ts';
import type { NextStep } from '../core/guide/guide.ts';
import type { Scenario } from '../core/scenario/scenario.ts';
import { engineOf } from './engine.ts';
import type { Entry, Read, Rooms, RunHead, StoredRun } from './host.ts';

/** Drill time between two looks of the guide, us. */
const SLICE_US = 250_000;
/** The page is given a chance to draw after this much work, ms. */
const BREATH_MS = 40;

/** A drill and the guide that followed it. */
export type Brought = {
  drill: Drill;
  scenario: Scenario;
  guide: ReturnType<Rooms['guide']>;
  step: NextStep | null;
};

const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** A drill at its beginning. */
export function fresh(rooms: Rooms, head: Omit<RunHead, 'id' | 'began_ms'>): Read<Brought> {
  const read = rooms.scenario(head.scenario, head.name, head.seed);
  if (!read.ok) return read;
  const { name, scenario, seed, manner, stretch } = head;
  const drill = rooms.drill(read.scenario, { name, scenario, seed, manner, stretch });
  drill.record.header.engine = engineOf(head);
  return { ok: true, value: { drill, scenario: read.scenario, guide: rooms.guide(read.scenario), step: null } };
}

/** Does to a drill what an entry says, at its time. */
export function redo(drill: Drill, entry: Entry): void {
  drill.advance(Math.max(drill.now_us, entry.t));
  if ('control' in entry) drill.act(entry.control, entry.value);
  else if ('help' in entry) drill.remark({ k: 'help', what: entry.help });
  else if ('end' in entry) drill.end(entry.end);
  else drill.remark({ k: 'interruption', wall_ms: entry.away_ms, why: entry.why });
}

/** Works a stored run up to its stored clock. `progress` is told how far it is, 0 to 1. */
export async function replay(rooms: Rooms, run: StoredRun, progress: (done: number) => void): Promise<Read<Brought>> {
  const begun = fresh(rooms, run.head);
  if (!begun.ok) return begun;
  const { drill, guide } = begun.value;
  const end_us = Math.max(run.clock.t, run.entries.at(-1)?.t ?? 0);
  let breath = performance.now();
  const upTo = async (t: number) => {
    for (let at = drill.now_us; at < t && !drill.ended; at = drill.now_us) {
      drill.advance(Math.min(t, at + SLICE_US));
      if (run.head.manner === 'shown') begun.value.step = guide.next(drill);
      if (performance.now() - breath < BREATH_MS) continue;
      progress(end_us > 0 ? drill.now_us / end_us : 1);
      await breathe();
      breath = performance.now();
    }
  };
  for (const entry of run.entries) {
    await upTo(entry.t);
    redo(drill, entry);
    begun.value.step = guide.next(drill);
  }
  await upTo(end_us);
  begun.value.step = guide.next(drill);
  progress(1);
  return begun;
}
