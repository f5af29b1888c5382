/**
 * One station: its boxes, the wires between them, and how an event runs through. Boxes come as an argument, so another
 * trade's panel is another list.
 */
import { firstMode, type Moved, move } from '../kernel/machine.ts';
import { cancel, type Queue, schedule } from '../kernel/queue.ts';
import type { LineBody } from '../record/record.ts';
import type { ControlValue, Ear, Json } from '../signals.ts';
import { type Bench, type Box, type BoxState, type Control, type Found, misfit, onStep, TICK_US } from './box.ts';
import { newWires, type Wires } from './wires.ts';

/** All that a station is, as plain data. */
export type StationState = {
  boxes: Record<string, BoxState>;
  wires: Wires;
  /** Last recorded value of each sampled quantity. */
  sampled: Record<string, Json>;
};

/** What the drill lends its station. */
export type StationHost = {
  queue: Queue;
  seed: number;
  utc0_s: number;
  ear: Ear;
  note(body: LineBody): void;
  end(why: string): void;
};

/** A station at work. */
export class Station {
  readonly byId: ReadonlyMap<string, Box>;
  constructor(
    readonly boxes: readonly Box[],
    public state: StationState,
    private readonly host: StationHost,
  ) {
    this.byId = new Map(boxes.map((b) => [b.id, b]));
  }

  /** A station as found: every control where the scenario left it, machines in their first modes. */
  static found(boxes: readonly Box[], call: string, found: Record<string, Found>, host: StationHost): Station {
    const empty: Found = { controls: {}, inner: {} };
    const states = Object.fromEntries(boxes.map((b) => [b.id, b.start(found[b.id] ?? empty, host.seed)]));
    const station = new Station(boxes, { boxes: states, wires: newWires(call), sampled: {} }, host);
    for (const box of boxes) station.follow(box, firstMode(box.machine));
    schedule(host.queue, TICK_US, 'tick', null);
    station.settle();
    return station;
  }

  /** The control with full name `box.id`, or undefined. */
  control(name: string): { box: Box; control: Control } | undefined {
    const dot = name.indexOf('.');
    const box = this.byId.get(name.slice(0, dot));
    const control = box?.controls.find((c) => c.id === name.slice(dot + 1));
    return box && control ? { box, control } : undefined;
  }

  /** Set a control. Returns why not, in words, when the value does not fit or the box refuses. */
  turn(name: string, value: ControlValue): string | undefined {
    const at = this.control(name);
    if (!at) return `no control ${name}`;
    const wrong = misfit(at.control, value);
    if (wrong) return wrong;
    const { box, control } = at;
    const s = this.stateOf(box);
    const before = s.set[control.id] as ControlValue;
    const set = onStep(control, value);
    s.set[control.id] = set;
    const refusal = box.turn?.(s, control.id, set, this.state.wires, this.bench(box));
    if (refusal) s.set[control.id] = before;
    this.settle();
    return refusal;
  }

  /** Inner things `box.thing` change while the drill runs. Throws RangeError for a box that cannot be upset. */
  upset(inner: Readonly<Record<string, Json>>): void {
    for (const [name, value] of Object.entries(inner)) {
      const dot = name.indexOf('.');
      const box = this.byId.get(name.slice(0, dot));
      if (!box?.upset) throw new RangeError(`nothing to upset at ${name}`);
      box.upset(this.stateOf(box), name.slice(dot + 1), value, this.state.wires, this.bench(box));
    }
    this.settle();
  }

  /** A queued event for box `id` came due. */
  wake(id: string, event: Json): void {
    const box = this.byId.get(id);
    if (!box) throw new RangeError(`no box ${id} to wake`);
    const after = (event as { after?: string } | null)?.after;
    if (after !== undefined) this.follow(box, move(box.machine, this.stateOf(box).mode, after));
    else box.woken?.(this.stateOf(box), event, this.state.wires, this.bench(box));
    this.settle();
  }

  /** A whole multiple of TICK_US is reached. */
  tick(): void {
    for (const box of this.boxes) box.tick?.(this.stateOf(box), this.state.wires, TICK_US / 1e6, this.bench(box));
    schedule(this.host.queue, TICK_US, 'tick', null);
    this.settle();
  }

  /** What indicator `box.id` shows now; undefined if there is none. Looking changes nothing. */
  see(name: string): Json | undefined {
    const dot = name.indexOf('.');
    const box = this.byId.get(name.slice(0, dot));
    const indicator = box?.indicators.find((i) => i.id === name.slice(dot + 1));
    return box && indicator?.read(this.stateOf(box), this.state.wires, this.host.queue.now_us);
  }

  /** Where control `box.id` stands; undefined if there is none. */
  standing(name: string): ControlValue | undefined {
    const dot = name.indexOf('.');
    return this.state.boxes[name.slice(0, dot)]?.set[name.slice(dot + 1)];
  }

  /** Bring all wires up to now: boxes in the order of the list, twice, because some look back along the line. */
  settle(): void {
    for (let pass = 0; pass < 2; pass++)
      for (const box of this.boxes) box.settle?.(this.stateOf(box), this.state.wires, this.bench(box));
    this.sample();
  }

  private stateOf(box: Box): BoxState {
    return this.state.boxes[box.id] as BoxState;
  }

  private follow(box: Box, moved: Moved): void {
    const { queue } = this.host;
    const s = this.stateOf(box);
    const isFirst = s.mode === '';
    for (const id of moved.ended) cancel(queue, box.id, (e) => (e as { id?: string } | null)?.id === id);
    for (const d of moved.started) schedule(queue, d.delay_us, box.id, { id: d.id, after: d.event });
    if (s.mode === moved.mode) return;
    s.mode = moved.mode;
    if (!isFirst) this.host.note({ k: 'mode', box: box.id, mode: s.mode });
    box.entered?.(s, this.state.wires, this.bench(box));
  }

  private readonly benches = new Map<string, Bench>();
  private bench(box: Box): Bench {
    let bench = this.benches.get(box.id);
    if (!bench) {
      const { host } = this;
      bench = {
        get now_us() {
          return host.queue.now_us;
        },
        seed: host.seed,
        utc0_s: host.utc0_s,
        ear: host.ear,
        fire: (event) => this.follow(box, move(box.machine, this.stateOf(box).mode, event)),
        after: (delay_us, event) => schedule(host.queue, delay_us, box.id, event),
        forget: (which) => cancel(host.queue, box.id, which),
        note: host.note,
        end: host.end,
      };
      this.benches.set(box.id, bench);
    }
    return bench;
  }

  private sample(): void {
    const { sampled, boxes, wires } = this.state;
    for (const box of this.boxes) {
      for (const q of box.sampled) {
        const name = `${box.id}.${q.id}`;
        const v = q.read(boxes[box.id] as BoxState, wires, this.host.queue.now_us);
        const last = sampled[name];
        const moved = typeof v === 'number' && typeof last === 'number' ? Math.abs(v - last) >= q.step : v !== last;
        if (!moved) continue;
        // Recorded numbers are whole steps, so that no last digit of an engine can reach a mark.
        const rounded = typeof v === 'number' ? Number((Math.round(v / q.step) * q.step).toFixed(6)) : v;
        sampled[name] = rounded;
        this.host.note({ k: 'value', q: name, v: rounded });
      }
    }
  }
}
