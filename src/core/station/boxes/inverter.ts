/** Two rotary sets, one the spare of the other, that make the mains-type supply of the printers from the bus. */
import { setup } from 'xstate';
import { loadCurrent_A } from '../../physics/alternator.ts';
import {
  INVERTER_RUN_UP_S,
  INVERTER_START_OHM,
  type InverterTrim,
  inverterHeat_W,
  inverterHolds,
  inverterLoad,
  inverterOutput,
} from '../../physics/inverter-set.ts';
import { type ThermalBody, temperatureAfter_C } from '../../physics/thermal.ts';
import { flag, oneOf } from '../../record/shape.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';
import type { Wires } from '../wires.ts';

/** While it runs up, this much load takes all its strength: it never gets up to speed (ours). */
const STALL_W = 120;
/** A worn set with a slipping governor stands this much under its speed. */
const SLOW_SHARE = 0.93;
/** A shorted winding: ohms on the bus. */
const SHORT_OHM = 0.08;
/** Volts on which the set needs no regulation (inverter-set.ts). */
const MIDDLE_BUS_V = 26.5;
/** The iron (ours): 350 W for ever stand just under the cut-out. */
const IRON: ThermalBody = { capacity_J_K: 3000, still_W_K: 4.2, air_W_K: 0 };
const AMBIENT_C = 20;
const WARM_C = 84;
const CUT_OUT_C = 90;
const COOL_C = 70;

type Fault = 'none' | 'slow' | 'dead';
type InverterState = BoxState & {
  faults: { A: Fault; B: Fault };
  /** Runs when the drill begins. */
  found: boolean;
  /** Temperature of each set, Celsius. */
  iron_C: { A: number; B: number };
  /** Progress of the run-up, seconds of an unloaded one, and when it was last brought up to now. */
  run_s: number;
  run_us: number;
  /** When the run-up will end if the load stays as it is; null when it will not. */
  due_us: number | null;
};

const controls: readonly Control[] = [
  {
    id: 'lever',
    name: 'inverter',
    face: 'tiller',
    range: { kind: 'words', words: ['A', 'off', 'B'] },
    inside: 'Chooses the set. Moving it stops the one that runs. The other one is the spare.',
    caution: 'The output is a mains voltage and can kill. Only qualified people open the box.',
  },
  {
    id: 'start',
    name: 'start',
    face: 'push',
    range: { kind: 'press' },
    inside:
      'Starts the chosen set. It takes 6 seconds and four times its full current to run up, so have no load on it and nothing else starting; a loaded set runs up slowly and may throw its breaker.',
  },
];

const machine = setup({
  types: { events: {} as { type: 'START' | 'SHORT' | 'FOUND' | 'UP' | 'DROP' | 'HOT' | 'COOL' } },
}).createMachine({
  id: 'inverter',
  initial: 'still',
  states: {
    still: { on: { START: 'runUp', SHORT: 'shorted', FOUND: 'running', HOT: 'hot' } },
    runUp: { on: { UP: 'running', DROP: 'still', HOT: 'hot', SHORT: 'shorted' } },
    running: { on: { DROP: 'still', HOT: 'hot', SHORT: 'shorted' } },
    shorted: { on: { DROP: 'still' } },
    hot: { on: { COOL: 'still' } },
  },
});

const turning = (s: InverterState): boolean => s.mode === 'runUp' || s.mode === 'running';
const load_W = (w: Wires): number => w.mains_W.printer + w.mains_W.tape;

function chosen(s: InverterState): 'A' | 'B' | null {
  const lever = s.set['lever'];
  return lever === 'A' || lever === 'B' ? lever : null;
}

const fed = (s: InverterState, w: Wires): boolean => {
  const which = chosen(s);
  return which !== null && w.live.inverter && w.fuse[which];
};

/** A load takes speed away while the set runs up; at STALL_W it stands still in speed, and draws on. */
const rateOf = (w: Wires): number => Math.max(0, 1 - load_W(w) / STALL_W);

function runUp(s: InverterState, w: Wires, bench: Bench): void {
  const gone_s = (bench.now_us - s.run_us) / 1e6;
  if (s.mode === 'runUp') s.run_s = Math.min(INVERTER_RUN_UP_S, s.run_s + rateOf(w) * gone_s);
  s.run_us = bench.now_us;
  if (s.mode === 'runUp' && s.run_s >= INVERTER_RUN_UP_S - 1e-5) bench.fire('UP');
}

/** Ask to be woken when the run-up ends at the present load. */
function due(s: InverterState, w: Wires, bench: Bench): void {
  const rate = rateOf(w);
  const wish =
    s.mode === 'runUp' && rate > 0 ? s.run_us + Math.ceil(((INVERTER_RUN_UP_S - s.run_s) / rate) * 1e6) : null;
  if (wish !== null && s.due_us !== null && Math.abs(wish - s.due_us) <= 2) return;
  if (wish === s.due_us) return;
  if (s.due_us !== null) bench.forget((e) => e === 'up');
  s.due_us = wish;
  if (wish !== null) bench.after(wish - bench.now_us, 'up');
}

const within = (x: number): number => Math.max(-1, Math.min(1, x));

/** How far the regulator turns field and governor, so that the bus makes no difference as far as they reach. */
function regulate(load: number, bus_V: number): InverterTrim {
  const wish = inverterOutput(INVERTER_RUN_UP_S, load, MIDDLE_BUS_V);
  const now = inverterOutput(INVERTER_RUN_UP_S, load, bus_V);
  const most = inverterOutput(INVERTER_RUN_UP_S, load, bus_V, { volts: 1, speed: 1 });
  return {
    volts: within((wish.volts_V - now.volts_V) / (most.volts_V - now.volts_V)),
    speed: within((wish.frequency_Hz - now.frequency_Hz) / (most.frequency_Hz - now.frequency_Hz)),
  };
}

/** What comes out: nothing at rest, less from a slow set. */
function output(s: InverterState, w: Wires): { V: number; Hz: number } {
  if (!turning(s) || w.bus_V <= 0) return { V: 0, Hz: 0 };
  const run_s = s.mode === 'running' ? INVERTER_RUN_UP_S : s.run_s;
  const out = inverterOutput(run_s, load_W(w), w.bus_V, regulate(load_W(w), w.bus_V));
  const share = s.faults[chosen(s) ?? 'A'] === 'slow' ? SLOW_SHARE : 1;
  return { V: out.volts_V * share, Hz: out.frequency_Hz * share };
}

/** What it takes from the bus: a resistance while it runs up or is shorted, constant power at speed. */
function draw(s: InverterState, w: Wires): void {
  const ohm = s.mode === 'shorted' ? SHORT_OHM : s.mode === 'runUp' ? INVERTER_START_OHM : Number.POSITIVE_INFINITY;
  const load = s.mode === 'running' ? inverterLoad(INVERTER_RUN_UP_S, load_W(w)) : null;
  w.ohmic_S.inverter = fed(s, w) ? 1 / ohm : 0;
  w.draw_A.inverter = w.ohmic_S.inverter * w.bus_V + (load && fed(s, w) ? loadCurrent_A(load, w.bus_V) : 0);
}

/** The box. */
export const inverter = {
  id: 'inverter',
  name: 'Inverter pair',
  bay: 'power',
  about: 'Two rotary sets, A and B, one of them the spare: 230 V 50 Hz, 350 W, for printer and tape set.',
  source: 'Rotary converter after handbook figures and table of values (core/physics/inverter-set.ts).',
  controls,
  indicators: [
    { id: 'volts', name: 'mains volts', face: 'sail', unit: 'V', min: 0, max: 260, read: (_s, w) => w.mains_V },
    { id: 'hertz', name: 'mains frequency', face: 'reeds', unit: 'Hz', min: 45, max: 55, read: (_s, w) => w.mains_Hz },
    { id: 'lamp', name: 'running', face: 'lamp', read: (s) => s.mode === 'running' },
    {
      id: 'warm',
      name: 'too hot',
      face: 'lamp',
      read: (s) => s.mode === 'hot' || Math.max(s.iron_C.A, s.iron_C.B) > WARM_C,
    },
  ],
  sampled: [{ id: 'mains_V', unit: 'V', step: 5, read: (_s, w) => w.mains_V }],
  machine,
  modes: {
    still: 'came to rest',
    runUp: 'began to run up',
    shorted: 'started on a short circuit',
    hot: 'tripped by heat',
  },
  inner: {
    faultA: {
      default: 'none',
      schema: oneOf(['none', 'slow', 'dead']),
      about: 'Set A: none, slow (under speed) or dead (a shorted winding that blows its fuse).',
    },
    faultB: {
      default: 'none',
      schema: oneOf(['none', 'slow', 'dead']),
      about: 'Set B: none, slow (under speed) or dead (a shorted winding that blows its fuse).',
    },
    running: {
      default: false,
      schema: flag,
      fixed: true,
      about: 'The set that the lever chooses runs already when the drill begins.',
    },
  },
  start(found) {
    const fault = (v: unknown): Fault => (v === 'slow' || v === 'dead' ? v : 'none');
    return {
      mode: '',
      set: { ...atRest(controls, found), lever: found.controls['lever'] ?? 'off' },
      faults: { A: fault(found.inner['faultA']), B: fault(found.inner['faultB']) },
      found: found.inner['running'] === true,
      iron_C: { A: AMBIENT_C, B: AMBIENT_C },
      run_s: 0,
      run_us: 0,
      due_us: null,
    };
  },
  turn(s, control, value, w, bench) {
    if (control === 'lever') {
      bench.fire('DROP');
      if (s.mode === 'hot') bench.fire('COOL');
      return undefined;
    }
    const which = chosen(s);
    if (value !== true || which === null || !fed(s, w) || s.mode !== 'still') return undefined;
    s.run_s = 0;
    s.run_us = bench.now_us;
    bench.fire(s.iron_C[which] >= CUT_OUT_C ? 'HOT' : s.faults[which] === 'dead' ? 'SHORT' : 'START');
    return undefined;
  },
  upset(s, thing, value, _w, bench) {
    const which = thing === 'faultA' ? 'A' : 'B';
    s.faults[which] = value as Fault;
    if (which !== chosen(s)) return;
    if (value === 'dead' && turning(s)) bench.fire('SHORT');
    else if (value !== 'dead' && s.mode === 'shorted') bench.fire('DROP');
  },
  settle(s, w, bench) {
    w.chosen = chosen(s) ?? 'off';
    runUp(s, w, bench);
    const holds = fed(s, w) && (s.mode === 'shorted' || inverterHolds(w.bus_V));
    if (!holds && s.mode !== 'still' && s.mode !== 'hot') bench.fire('DROP');
    const out = output(s, w);
    w.mains_V = out.V;
    w.mains_Hz = out.Hz;
    draw(s, w);
    due(s, w, bench);
  },
  tick(s, w, dt_s, bench) {
    for (const which of ['A', 'B'] as const) {
      const runs = turning(s) && which === chosen(s);
      const running_s = runs ? (s.mode === 'running' ? INVERTER_RUN_UP_S : 0) : null;
      const power_W = inverterHeat_W(running_s, load_W(w), w.bus_V);
      s.iron_C[which] = temperatureAfter_C(IRON, { ambient_C: AMBIENT_C, power_W, airFlow: 0 }, s.iron_C[which], dt_s);
    }
    const which = chosen(s);
    if (which === null) return;
    if (s.iron_C[which] >= CUT_OUT_C) bench.fire('HOT');
    if (s.mode === 'hot' && s.iron_C[which] < COOL_C) bench.fire('COOL');
  },
  entered(s, _w, bench) {
    if (!s.found) return;
    s.found = false;
    if (chosen(s) !== null) bench.fire('FOUND');
  },
  woken(s) {
    s.due_us = null;
  },
} satisfies Box<InverterState>;
