/** All distant stations of a drill: starts them, wakes them, tells them when the air stirs. */
import * as v from 'valibot';
import { cancel, type Queue, schedule } from '../kernel/queue.ts';
import type { LineBody } from '../record/record.ts';
import { NO_RECORDINGS, type Recordings } from '../samples/recording.ts';
import type { Ear, Json, Radiation } from '../signals.ts';
import type { Correspondent, FarBench, FarReceiver, FarState } from './correspondent.ts';

/** What the drill lends its distant stations. */
export type DistantHost = {
  queue: Queue;
  seed: number;
  utc0_s: number;
  stretch: number;
  papers: FarBench['papers'];
  recordings?: Recordings;
  earOf(call: string): Ear;
  note(body: LineBody): void;
};

/** A distant station to be: its call sign, the id of its kind, that kind's parameters. */
export type DistantSpec = { call: string; kind: string; with: Json };

/** Queue name of a distant station. */
const nameOf = (call: string) => `far:${call}`;

/** What the scenario tells goes into the queue wrapped, so that no station takes it for a wake-up of its own. */
const isTold = (event: Json): event is { told: Json } =>
  typeof event === 'object' && event !== null && !Array.isArray(event) && 'told' in event;

/** The distant stations at work. `state` is plain data, by call sign. */
export class DistantStations {
  state: Record<string, FarState> = {};
  private readonly kindOf = new Map<string, Correspondent>();

  constructor(
    kinds: readonly Correspondent[],
    private readonly specs: readonly DistantSpec[],
    private readonly host: DistantHost,
  ) {
    for (const spec of specs) {
      const kind = kinds.find((k) => k.id === spec.kind);
      if (!kind) throw new RangeError(`no kind of distant station ${spec.kind}`);
      this.kindOf.set(spec.call, kind);
    }
  }

  /** Everyone begins. */
  start(): void {
    for (const { call, with: params } of this.specs)
      this.state[call] = this.kind(call).start(call, params, this.bench(call));
  }

  /** A queued event for `to` came due; false if `to` is no distant station. */
  wake(to: string, event: Json): boolean {
    if (!to.startsWith('far:')) return false;
    const call = to.slice(4);
    const kind = this.kind(call);
    if (isTold(event)) kind.tell(this.of(call), v.parse(kind.told, event.told), this.bench(call));
    else kind.woken(this.of(call), event, this.bench(call));
    return true;
  }

  /** The scenario tells a station something. */
  tell(call: string, event: Json): void {
    schedule(this.host.queue, 0, nameOf(call), { told: event });
  }

  /** Somebody's radiation changed. */
  stir(): void {
    for (const { call } of this.specs) this.kind(call).stirred?.(this.of(call), this.bench(call));
  }

  /** What they put on the air. */
  radiations(): Radiation[] {
    return this.specs.flatMap(({ call }) => this.state[call]?.radiation ?? []);
  }

  /** Where a station's receiver stands now; undefined when nobody has that call sign. */
  receiver(call: string): FarReceiver | undefined {
    const s = this.state[call];
    return s && this.kind(call).receiver(s);
  }

  private kind(call: string): Correspondent {
    return this.kindOf.get(call) as Correspondent;
  }

  private of(call: string): FarState {
    return this.state[call] as FarState;
  }

  private readonly benches = new Map<string, FarBench>();
  private bench(call: string): FarBench {
    let bench = this.benches.get(call);
    if (!bench) {
      const { host } = this;
      bench = {
        get now_us() {
          return host.queue.now_us;
        },
        seed: host.seed,
        utc0_s: host.utc0_s,
        stretch: host.stretch,
        papers: host.papers,
        recordings: host.recordings ?? NO_RECORDINGS,
        ear: host.earOf(call),
        after: (delay_us, event) => schedule(host.queue, delay_us, nameOf(call), event),
        forget: (which) => cancel(host.queue, nameOf(call), (e) => !isTold(e as Json) && which(e as Json)),
        note: host.note,
      };
      this.benches.set(call, bench);
    }
    return bench;
  }
}
