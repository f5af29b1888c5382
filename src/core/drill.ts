/**
 * The front door. One drill: a scenario and a seed make a world, the operator's hand moves it, a record is what happened.
 *
 *     scenario + seed + hand -> station -> ether -> distant stations -> record (-> marks -> debrief, from the record alone)
 *
 * Time is whole microseconds and moves in `advance` only. At one instant: first what is due, in the order it was set, then
 * the hand. What a distant station sends at an instant is heard at the next event, so the one loop in the house is closed
 * by the clock.
 */
import { BOXES, CORRESPONDENTS } from './catalogue.ts';
import { DistantStations } from './distant/distant.ts';
import { Ether, type EtherState, type Surroundings } from './ether/ether.ts';
import type { View } from './guide/view.ts';
import { type CircuitTo, circuitsOf } from './inside/circuits.ts';
import { type Inside, insideOf } from './inside/inside.ts';
import type { LinkName } from './inside/links.ts';
import { type Passage, passageOf } from './inside/passage.ts';
import { type Far, type Scene, upAt } from './inside/scene.ts';
import { type Due, newQueue, type Queue, schedule, takeDue } from './kernel/queue.ts';
import { micros } from './quantity/quantity.ts';
import { secondsOfDay } from './quantity/time-text.ts';
import { type AirSeen, watchAir } from './record/air-watch.ts';
import { matches } from './record/pattern.ts';
import { append, type DrillRecord, ENGINE, type Header, type LineBody, RECORD_VERSION } from './record/record.ts';
import { didSince, heardSince, printedSince } from './record/since.ts';
import type { Listening } from './samples/receiver-input.ts';
import { NO_RECORDINGS, type Recordings } from './samples/recording.ts';
import { foundOf } from './scenario/found.ts';
import type { Deed, Happening, Scenario } from './scenario/scenario.ts';
import type { ControlValue, Ear, Json, Radiation } from './signals.ts';
import type { Control } from './station/box.ts';
import { listeningOf } from './station/boxes/receiver-listening.ts';
import { Station, type StationState } from './station/station.ts';

export type { CircuitTo } from './inside/circuits.ts';
export type { Inside } from './inside/inside.ts';
export { LINKS, type LinkName } from './inside/links.ts';
export type { Passage } from './inside/passage.ts';
export { ladder_MHz, type ReachChart, ReachWork } from './physics/circuit.ts';

/** How a drill is begun: what the record's header holds beside the engine's own. */
export type Setting = Pick<Header, 'name' | 'scenario' | 'seed' | 'manner' | 'stretch'>;
/** A whole drill at one instant, as plain data: restore and go on, and nothing is different. */
export type Snapshot = {
  queue: Queue;
  station: StationState;
  distant: DistantStations['state'];
  ether: EtherState;
  air: AirSeen;
  record: DrillRecord;
  begun: string[];
  acts: number;
  ended: boolean;
};

/** One drill at work. */
export class Drill implements View {
  readonly record: DrillRecord;
  readonly station: Station;
  /** What the own aerial brings. Looking changes nothing. */
  readonly ear: Ear;
  private readonly queue: Queue;
  private readonly ether: Ether;
  private readonly distant: DistantStations;
  private readonly air: AirSeen;
  private onAir: readonly Radiation[] | undefined;
  private readonly around: Surroundings;
  /** Happenings whose cue has come. */
  private readonly begun: string[];
  private acts: number;
  private over: boolean;

  /** Begin `scenario` as found, or go on from a snapshot of it; `recordings` are those that its stations put on the air. */
  constructor(
    readonly scenario: Scenario,
    readonly setting: Setting,
    from?: Snapshot,
    readonly recordings: Recordings = NO_RECORDINGS,
  ) {
    const { seed, stretch } = setting;
    this.queue = from?.queue ?? newQueue();
    this.record = from?.record ?? {
      header: { 'keydown-record': RECORD_VERSION, engine: ENGINE, ...setting },
      lines: [],
    };
    this.air = from?.air ?? {};
    this.begun = from?.begun ?? [];
    this.acts = from?.acts ?? 0;
    this.over = from?.ended ?? false;
    this.around = surroundings(scenario);
    this.ether = new Ether(this.around, seed, () => this.radiations(), from?.ether, recordings);
    const note = (body: LineBody) => this.note(body);
    const utc0_s = secondsOfDay(scenario.world.utc);
    const host = { queue: this.queue, seed, utc0_s, note };
    this.distant = new DistantStations(CORRESPONDENTS, scenario.stations, {
      ...host,
      stretch,
      papers: scenario.papers,
      recordings,
      earOf: (call) => this.ether.earOf(call),
    });
    this.ear = this.ether.earOf(scenario.own.call);
    const stationHost = { ...host, ear: this.ear, end: (why: string) => this.end(why) };
    if (from) {
      this.distant.state = from.distant;
      this.station = new Station(BOXES, from.station, stationHost);
      return;
    }
    this.station = Station.found(BOXES, scenario.own.call, foundOf(scenario, boxIds), stationHost);
    this.distant.start();
    for (const h of scenario.happenings) if ('at_s' in h) schedule(this.queue, h.at_s * 1e6, 'happening', h.id);
    schedule(this.queue, Math.round(scenario.time_limit_min * 60e6 * stretch), 'limit', null);
  }

  /** Time since the drill began, whole microseconds. */
  get now_us(): number {
    return this.queue.now_us;
  }

  /** Handed over, given up, or out of time: nothing moves any more. */
  get ended(): boolean {
    return this.over;
  }

  /** Let time pass up to `to_us`. Chopping it differently changes nothing. */
  advance(to_us: number): void {
    const until = micros(to_us);
    while (!this.over) {
      const due = takeDue(this.queue, until);
      if (due === undefined) return;
      this.dispatch(due);
      this.listen();
    }
  }

  /** The operator sets a control now. Returns why not, in words, when it cannot be done; the record has it either way. */
  act(control: string, value: ControlValue): string | undefined {
    if (this.over) return 'the drill is over';
    this.note({ k: 'do', n: ++this.acts, control, value });
    const why = this.station.turn(control, value);
    if (why) this.note({ k: 'refused', control, value, why });
    this.listen();
    return why;
  }

  /** End the drill. */
  end(why: string): void {
    if (this.over) return;
    this.note({ k: 'end', why });
    this.over = true;
  }

  /** Write what a shell has to say (help given, an interruption) into the record. Changes nothing else. */
  remark(body: Extract<LineBody, { k: 'help' | 'interruption' }>): void {
    this.note(body);
  }

  /** All that is needed to go on from this instant, as text. */
  save(): string {
    const { queue, record, air, begun, acts } = this;
    return JSON.stringify({
      queue,
      station: this.station.state,
      distant: this.distant.state,
      ether: this.ether.state,
      air,
      record,
      begun,
      acts,
      ended: this.over,
    } satisfies Snapshot);
  }

  see(indicator: string): Json | undefined {
    return this.station.see(indicator);
  }

  standing(control: string): ControlValue | undefined {
    return this.station.standing(control);
  }

  /** The own receiver as it stands between the ear and the operator; null when it is off. */
  listening(): Listening | null {
    return listeningOf(this.station.state, this.ear);
  }

  /** What is inside a link of the signal's way now; `start_us` asks for the letter that began then. Changes nothing. */
  inside(link: LinkName, start_us: number | null = null): Inside {
    return insideOf(link, this.scene(), start_us);
  }

  /** How far the signal on its way gets now, link by link. Changes nothing. */
  passage(): Passage {
    return passageOf(this.scene());
  }

  /** Circuits to the distant stations, and to nobody in particular farther off, for the reach chart. */
  circuits(): CircuitTo[] {
    return circuitsOf(this.scenario);
  }

  control(name: string): Control | undefined {
    return this.station.control(name)?.control;
  }

  did(control: string, since_us: number): ControlValue[] {
    return didSince(this.record, control, since_us);
  }

  heard(since_us: number): string {
    return heardSince(this.record, since_us);
  }

  printed(since_us: number): string {
    return printedSince(this.record, since_us);
  }

  private scene(): Scene {
    const { now_us, record, station, ear, scenario, setting } = this;
    const { climate } = this.around;
    const far = this.far();
    return { now_us, seed: setting.seed, own: scenario.own.call, station: station.state, ear, climate, far, record };
  }

  /** The distant station that sends now while the own sender is silent, or else the first of the scenario. */
  private far(): Far | null {
    const { stations } = this.scenario;
    const radiation = (call: string) => this.distant.state[call]?.radiation;
    const isUp = (r: Radiation) => upAt(r, this.now_us) !== null;
    const isSilent = !isUp(this.station.state.wires.radiation);
    const sends = isSilent && stations.find((s) => isUp(radiation(s.call) ?? SILENT));
    const spec = sends || stations[0];
    const air = spec && radiation(spec.call);
    if (!spec || !air) return null;
    const { call, place, path } = spec;
    const receiver = this.distant.receiver(call);
    return receiver ? { call, place, path, radiation: air, ear: this.ether.earOf(call), ...receiver } : null;
  }

  /** A station's radiation is one object for the whole drill, so they are gathered once, when everybody has begun. */
  private radiations(): readonly Radiation[] {
    this.onAir ??= [this.station.state.wires.radiation, ...this.distant.radiations()];
    return this.onAir;
  }

  private note(body: LineBody): void {
    if (this.over) return;
    const line = append(this.record, this.queue.now_us, body);
    for (const h of this.scenario.happenings) {
      if (!('when' in h) || this.begun.includes(h.id) || !matches(line, h.when)) continue;
      this.begun.push(h.id);
      schedule(this.queue, h.after_s * 1e6, 'happening', h.id);
    }
  }

  private dispatch(due: Due): void {
    if (due.to === 'tick') this.station.tick();
    else if (due.to === 'limit') this.end('out of time');
    else if (due.to === 'happening') this.happen(due.event as string);
    else if (!this.distant.wake(due.to, due.event)) this.station.wake(due.to, due.event);
  }

  private happen(id: string): void {
    const happening = this.scenario.happenings.find((h) => h.id === id) as Happening;
    this.note({ k: 'happen', id });
    this.do(happening.do);
  }

  private do(deed: Deed): void {
    if ('station' in deed) this.distant.tell(deed.station, deed.tell);
    else this.station.upset(deed.inner);
  }

  /** What the event put on the air is written down, and every distant station may prick up its ears. */
  private listen(): void {
    if (this.over) return;
    this.ether.follow(this.queue.now_us);
    watchAir(this.radiations(), this.air, this.queue.now_us, (body) => this.note(body));
    this.distant.stir();
  }
}

const boxIds = BOXES.map((b) => b.id);
const SILENT = { station: '', emission: 'N0N' as const, steps: [], words: [], depth: 0 };

/** What the ether must know: climate, and the route to each distant station. */
function surroundings({ own, world, stations }: Scenario): Surroundings {
  const month = Number(world.date.slice(5, 7));
  const climate = { month, utc0_h: secondsOfDay(world.utc) / 3600, at: world.at, R12: world.R12, noise: world.noise };
  return { own: own.call, climate, routes: new Map(stations.map((s) => [s.call, s.path])) };
}
