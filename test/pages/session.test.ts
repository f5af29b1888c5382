import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { ENGINE, type Manner } from '../../src/core/record/record.ts';
import { HandClock } from '../../src/pages/clock.ts';
import type { RunShelf, StoredRun } from '../../src/pages/host.ts';
import { fresh, replay } from '../../src/pages/replay.ts';
import { Session } from '../../src/pages/session.ts';
import { Runs } from '../../src/store/runs.ts';
import { MemoryShelf, type Shelf } from '../../src/store/shelf.ts';
import { toyRooms } from './toy-drill.ts';

type Bench = { session: Session; clock: HandClock; shelf: Shelf; runs: RunShelf; id: string; wall: { ms: number } };

function begin(manner: Manner = 'unaided', rooms = toyRooms(), engine = ENGINE): Bench {
  const shelf = new MemoryShelf();
  const wall = { ms: 5000 };
  const runs = new Runs(shelf, () => wall.ms);
  const about = { name: 'toy.yaml', scenario: 'toy', seed: 1, manner, stretch: 1, engine, title: 'Toy' };
  const head = runs.begin(about);
  const made = fresh(rooms, head);
  if (!made.ok) throw new Error('no drill');
  const clock = new HandClock();
  const session = new Session({ runs, clock, wall_ms: () => wall.ms }, head, made.value.drill, made.value.guide);
  session.go();
  return { session, clock, shelf, runs, id: head.id, wall };
}

/** The page is killed: nothing more is written, and a new one takes the run up from the shelf. */
async function reopen(old: Bench, rooms = toyRooms()): Promise<Bench> {
  const runs = new Runs(old.shelf, () => old.wall.ms);
  const run = runs.load(old.id) as StoredRun;
  const again = await replay(rooms, run, () => {});
  if (!again.ok) throw new Error('no replay');
  const clock = new HandClock();
  const footing = { runs, clock, wall_ms: () => old.wall.ms };
  const session = new Session(footing, run.head, again.value.drill, again.value.guide);
  session.resumed(run.clock.wall_ms, again.value.step);
  session.go();
  return { session, clock, shelf: old.shelf, runs, id: old.id, wall: old.wall };
}

const pass = ({ clock, session }: Bench, ms: number): void => {
  clock.advance(ms);
  session.look();
};
const lines = ({ session }: Bench) => session.drill.record.lines;

describe('session', () => {
  it('stores an act before it takes effect', () => {
    const b = begin();
    pass(b, 1500);
    const act = vi.spyOn(b.session.drill, 'act').mockImplementation(() => {
      const kept = new Runs(b.shelf, () => 0).load(b.id)?.entries.at(-1);
      expect(kept).toEqual({ t: 1_500_000, control: 'feed.isolator', value: true });
      return undefined;
    });
    b.session.act('feed.isolator', true);
    expect(act).toHaveBeenCalledOnce();
  });

  it('says why an act was refused', () => {
    expect(begin().session.act('toy.stuck', 1)).toBe('it is stuck');
  });

  it('keeps the drill clock at least once a second of drill time', () => {
    const b = begin();
    for (let i = 0; i < 40; i++) {
      pass(b, 250);
      expect(b.session.drill.now_us - (b.runs.load(b.id)?.clock.t ?? 0)).toBeLessThan(1_000_000);
    }
  });

  it('lets no drill time pass while stopped, takes no act then, and writes the gap into the record', () => {
    const b = begin();
    pass(b, 2000);
    b.session.stop('hidden');
    pass(b, 60_000);
    expect(b.session.act('feed.isolator', true)).toBe('the clock stands');
    expect(b.session.drill.now_us).toBe(2_000_000);
    b.wall.ms += 60_000;
    b.session.go();
    expect(lines(b).at(-1)).toMatchObject({ k: 'interruption', wall_ms: 60_000, why: 'hidden', t: 2_000_000 });
    pass(b, 500);
    expect(b.session.drill.now_us).toBe(2_500_000);
  });

  it('lets a held push go before the clock stands, so that nothing stays pressed over a pause', () => {
    const b = begin();
    pass(b, 1000);
    b.session.act('feed.isolator', true);
    b.session.act('toy.push', true);
    pass(b, 500);
    b.session.stop('paused');
    expect(b.session.drill.standing('toy.push')).toBe(false);
    expect(b.session.drill.standing('feed.isolator')).toBe(true);
    expect(lines(b).at(-1)).toMatchObject({ k: 'do', control: 'toy.push', value: false, t: 1_500_000 });
    expect(b.runs.load(b.id)?.entries.at(-1)).toEqual({ t: 1_500_000, control: 'toy.push', value: false });
    b.session.go();
    expect(lines(b).filter((l) => l.k === 'do')).toHaveLength(3);
  });

  it('goes on with a run of another engine, and its record says which began it', async () => {
    const own = begin();
    expect(own.session.drill.record.header.engine).toBe(ENGINE);
    const old = begin('assessed', toyRooms(), 'keydown 0.0.9');
    pass(old, 1000);
    old.session.act('feed.isolator', true);
    const again = await reopen(old);
    expect(again.session.drill.record.header.engine).toBe(`${ENGINE}, begun with keydown 0.0.9`);
    expect(lines(again).filter((l) => l.k === 'do')).toEqual(lines(old).filter((l) => l.k === 'do'));
    expect(again.session.head.engine).toBe('keydown 0.0.9');
  });

  it('lets go what a killed page held, as soon as the run goes on', async () => {
    const b = begin();
    pass(b, 1000);
    b.session.act('toy.push', true);
    pass(b, 2000);
    const again = await reopen(b);
    expect(again.session.drill.standing('toy.push')).toBe(false);
    expect(lines(again).at(-1)).toMatchObject({ k: 'do', control: 'toy.push', value: false });
  });

  it('ends for good, and says so on the shelf', () => {
    const b = begin();
    pass(b, 1000);
    b.session.end('given up');
    expect(b.session.act('a.b', 1)).toBe('the drill is over');
    expect(b.runs.load(b.id)?.clock.outcome).toBe('given up');
  });

  it('ends by itself when the drill runs out of time', () => {
    const b = begin('unaided', toyRooms([], 10));
    pass(b, 20_000);
    expect(b.session.drill.ended).toBe(true);
    expect(b.runs.load(b.id)?.clock).toMatchObject({ t: 10_000_000, outcome: 'out of time' });
  });

  it('goes on after a kill with the record it had, and an interruption', async () => {
    const b = begin();
    pass(b, 1234);
    b.session.act('feed.isolator', true);
    pass(b, 3000);
    b.session.act('desk.log', 'on watch');
    pass(b, 1000);
    const before = structuredClone(lines(b));
    b.wall.ms += 90_000;
    const again = await reopen(b);
    expect(lines(again).slice(0, -1)).toEqual(before);
    expect(lines(again).at(-1)).toMatchObject({ k: 'interruption', wall_ms: 90_000, why: 'closed' });
  });

  it('has the same record after any acts and any kills as a replay of its journal', async () => {
    const moves = fc.oneof(
      { weight: 6, arbitrary: fc.record({ do: fc.constant('pass' as const), ms: fc.integer({ min: 0, max: 4000 }) }) },
      { weight: 4, arbitrary: fc.record({ do: fc.constant('act' as const), ms: fc.integer({ min: 0, max: 9 }) }) },
      { weight: 1, arbitrary: fc.record({ do: fc.constant('hide' as const), ms: fc.integer({ min: 0, max: 9000 }) }) },
      { weight: 1, arbitrary: fc.record({ do: fc.constant('kill' as const), ms: fc.integer({ min: 0, max: 9000 }) }) },
    );
    await fc.assert(
      fc.asyncProperty(fc.array(moves, { maxLength: 40 }), async (all) => {
        const rooms = () => toyRooms(['a.0', 'a.1', 'a.2']);
        let b = begin('shown', rooms());
        for (const move of all) {
          b.wall.ms += move.ms;
          if (move.do === 'pass') pass(b, move.ms);
          else if (move.do === 'act') b.session.act(`a.${move.ms}`, move.ms);
          else if (move.do === 'kill') b = await reopen(b, rooms());
          else {
            b.session.stop('hidden');
            b.wall.ms += 100;
            b.session.go();
          }
        }
        b.session.stop('closed');
        const { drill } = b.session;
        const again = await replay(rooms(), b.runs.load(b.id) as StoredRun, () => {});
        expect(again.ok && again.value.drill.record).toEqual(drill.record);
        expect(again.ok && again.value.drill.now_us).toBe(drill.now_us);
      }),
      { seed: 4718, numRuns: 60 },
    );
  });
});

describe('manners', () => {
  it('shown: each step is told once, and noted', async () => {
    const rooms = () => toyRooms(['a.0', 'a.1']);
    const b = begin('shown', rooms());
    pass(b, 500);
    expect(b.session.guideStep()?.index).toBe(0);
    b.session.act('a.0', 1);
    expect(b.session.guideStep()?.index).toBe(1);
    const helps = lines(b).flatMap((l) => (l.k === 'help' ? [l.what] : []));
    expect(helps).toEqual(['a.0', 'a.1']);
    const again = await reopen(b, rooms());
    pass(again, 500);
    expect(lines(again).flatMap((l) => (l.k === 'help' ? [l.what] : []))).toEqual(helps);
  });

  it('prompted: a step is told when asked for, until it is done', () => {
    const b = begin('prompted', toyRooms(['a.0', 'a.1']));
    pass(b, 500);
    expect(b.session.guideStep()).toBeNull();
    b.session.askHelp();
    b.session.askHelp();
    expect(b.session.guideStep()?.index).toBe(0);
    expect(lines(b).filter((l) => l.k === 'help')).toHaveLength(1);
    b.session.act('a.0', 1);
    expect(b.session.guideStep()).toBeNull();
  });

  it.each(['unaided', 'assessed'] as const)('%s: no help of any kind', (manner) => {
    const b = begin(manner, toyRooms(['a.0']));
    pass(b, 500);
    b.session.help('a.0');
    expect(b.session.askHelp()).toBeNull();
    expect(b.session.guideStep()).toBeNull();
    expect(lines(b).filter((l) => l.k === 'help')).toEqual([]);
  });
});

describe('replay', () => {
  it('brings errors of the scenario back as they are', async () => {
    const b = begin();
    const run = b.runs.load(b.id) as StoredRun;
    const bad = await replay(toyRooms(), { ...run, head: { ...run.head, scenario: 'bad' } }, () => {});
    expect(bad).toMatchObject({ ok: false, errors: [{ code: 'bad', file: 'toy.yaml' }] });
  });
});
