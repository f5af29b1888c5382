import { describe, expect, it } from 'vitest';
import { KEPT_RUNS, Runs } from '../../src/store/runs.ts';
import { keepSettings, readSettings } from '../../src/store/settings.ts';
import { MemoryShelf, openShelf } from '../../src/store/shelf.ts';

const about = {
  name: 'a.yaml',
  scenario: 'id: a',
  seed: 7,
  manner: 'unaided',
  stretch: 1,
  engine: 'test 1',
  title: 'A',
} as const;

/** A shelf that holds so many characters and no more, as browsers do. */
class SmallShelf extends MemoryShelf {
  constructor(private readonly room: number) {
    super();
  }
  override setItem(key: string, value: string): void {
    let used = key.length + value.length;
    for (let i = 0; i < this.length; i++) {
      const other = this.key(i) as string;
      if (other !== key) used += other.length + (this.getItem(other) as string).length;
    }
    if (used > this.room) throw new DOMException('full', 'QuotaExceededError');
    super.setItem(key, value);
  }
}

const clockwork = () => {
  let now = 1_000_000;
  return () => (now += 1000);
};

describe('runs', () => {
  it('give back every entry in its order', () => {
    const shelf = new MemoryShelf();
    const runs = new Runs(shelf, clockwork());
    const { id } = runs.begin(about);
    runs.append(id, { t: 5, control: 'feed.isolator', value: true });
    runs.append(id, { t: 5, control: 'desk.log', value: 'on watch' });
    runs.append(id, { t: 9, away_ms: 1200, why: 'hidden' });
    runs.append(id, { t: 9, help: 'power' });
    runs.append(id, { t: 12, end: 'given up' });
    runs.keepClock(id, 14);
    const again = new Runs(shelf, clockwork()).load(id);
    expect(again?.entries).toEqual([
      { t: 5, control: 'feed.isolator', value: true },
      { t: 5, control: 'desk.log', value: 'on watch' },
      { t: 9, away_ms: 1200, why: 'hidden' },
      { t: 9, help: 'power' },
      { t: 12, end: 'given up' },
    ]);
    expect(again?.clock.t).toBe(14);
    expect(again?.broken).toBeUndefined();
  });

  it('keep the name on their own sheet, which goes with them', () => {
    const shelf = new MemoryShelf();
    const runs = new Runs(shelf, clockwork());
    const one = runs.begin(about).id;
    const other = runs.begin(about).id;
    runs.keepName(one, 'Ada');
    const again = new Runs(shelf, clockwork());
    expect([again.nameOn(one), again.nameOn(other)]).toEqual(['Ada', '']);
    again.remove(one);
    const left = Array.from({ length: shelf.length }, (_, n) => shelf.getItem(shelf.key(n) ?? ''));
    expect(left.filter((text) => text?.includes('Ada'))).toEqual([]);
  });

  it('go on numbering after a reload, so that nothing is written over', () => {
    const shelf = new MemoryShelf();
    const { id } = new Runs(shelf, clockwork()).begin(about);
    new Runs(shelf, clockwork()).append(id, { t: 1, help: 'a' });
    new Runs(shelf, clockwork()).append(id, { t: 2, help: 'b' });
    expect(new Runs(shelf, clockwork()).load(id)?.entries).toEqual([
      { t: 1, help: 'a' },
      { t: 2, help: 'b' },
    ]);
  });

  it('stand newest first, and so many at most; finished ones go first', () => {
    const runs = new Runs(new MemoryShelf(), clockwork());
    const first = runs.begin({ ...about, title: 'open' });
    const second = runs.begin({ ...about, title: 'done' });
    runs.keepClock(second.id, 5, 'handed over');
    for (let i = 0; i < KEPT_RUNS - 1; i++) runs.begin({ ...about, seed: i });
    const ids = runs.list().map(({ head }) => head.id);
    expect(ids).toHaveLength(KEPT_RUNS);
    expect(ids.at(-1)).toBe(first.id);
    expect(ids).not.toContain(second.id);
  });

  it('say where a journal is broken, give what stands before, and lose nothing of it', () => {
    const shelf = new MemoryShelf();
    const runs = new Runs(shelf, clockwork());
    const { id } = runs.begin(about);
    for (let n = 1; n <= 4; n++) runs.append(id, { t: n, help: `h${n}` });
    shelf.setItem(`keydown/run/${id}/000003`, '{"t":3,"he');
    const run = runs.load(id);
    expect(run?.broken).toBe(3);
    expect(run?.entries).toHaveLength(2);
    const saved = runs.salvage(run as NonNullable<typeof run>);
    expect(runs.load(saved.id)?.entries).toEqual(run?.entries);
    // Whatever engine began it began what is saved of it too.
    expect(saved.engine).toBe(about.engine);
    expect(runs.load(saved.id)?.broken).toBeUndefined();
    expect(runs.raw(id)).toContain('{"t":3,"he');
    expect(runs.raw(id)).toContain('"h4"');
  });

  it.each([
    ['a hole in the numbers', undefined],
    ['an entry of no kind', '{"t":2}'],
    ['a time that is none', '{"t":-1,"help":"x"}'],
    ['an entry before the one before it', '{"t":0,"help":"x"}'],
    ['a list', '[1]'],
  ])('take %s for a break', (_what, text) => {
    const shelf = new MemoryShelf();
    const runs = new Runs(shelf, clockwork());
    const { id } = runs.begin(about);
    for (let n = 1; n <= 3; n++) runs.append(id, { t: n, help: 'h' });
    const key = `keydown/run/${id}/000002`;
    if (text === undefined) shelf.removeItem(key);
    else shelf.setItem(key, text);
    expect(runs.load(id)?.broken).toBe(2);
  });

  it('pass over a header that is none, and take a lost clock from the last entry', () => {
    const shelf = new MemoryShelf();
    const runs = new Runs(shelf, clockwork());
    const { id } = runs.begin(about);
    runs.append(id, { t: 77, help: 'h' });
    shelf.setItem(`keydown/run/${id}/clock`, 'zap');
    shelf.setItem('keydown/run/other', '{"id":"other","seed":"x"}');
    expect(runs.list().map(({ head }) => head.id)).toEqual([id]);
    expect(runs.load(id)?.clock.t).toBe(77);
    expect(runs.load('other')).toBeUndefined();
  });

  it('make room by letting the oldest finished run go', () => {
    const runs = new Runs(new SmallShelf(1500), clockwork());
    const old = runs.begin(about);
    for (let n = 1; n <= 10; n++) runs.append(old.id, { t: n, help: 'something to fill the shelf' });
    runs.keepClock(old.id, 10, 'handed over');
    const { id } = runs.begin(about);
    for (let n = 1; n <= 10; n++) runs.append(id, { t: n, help: 'something to fill the shelf' });
    expect(runs.problem).toBeUndefined();
    expect(runs.load(old.id)).toBeUndefined();
    expect(runs.load(id)?.entries).toHaveLength(10);
  });

  it('say so when the shelf is full, and keep what they have', () => {
    const runs = new Runs(new SmallShelf(700), clockwork());
    const { id } = runs.begin(about);
    for (let n = 1; n <= 20; n++) runs.append(id, { t: n, help: 'something to fill the shelf' });
    expect(runs.problem?.what).toContain('no room');
    expect(runs.load(id)?.entries.length).toBeGreaterThan(1);
  });
});

describe('shelf', () => {
  it('is memory where the browser refuses its own', () => {
    const refused = openShelf(() => {
      throw new DOMException('denied', 'SecurityError');
    });
    expect(refused.lasting).toBe(false);
    refused.shelf.setItem('a', 'b');
    expect(refused.shelf.getItem('a')).toBe('b');
  });
});

describe('settings', () => {
  it('come back as they were kept', () => {
    const shelf = new MemoryShelf();
    const settings = {
      theme: 'night',
      stretch: 1.5,
      manner: 'assessed',
      sound: false,
      letters: false,
      keys: { KeyE: 'KeyX' },
    } as const;
    keepSettings(shelf, settings);
    expect(readSettings(shelf)).toEqual(settings);
  });

  it.each([
    '',
    'null',
    '7',
    '{"theme":"neon","stretch":3,"manner":1,"keys":{"KeyE":"Enter","x":"KeyA","KeyB":1}}',
    '{',
  ])('are the usual ones for %j', (text) => {
    const shelf = new MemoryShelf();
    shelf.setItem('keydown/settings', text);
    expect(readSettings(shelf)).toEqual({
      theme: 'paper',
      stretch: 1,
      manner: 'prompted',
      sound: true,
      letters: true,
      keys: {},
    });
  });
});
