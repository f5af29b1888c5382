/** A run brought to the bench: from the shelf, through its replay, to a session that can go. */
import { type Clock, HandClock, WallClock } from './clock.ts';
import type { Lent, Read, StoredRun } from './host.ts';
import { type Brought, replay } from './replay.ts';
import { Session } from './session.ts';

/** A session, or what stands in its way. */
export type Benched = { session: Session; brought: Brought };

declare global {
  interface Window {
    /** With `?clock=manual` in the address a drill's clock stands until a test turns it on. */
    keydownClock?: { advance(ms: number): number; now(): number };
  }
}

function clockFor(): Clock {
  return new URLSearchParams(location.search).get('clock') === 'manual' ? new HandClock() : new WallClock();
}

/** The test clock: `advance(ms)` lets so much drill time pass at once and returns the drill's time in ms. */
function handTo(clock: HandClock, session: Session): void {
  const now = () => session.drill.now_us / 1000;
  window.keydownClock = {
    now,
    advance(ms) {
      clock.advance(ms);
      session.look();
      return now();
    },
  };
}

/** Brings a stored run up to where it was. The clock stands until `session.go()`. */
export async function bench(lent: Lent, run: StoredRun, progress: (done: number) => void): Promise<Read<Benched>> {
  const rooms = await lent.rooms();
  const read = await replay(rooms, run, progress);
  if (!read.ok) return read;
  const { drill, guide, step } = read.value;
  const clock = clockFor();
  const session = new Session({ runs: lent.runs, clock }, run.head, drill, guide);
  if (run.clock.t > 0 || run.entries.length > 0) session.resumed(run.clock.wall_ms, step);
  if (clock instanceof HandClock) handTo(clock, session);
  return { ok: true, value: { session, brought: read.value } };
}

/** Holds a run for this page alone; false when another page has it. Without locks in the browser every page may. */
export function hold(run: string): Promise<{ free(): void } | undefined> {
  const { locks } = navigator;
  if (!locks) return Promise.resolve({ free: () => {} });
  return new Promise((resolve) => {
    locks.request(`keydown/run/${run}`, { ifAvailable: true }, (lock) => {
      if (!lock) return resolve(undefined);
      return new Promise<void>((done) => resolve({ free: () => done() }));
    });
  });
}
