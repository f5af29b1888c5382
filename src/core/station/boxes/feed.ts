/** The vehicle's supply: bank, engine with alternator, isolator, master, a breaker a load, fuses of the inverters, vent fan. */
import { setup } from 'xstate';
import { exp } from '../../numeric/elementary.ts';
import { alternatorLimit_A, type Bus, regulatedVolts, solveBus } from '../../physics/alternator.ts';
import { type BatteryState, STATION_BANK, stepBattery, terminalVolts } from '../../physics/battery.ts';
import { number, oneOf, whole } from '../../record/shape.ts';
import type { ControlValue } from '../../signals.ts';
import { atRest, type Bench, type Box, type BoxState, type Indicator } from '../box.ts';
import { LOADS, type Load, type Wires } from '../wires.ts';
import { FEED_CONTROLS } from './feed-controls.ts';

const CRANK_MS = 2000;
const CRANK_A = 600;
/** Under this while cranking, the starter only clicks. */
const CRANK_MIN_V = 14;
/** Governed speed of the engine at work. */
const ENGINE_RPM = 2500;
/** Under this a breaker counts as dead. */
const LIVE_V = 10;
const VENT_A = 4;
const VENT_V = 28.5;
const GAS_S = 60;
/** A good fuse stands the start of its set and goes at once on a short. */
const FUSE_A = 150;
/**
 * Breakers (ours): rated amperes and the time constant of their bimetal, seconds. Its warmth follows (I/rated)^2 and throws
 * the breaker at 1.3: the heavier the overload the sooner, and under 1.14 times the rating never.
 */
const BREAKER_A: Record<Breaker, number> = { inverter: 62, sender: 25, receiver: 8, terminal: 8, master: 91 };
const BREAKER_S: Record<Breaker, number> = { inverter: 10, sender: 10, receiver: 10, terminal: 10, master: 1 };
const THROW = 1.3;
const CHANGE_W = 0.05;

type Breaker = Exclude<Load, 'vent'> | 'master';
const BREAKERS: readonly Breaker[] = ['inverter', 'sender', 'receiver', 'terminal', 'master'];

/** Joules since the beginning: what alternator and chemistry gave equals what loads took, heat and polarisation. */
export type FeedLedger = {
  alternator_J: number;
  chemical_J: number;
  loads_J: number;
  heat_J: number;
  stored_J: number;
};

type FeedState = BoxState & {
  battery: BatteryState;
  bus: Bus;
  /** What the bus was last solved for. */
  solved: { load_W: number; load_S: number; key: string };
  /** The battery has been stepped up to here. */
  since_us: number;
  ledger: FeedLedger;
  fuses: { A: boolean; B: boolean };
  spares: number;
  /** Warmth of each breaker: 1 at its rated current. */
  strain: Record<Breaker, number>;
  tripped: Breaker[];
  /** Seconds of engine without fan. */
  gas_s: number;
};

const machine = setup({ types: { events: {} as { type: 'CRANK' | 'WEAK' | 'STOP' | 'FOUND' } } }).createMachine({
  id: 'feed',
  initial: 'still',
  states: {
    still: { on: { CRANK: 'cranking', WEAK: 'clicking', FOUND: 'running' } },
    cranking: { after: { [CRANK_MS]: 'running' }, on: { STOP: 'still' } },
    clicking: { after: { [CRANK_MS]: 'still' }, on: { STOP: 'still' } },
    running: { on: { STOP: 'still' } },
  },
});

function sum(of: Readonly<Record<Load, number>>): number {
  let all = 0;
  for (const load of LOADS) all += of[load];
  return all;
}
const drawn_A = (w: Wires): number => sum(w.draw_A);

/** Step the bank from its last instant to now under the currents that stood meanwhile. */
function integrate(s: FeedState, now_us: number): void {
  const dt_s = (now_us - s.since_us) / 1e6;
  s.since_us = now_us;
  if (dt_s <= 0) return;
  const alternator_J = s.bus.alternator_A * s.bus.bus_V * dt_s;
  const loads_J = s.bus.loads_A.reduce((all, a) => all + a, 0) * s.bus.bus_V * dt_s;
  const l = s.ledger;
  l.alternator_J += alternator_J;
  l.loads_J += loads_J;
  if (s.set['isolator'] !== true && s.bus.battery_A === 0 && s.battery.polarisation_V === 0) return;
  const { state, ledger } = stepBattery(STATION_BANK, s.battery, s.bus.battery_A, dt_s);
  s.battery = state;
  l.chemical_J += ledger.chemical_J;
  l.heat_J += ledger.heat_J;
  l.stored_J += ledger.stored_J;
}

/** Find the volts at which the sources carry the loads; the starter is a load of its own. */
function solve(s: FeedState, load_W: number, load_S: number): void {
  const isolated = s.set['isolator'] !== true;
  const starter_A = s.mode === 'cranking' ? CRANK_A : 0;
  s.bus = solveBus(
    {
      battery: isolated ? null : { bank: STATION_BANK, state: s.battery },
      alternator:
        s.mode === 'running'
          ? { limit_A: alternatorLimit_A(ENGINE_RPM), setpoint_V: regulatedVolts(s.battery.temperature_C) }
          : null,
    },
    [
      { kind: 'power', power_W: load_W },
      load_S > 0 ? { kind: 'resistance', resistance_ohm: 1 / load_S } : { kind: 'power', power_W: 0 },
      { kind: 'current', current_A: isolated ? 0 : starter_A },
    ],
  );
}

function balance(s: FeedState, w: Wires, now_us: number, always: boolean): void {
  const load_S = s.set['master'] === true ? sum(w.ohmic_S) : 0;
  const V = s.bus.bus_V;
  const load_W = s.set['master'] === true ? Math.max(0, drawn_A(w) - load_S * V) * V : 0;
  const key = `${s.mode} ${s.set['isolator']}`;
  const moved = Math.abs(load_W - s.solved.load_W) + Math.abs(load_S - s.solved.load_S) * V * V;
  if (!always && key === s.solved.key && moved < CHANGE_W) return;
  integrate(s, now_us);
  solve(s, load_W, load_S);
  s.solved = { load_W, load_S, key };
}

function write(s: FeedState, w: Wires): void {
  const on = s.set['master'] === true;
  w.bus_V = on ? s.bus.bus_V : 0;
  w.bus_A = on ? drawn_A(w) : 0;
  w.engine = s.mode === 'running';
  for (const load of LOADS) w.live[load] = on && s.bus.bus_V >= LIVE_V && s.set[load] === true;
  w.fuse.A = s.fuses.A;
  w.fuse.B = s.fuses.B;
  w.ohmic_S.vent = w.live.vent ? VENT_A / VENT_V : 0;
  w.draw_A.vent = w.ohmic_S.vent * w.bus_V;
}

const current_A = (w: Wires, b: Breaker): number => (b === 'master' ? drawn_A(w) : w.draw_A[b]);

/** Warms each bimetal, first order in time. */
function strain(s: FeedState, w: Wires, dt_s: number): void {
  for (const b of BREAKERS) {
    const ratio = current_A(w, b) / BREAKER_A[b];
    s.strain[b] += (ratio * ratio - s.strain[b]) * (1 - exp(-dt_s / BREAKER_S[b]));
    if (s.strain[b] < THROW) continue;
    s.set[b] = false;
    if (!s.tripped.includes(b)) s.tripped.push(b);
  }
}

/** A short blows the fuse of the set that is chosen, long before a breaker grows warm. */
function blows(s: FeedState, w: Wires): boolean {
  if (w.chosen === 'off' || w.draw_A.inverter <= FUSE_A) return false;
  s.fuses[w.chosen] = false;
  return true;
}

function gas(s: FeedState, w: Wires, dt_s: number, bench: Bench): void {
  const before = s.gas_s;
  const gathers = w.engine && !w.live.vent;
  s.gas_s = gathers ? s.gas_s + dt_s : Math.max(0, Math.min(2 * GAS_S, s.gas_s) - 4 * dt_s);
  if (before <= GAS_S && s.gas_s > GAS_S)
    bench.note({ k: 'far', station: 'own', what: 'unsafe', detail: { why: 'exhaust gas in the shelter' } });
}

function newFuse(s: FeedState, which: 'A' | 'B', w: Wires): string | undefined {
  if (w.chosen !== 'off') return 'the inverter’s lever must be off';
  if (s.spares === 0) return 'no spare left';
  s.spares -= 1;
  s.fuses[which] = true;
  return undefined;
}

function startEngine(s: FeedState, bench: Bench): void {
  if (s.mode !== 'still') return;
  const turns = s.set['isolator'] === true && terminalVolts(STATION_BANK, s.battery, CRANK_A) >= CRANK_MIN_V;
  bench.fire(turns ? 'CRANK' : 'WEAK');
}

const fuseWords = (s: FeedState): string => {
  const word = (good: boolean) => (good ? 'good' : 'blown');
  return `A ${word(s.fuses.A)}, B ${word(s.fuses.B)}, ${s.spares} spare`;
};

const indicators: readonly Indicator<FeedState>[] = [
  { id: 'volts', name: 'bus volts', face: 'sail', unit: 'V', min: 0, max: 32, read: (s) => s.bus.bus_V },
  {
    id: 'amps',
    name: 'battery amperes, plus is charge',
    face: 'sail',
    unit: 'A',
    min: -100,
    max: 100,
    read: (s) => Math.max(-100, Math.min(100, 0 - s.bus.battery_A)),
  },
  { id: 'charge', name: 'alternator', face: 'lamp', read: (s) => s.bus.alternator_A > 0 },
  { id: 'gas', name: 'exhaust gas', face: 'lamp', read: (s) => s.gas_s > GAS_S },
  { id: 'tripped', name: 'tripped', face: 'window', read: (s) => s.tripped.join(' ') || 'none' },
  { id: 'fuses', name: 'inverter fuses', face: 'window', read: fuseWords },
];

/** The box. */
export const feed = {
  id: 'feed',
  name: 'Feed',
  bay: 'power',
  about: 'Battery, engine and alternator, and the ways from the 24 V bus to each box.',
  source:
    'Lead-acid bank (core/physics/battery.ts), alternator and bus (core/physics/alternator.ts); breakers: a bimetal of first order, inverse time as breakers are (common practice).',
  controls: FEED_CONTROLS,
  indicators,
  sampled: [
    { id: 'bus_V', unit: 'V', step: 0.5, read: (_s, w) => w.bus_V },
    { id: 'charge', unit: '', step: 0.001, read: (s) => s.battery.charge },
    { id: 'tripped', unit: '', step: 1, shows: 'text', read: (s) => s.tripped.join(' ') },
    { id: 'gas', unit: '', step: 1, shows: 'flag', read: (s) => s.gas_s > GAS_S },
  ],
  machine,
  modes: {
    still: 'engine stopped',
    cranking: 'engine cranking',
    clicking: 'starter only clicking',
    running: 'engine running',
  },
  inner: {
    charge: { default: 0.95, schema: number(0, 1), about: 'State of charge of the bank, 0 to 1.' },
    temp_C: {
      default: 25,
      schema: number(-40, 60),
      about: 'Temperature of bank and air, Celsius, -40 to 60: cold takes charge and adds resistance.',
    },
    fuseA: { default: 'good', schema: oneOf(['good', 'blown']), about: 'Fuse of inverter A: good or blown.' },
    fuseB: { default: 'good', schema: oneOf(['good', 'blown']), about: 'Fuse of inverter B: good or blown.' },
    spares: { default: 3, schema: whole(0, 99), about: 'Spare fuses, from 0.' },
  },
  start(found) {
    const number = (name: string, otherwise: number) =>
      typeof found.inner[name] === 'number' ? (found.inner[name] as number) : otherwise;
    return {
      mode: '',
      set: atRest(FEED_CONTROLS, found),
      battery: {
        charge: Math.max(0, Math.min(1, number('charge', 0.95))),
        polarisation_V: 0,
        temperature_C: Math.max(-40, Math.min(60, number('temp_C', 25))),
      },
      bus: { bus_V: 0, battery_A: 0, alternator_A: 0, loads_A: [0, 0, 0] },
      solved: { load_W: 0, load_S: 0, key: '' },
      since_us: 0,
      ledger: { alternator_J: 0, chemical_J: 0, loads_J: 0, heat_J: 0, stored_J: 0 },
      fuses: { A: found.inner['fuseA'] !== 'blown', B: found.inner['fuseB'] !== 'blown' },
      spares: Math.max(0, Math.round(number('spares', 3))),
      strain: { inverter: 0, sender: 0, receiver: 0, terminal: 0, master: 0 },
      tripped: [],
      gas_s: 0,
    };
  },
  turn(s, control, value: ControlValue, w, bench) {
    if (control === 'engine') {
      if (value === 'run') startEngine(s, bench);
      else bench.fire('STOP');
    } else if (control === 'fuseA' || control === 'fuseB') {
      return value === true ? newFuse(s, control === 'fuseA' ? 'A' : 'B', w) : undefined;
    } else s.tripped = s.tripped.filter((b) => b !== control);
    return undefined;
  },
  upset(s, thing, value, _w, bench) {
    // The old bank carried the load up to now; the new one is solved for at once.
    integrate(s, bench.now_us);
    s.solved.key = '';
    if (thing === 'charge') s.battery = { ...s.battery, charge: value as number };
    else if (thing === 'temp_C') s.battery = { ...s.battery, temperature_C: value as number };
    else if (thing === 'spares') s.spares = value as number;
    else s.fuses[thing === 'fuseA' ? 'A' : 'B'] = value === 'good';
  },
  settle(s, w, bench) {
    balance(s, w, bench.now_us, false);
    write(s, w);
  },
  tick(s, w, dt_s, bench) {
    balance(s, w, bench.now_us, true);
    if (!blows(s, w)) strain(s, w, dt_s);
    gas(s, w, dt_s, bench);
  },
  entered(s, _w, bench) {
    // Found with the engine running: the machine begins still.
    if (s.mode === 'still' && s.set['engine'] === 'run' && bench.now_us === 0) bench.fire('FOUND');
  },
} satisfies Box<FeedState>;
