/** A station of a few boxes on a bench supply, with an ear that brings what the test puts in. */
import { setup } from 'xstate';
import { newQueue, type Queue, takeDue } from '../../../../src/core/kernel/queue.ts';
import type { LineBody } from '../../../../src/core/record/record.ts';
import type { ControlValue, Ear, Json } from '../../../../src/core/signals.ts';
import type { Box, BoxState, Found } from '../../../../src/core/station/box.ts';
import { Station, type StationHost, type StationState } from '../../../../src/core/station/station.ts';
import type { Wires } from '../../../../src/core/station/wires.ts';

type BenchSupply = BoxState & { volts: number; hertz: number; sag: number };

/** Bench supply, which sags by `sag` volts a watt: mains and bus for every box under test. */
export const supply = {
  id: 'supply',
  name: 'Bench supply',
  bay: 'power',
  about: '',
  source: '',
  controls: [],
  indicators: [],
  sampled: [],
  machine: setup({}).createMachine({ id: 'supply', initial: 'on', states: { on: {} } }),
  inner: {},
  start: (found: Found): BenchSupply => ({
    mode: '',
    set: {},
    volts: Number(found.inner['volts'] ?? 230),
    hertz: Number(found.inner['hertz'] ?? 50),
    sag: Number(found.inner['sag'] ?? 0),
  }),
  settle(s: BenchSupply, w: Wires) {
    w.bus_V = 28;
    w.live.terminal = w.live.receiver = w.live.sender = true;
    w.mains_V = s.volts - s.sag * (w.mains_W.printer + w.mains_W.tape);
    w.mains_Hz = s.hertz;
  },
} satisfies Box<BenchSupply>;

/** An ear in a silent world with rural noise of about -30 dBuV/m in 1 Hz. */
export const silentEar: Ear = {
  arrivals: () => [],
  noise_dBuV: () => -30,
  samples: (t0, t1, _f, rate) => {
    const n = Math.ceil((t1 * rate) / 1e6) - Math.ceil((t0 * rate) / 1e6);
    return { re: new Float64Array(n), im: new Float64Array(n) };
  },
  words: () => [],
};

export type Noted = { t_us: number } & LineBody;

/** A station at work with its clock. */
export class Rig {
  queue = newQueue();
  readonly notes: Noted[] = [];
  ended = '';
  station: Station;
  private readonly boxes: readonly Box[];
  constructor(boxes: readonly Box[], found: Record<string, Partial<Found>> = {}, ear: Ear = silentEar, seed = 1) {
    const full = Object.fromEntries(Object.entries(found).map(([k, v]) => [k, { controls: {}, inner: {}, ...v }]));
    this.boxes = [supply, ...boxes];
    this.host = (queue: Queue) => ({
      queue,
      seed,
      utc0_s: 9 * 3600,
      ear,
      note: (body: LineBody) => this.notes.push({ t_us: queue.now_us, ...body }),
      end: (why: string) => {
        this.ended = why;
      },
    });
    this.station = Station.found(this.boxes, 'QV4M', full, this.host(this.queue));
  }

  private readonly host: (queue: Queue) => StationHost;

  /** Save all as text and go on from what was read back. */
  reload(): this {
    const saved = JSON.stringify([this.queue, this.station.state]);
    const [queue, state] = JSON.parse(saved) as [Queue, StationState];
    this.queue = queue;
    this.station = new Station(this.boxes, state, this.host(queue));
    return this;
  }

  get w(): Wires {
    return this.station.state.wires;
  }

  get now_us(): number {
    return this.queue.now_us;
  }

  /** Let time pass. */
  run(s: number): this {
    const until = this.queue.now_us + Math.round(s * 1e6);
    for (;;) {
      const due = takeDue(this.queue, until as never);
      if (!due) return this;
      if (due.to === 'tick') this.station.tick();
      else this.station.wake(due.to, due.event);
    }
  }

  turn(name: string, value: ControlValue): string | undefined {
    return this.station.turn(name, value);
  }

  /** Set what must not be refused. */
  do(name: string, value: ControlValue): this {
    const why = this.station.turn(name, value);
    if (why) throw new Error(`${name} ${value}: ${why}`);
    return this;
  }

  see(name: string): Json | undefined {
    return this.station.see(name);
  }

  /** Change the bench supply. */
  feed(volts: number, hertz = 50): this {
    Object.assign(this.station.state.boxes['supply'] as BenchSupply, { volts, hertz });
    this.station.settle();
    return this;
  }

  /** Press keys of the printer one after the other, as fast as the lock lets. */
  keys(...names: string[]): this {
    for (const name of names) this.do('printer.key', name).run(0.18);
    return this;
  }

  /** Characters printed so far at `own` (or elsewhere). */
  printed(at = 'own'): string {
    return this.notes.flatMap((n) => (n.k === 'print' && n.at === at ? [n.c] : [])).join('');
  }

  codes(at = 'own'): number[] {
    return this.notes.flatMap((n) => (n.k === 'print' && n.at === at ? [n.code] : []));
  }
}

/** The keys of a text of letters and spaces. */
export const keysOf = (text: string): string[] => Array.from(text, (c) => (c === ' ' ? 'SPACE' : c));
