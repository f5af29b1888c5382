/** A drill in small for the session's tests: it ticks, takes settings, and writes a record as the real one does. */
import type { Drill, Setting } from '../../src/core/drill.ts';
import { append, type DrillRecord, type LineBody } from '../../src/core/record/record.ts';
import type { Scenario, Step } from '../../src/core/scenario/scenario.ts';
import type { Control } from '../../src/core/station/box.ts';
import type { Rooms } from '../../src/pages/host.ts';

const TICK_US = 250_000;

class ToyDrill {
  now_us = 0;
  ended = false;
  level = 0;
  private readonly set = new Map<string, string | number | boolean>();
  readonly record: DrillRecord;
  constructor(
    readonly scenario: Scenario,
    setting: Setting,
    private readonly limit_us: number,
  ) {
    this.record = { header: { 'keydown-record': 1, engine: 'toy', ...setting }, lines: [] };
  }

  /** Every tick the level moves by an amount that depends on all that was done before, so that a lost event shows. */
  advance(to_us: number): void {
    if (!Number.isSafeInteger(to_us)) throw new RangeError(`whole microseconds, got ${to_us}`);
    for (let t = (Math.floor(this.now_us / TICK_US) + 1) * TICK_US; t <= to_us && !this.ended; t += TICK_US) {
      this.now_us = t;
      this.level = (this.level * 31 + this.record.lines.length + 7) % 1009;
      if (this.level % 5 === 0) this.note({ k: 'value', q: 'toy.level', v: this.level });
      if (t >= this.limit_us) this.end('out of time');
    }
    if (!this.ended) this.now_us = Math.max(this.now_us, to_us);
  }

  act(control: string, value: string | number | boolean): string | undefined {
    if (this.ended) return 'the drill is over';
    this.note({ k: 'do', n: this.record.lines.length, control, value });
    this.level += 13;
    this.set.set(control, value);
    if (control === 'desk.handover') this.end('handed over');
    return control === 'toy.stuck' ? 'it is stuck' : undefined;
  }

  /** Every control is a switch but `toy.push`. */
  control(name: string): Pick<Control, 'range'> {
    return { range: name === 'toy.push' ? { kind: 'press' } : { kind: 'switch', words: ['out', 'in'] } };
  }

  standing(name: string): string | number | boolean | undefined {
    return this.set.get(name);
  }

  remark(body: LineBody): void {
    this.note(body);
  }

  end(why: string): void {
    if (this.ended) return;
    this.note({ k: 'end', why });
    this.ended = true;
  }

  private note(body: LineBody): void {
    if (!this.ended) append(this.record, this.now_us, body);
  }
}

const step = (id: string): Step => ({ id, phase: id, title: id, why: `why ${id}`, do: [] });

/** Rooms with toy drills that end after `limit_s`; each step of the guide is done by the control of its name. */
export function toyRooms(steps: readonly string[] = [], limit_s = 3600): Rooms {
  const scenario = { id: 'toy', title: 'Toy', steps: steps.map(step) } as unknown as Scenario;
  return {
    scenario: (text, file) =>
      text === 'bad'
        ? { ok: false, errors: [{ code: 'bad', file, line: 1, col: 1, source: 'bad', caret: '^', expected: 'good' }] }
        : { ok: true, scenario },
    drill: (made, setting) => new ToyDrill(made, setting, limit_s * 1e6) as unknown as Drill,
    guide() {
      let index = 0;
      return {
        next(view) {
          const { lines } = (view as Drill).record;
          while (lines.some((l) => l.k === 'do' && l.control === steps[index])) index++;
          const id = steps[index];
          return id === undefined ? null : { index, of: steps.length, step: step(id), tip: id, why: id };
        },
      };
    },
    write: (record) => JSON.stringify(record),
    read: () => ({ ok: false, errors: [] }),
    debrief: () => {
      throw new Error('a toy drill has no debrief');
    },
  };
}
