/** The runs on the shelf. Every event is here before it takes effect, so that no reload and no crash can lose one. */
import { type Entry, type RunClock, type RunHead, readClock, readEntry, readHead, type StoredRun } from './journal.ts';
import { keysOf, type Shelf } from './shelf.ts';

/** What went wrong, why it matters, what to do: said in three sentences. */
export type Trouble = { what: string; why: string; todo: string };

/** So many runs are kept; when there are more, the oldest finished one goes first. */
export const KEPT_RUNS = 12;

const ROOT = 'keydown/run/';
const headKey = (id: string) => `${ROOT}${id}`;
const clockKey = (id: string) => `${ROOT}${id}/clock`;
const nameKey = (id: string) => `${ROOT}${id}/name`;
const entryKey = (id: string, n: number) => `${ROOT}${id}/${String(n).padStart(6, '0')}`;
const isEntryKey = /\/\d{6,}$/;

const FULL: Trouble = {
  what: 'The browser has no room left to keep this drill.',
  why: 'It goes on, but what you do from here is lost if this page closes.',
  todo: 'Finish it in one go, and save the record at the end. Removing stored drills on the first page makes room.',
};

/** The journal of runs. Given a shelf and the wall clock in milliseconds. */
export class Runs {
  private readonly count = new Map<string, number>();
  private trouble: Trouble | undefined;

  constructor(
    private readonly shelf: Shelf,
    private readonly wall_ms: () => number,
    readonly lasting = true,
  ) {}

  /** Puts a new run on the shelf and returns its id. */
  begin(about: Omit<RunHead, 'id' | 'began_ms'>): RunHead {
    const began_ms = this.wall_ms();
    const head: RunHead = { id: this.newId(began_ms), began_ms, ...about };
    this.makeRoom(KEPT_RUNS - 1);
    this.count.set(head.id, 0);
    this.put(headKey(head.id), head);
    this.keepClock(head.id, 0);
    return head;
  }

  /** Keeps one more event of a run. */
  append(id: string, entry: Entry): void {
    const n = (this.count.get(id) ?? this.entryKeys(id).length) + 1;
    this.count.set(id, n);
    this.put(entryKey(id, n), entry);
  }

  /** Keeps how far the drill's clock has come; `outcome` once it is over. */
  keepClock(id: string, t: number, outcome?: string): void {
    const clock: RunClock = { t, wall_ms: this.wall_ms(), ...(outcome === undefined ? {} : { outcome }) };
    this.put(clockKey(id), clock);
  }

  /** Why the shelf did not take what it was last given; undefined when it did. */
  get problem(): Trouble | undefined {
    return this.trouble;
  }

  /** Headers and clocks of all runs, newest first. */
  list(): { head: RunHead; clock: RunClock }[] {
    const heads = keysOf(this.shelf, ROOT).flatMap((key) => {
      if (key.slice(ROOT.length).includes('/')) return [];
      return readHead(this.shelf.getItem(key)) ?? [];
    });
    return heads
      .sort((a, b) => b.began_ms - a.began_ms || (a.id < b.id ? 1 : -1))
      .map((head) => ({ head, clock: this.clockOf(head) }));
  }

  /** A whole run; undefined if there is none with a readable header. Entries after a broken one are not used, nor removed. */
  load(id: string): StoredRun | undefined {
    const head = readHead(this.shelf.getItem(headKey(id)));
    if (!head) return undefined;
    const entries: Entry[] = [];
    const total = this.lastEntry(id);
    for (let n = 1; n <= total; n++) {
      const entry = readEntry(this.shelf.getItem(entryKey(id, n)));
      if (!entry || entry.t < (entries.at(-1)?.t ?? 0)) return { head, entries, clock: this.clockOf(head), broken: n };
      entries.push(entry);
    }
    this.count.set(id, total);
    return { head, entries, clock: this.clockOf(head) };
  }

  /** Makes a new run of what can be read of a broken one. The broken one stays as it is. */
  salvage(run: StoredRun): RunHead {
    const { id: _id, began_ms: _began, ...about } = run.head;
    const head = this.begin(about);
    for (const entry of run.entries) this.append(head.id, entry);
    this.keepClock(head.id, run.entries.at(-1)?.t ?? 0);
    return head;
  }

  /** The name typed for the run's printed sheet; empty if none. It goes with its run and stands on no other's sheet. */
  nameOn(id: string): string {
    return this.shelf.getItem(nameKey(id)) ?? '';
  }

  /** Keeps the name on a run's sheet. A shelf that is full keeps none: no other run goes for a name. */
  keepName(id: string, name: string): void {
    try {
      this.shelf.setItem(nameKey(id), name);
    } catch {
      this.shelf.removeItem(nameKey(id));
    }
  }

  /** Everything that the shelf holds of a run, as text, for a file. */
  raw(id: string): string {
    const keys = [headKey(id), ...this.entryKeys(id).sort(), clockKey(id)];
    return keys.map((key) => `${key}\t${this.shelf.getItem(key) ?? ''}`).join('\n');
  }

  /** Takes a run off the shelf. */
  remove(id: string): void {
    for (const key of [...this.entryKeys(id), nameKey(id), clockKey(id), headKey(id)]) this.shelf.removeItem(key);
    this.count.delete(id);
  }

  private newId(began_ms: number): string {
    const stem = began_ms.toString(36);
    for (let n = 0; ; n++) {
      const id = n === 0 ? stem : `${stem}-${n}`;
      if (this.shelf.getItem(headKey(id)) === null) return id;
    }
  }

  private entryKeys(id: string): string[] {
    return keysOf(this.shelf, `${headKey(id)}/`).filter((key) => isEntryKey.test(key));
  }

  private lastEntry(id: string): number {
    return Math.max(0, ...this.entryKeys(id).map((key) => Number(key.slice(key.lastIndexOf('/') + 1))));
  }

  /** A clock that is lost stands where the last event was, just after the run began by the wall. */
  private clockOf(head: RunHead): RunClock {
    const clock = readClock(this.shelf.getItem(clockKey(head.id)));
    if (clock) return clock;
    const last = readEntry(this.shelf.getItem(entryKey(head.id, this.lastEntry(head.id))));
    return { t: last?.t ?? 0, wall_ms: head.began_ms };
  }

  private put(key: string, value: object): void {
    const text = JSON.stringify(value);
    for (;;) {
      try {
        this.shelf.setItem(key, text);
        this.trouble = undefined;
        return;
      } catch {
        if (this.dropOldestFinished()) continue;
        this.trouble = FULL;
        return;
      }
    }
  }

  private makeRoom(most: number): void {
    const runs = this.list();
    for (let n = runs.length; n > most; n--)
      if (!this.dropOldestFinished()) this.remove((runs[n - 1] as (typeof runs)[0]).head.id);
  }

  private dropOldestFinished(): boolean {
    const oldest = this.list()
      .filter(({ clock }) => clock.outcome !== undefined)
      .at(-1);
    if (oldest) this.remove(oldest.head.id);
    return oldest !== undefined;
  }
}
