/**
 * One station: its boxes, the wires between them, and how an event runs through. Boxes come as an argument, so another
 * trade's panel is another list.
 */

import { firstMode, type Moved, move } from '../kernel/machine.ts';
import { cancel, type Queue, schedule } from '../kernel/queue.ts';
import { misfit } from '../record/range.ts';
import type { LineBody } from '../record/record.ts';
import type { ControlValue, Ear, Json } from '../signals.ts';
import { type Bench, type Box, type BoxState, type Control, type Found, onStep, type Sampled, TICK_US } from './box.ts';
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

/** A box in its place: its state, which is one object for the whole drill, its bench, and its sampled quantities by full name. */
type Placed = { box: Box; s: BoxState; bench: Bench; sampled: readonly { name: string; q: Sampled<BoxState> }[] };

/** A station at work. */
export class Station {
  readonly byId: ReadonlyMap<string, Box>;
  private readonly places: readonly Placed[];
  private readonly placeOf: ReadonlyMap<string, Placed>;
  constructor(
    readonly boxes: readonly Box[],
    readonly state: StationState,
    private readonly host: StationHost,
  ) {
    this.byId = new Map(boxes.map((b) => [b.id, b]));
    this.places = boxes.map((box) => this.place(box));
    this.placeOf = new Map(this.places.map((p) => [p.box.id, p]));
  }

  /** A station as found: every control where the scenario left it, machines in their first modes. */
  static found(boxes: readonly Box[], call: string, found: Record<string, Found>, host: StationHost): Station {
    const empty: Found = { controls: {}, inner: {} };
    const states = Object.fromEntries(boxes.map((b) => [b.id, b.start(found[b.id] ?? empty, host.seed)]));
    const station = new Station(boxes, { boxes: states, wires: newWires(call), sampled: {} }, host);
    for (const place of station.places) station.follow(place, firstMode(place.box.machine));
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
    const wrong = misfit(at.control.range, value);
    if (wrong) return `expected ${wrong}`;
    const { box, control } = at;
    const { s, bench } = this.placeOf.get(box.id) as Placed;
    const before = s.set[control.id] as ControlValue;
    const set = onStep(control, value);
    s.set[control.id] = set;
    const refusal = box.turn?.(s, control.id, set, this.state.wires, bench);
    if (refusal) s.set[control.id] = before;
    this.settle();
    return refusal;
  }

  /** Inner things `box.thing` change while the drill runs. Throws RangeError for a box that cannot be upset. */
  upset(inner: Readonly<Record<string, Json>>): void {
    for (const [name, value] of Object.entries(inner)) {
      const dot = name.indexOf('.');
      const place = this.placeOf.get(name.slice(0, dot));
      if (!place?.box.upset) throw new RangeError(`nothing to upset at ${name}`);
      place.box.upset(place.s, name.slice(dot + 1), value, this.state.wires, place.bench);
    }
    this.settle();
  }

  /** A queued event for box `id` came due. */
  wake(id: string, event: Json): void {
    const place = this.placeOf.get(id);
    if (!place) throw new RangeError(`no box ${id} to wake`);
    const { box, s, bench } = place;
    const after = (event as { after?: string } | null)?.after;
    if (after !== undefined) this.follow(place, move(box.machine, s.mode, after));
    else box.woken?.(s, event, this.state.wires, bench);
    this.settle();
  }

  /** A whole multiple of TICK_US is reached. */
  tick(): void {
    const { wires } = this.state;
    for (const { box, s, bench } of this.places) box.tick?.(s, wires, TICK_US / 1e6, bench);
    schedule(this.host.queue, TICK_US, 'tick', null);
    this.settle();
  }

  /** What indicator `box.id` shows now; undefined if there is none. Looking changes nothing. */
  see(name: string): Json | undefined {
    const dot = name.indexOf('.');
    const place = this.placeOf.get(name.slice(0, dot));
    const indicator = place?.box.indicators.find((i) => i.id === name.slice(dot + 1));
    return place && indicator?.read(place.s, this.state.wires, this.host.queue.now_us);
  }

  /** Where control `box.id` stands; undefined if there is none. */
  standing(name: string): ControlValue | undefined {
    const dot = name.indexOf('.');
    return this.state.boxes[name.slice(0, dot)]?.set[name.slice(dot + 1)];
  }

  /** Bring all wires up to now: boxes in the order of the list, twice, because some look back along the line. */
  settle(): void {
    const { wires } = this.state;
    for (let pass = 0; pass < 2; pass++) for (const { box, s, bench } of this.places) box.settle?.(s, wires, bench);
    this.sample();
  }

  private follow({ box, s, bench }: Placed, moved: Moved): void {
    const { queue } = this.host;
    const isFirst = s.mode === '';
    for (const id of moved.ended) cancel(queue, box.id, (e) => (e as { id?: string } | null)?.id === id);
    for (const d of moved.started) schedule(queue, d.delay_us, box.id, { id: d.id, after: d.event });
    if (s.mode === moved.mode) return;
    s.mode = moved.mode;
    if (!isFirst) this.host.note({ k: 'mode', box: box.id, mode: s.mode });
    box.entered?.(s, this.state.wires, bench);
  }

  private place(box: Box): Placed {
    const { host } = this;
    const s = this.state.boxes[box.id] as BoxState;
    const bench: Bench = {
      get now_us() {
        return host.queue.now_us;
      },
      seed: host.seed,
      utc0_s: host.utc0_s,
      ear: host.ear,
      fire: (event) => this.follow(place, move(box.machine, s.mode, event)),
      after: (delay_us, event) => schedule(host.queue, delay_us, box.id, event),
      forget: (which) => cancel(host.queue, box.id, which),
      note: host.note,
      end: host.end,
    };
    const place: Placed = { box, s, bench, sampled: box.sampled.map((q) => ({ name: `${box.id}.${q.id}`, q })) };
    return place;
  }

  private sample(): void {
    const { sampled, wires } = this.state;
    for (const place of this.places) {
      for (const { name, q } of place.sampled) {
        const v = q.read(place.s, wires, this.host.queue.now_us);
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
