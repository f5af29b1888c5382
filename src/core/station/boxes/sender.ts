/**
 * The sender: from the drive to the foot of the whip. Who radiates when is the table in sender-air.ts, the match is in
 * sender-match.ts; here are readiness, powers, trips and heat.
 */
import { setup } from 'xstate';
import { exp } from '../../numeric/elementary.ts';
import { loadCurrent_A } from '../../physics/alternator.ts';
import { MATCH_TICK_MS, matchAt, nearestPosition } from '../../physics/match-motors.ts';
import { type MatchSearch, servoStep, startSearch } from '../../physics/match-servo.ts';
import { airFlow, type Cooling, coolingAfter, type ThermalBody, temperatureAfter_C } from '../../physics/thermal.ts';
import type { ControlValue, Edge, Emission, Json } from '../../signals.ts';
import { atRest, type Bench, type Box, type BoxState, type Found, type Indicator, type Sampled } from '../box.ts';
import { markAt, prune, replan } from '../wave.ts';
import type { Wires } from '../wires.ts';
import { carrierPlan, type Keying, pruneSteps, replanSteps, replanWords } from './sender-air.ts';
import { SENDER_CONTROLS, SETTINGS } from './sender-controls.ts';
import {
  type Reading,
  readMatch,
  storedSetting,
  type Travel,
  type Tuning,
  travelTime_us,
  tuningAt,
} from './sender-match.ts';

const FULL_W = 120;
const LOW_W = 15;
/** The matcher's own carrier. */
const SEEK_W = 5;
const HEATERS_MS = 45_000;
/** Drive stages after the lever leaves off and heat. */
const DRIVE_US = 3e6;
const COOLING_US = 30e6;
const TRIP_BACK_W = 25;
const TRIP_US = 3e6;
const BARE_US = 5e6;
/** The relay lets the whip go back to the receiver this long after the last carrier. */
const RELAY_US = 100_000;
/** How long the matcher's servo runs on between two wake-ups. */
const SEEK_US = 100_000;
/** Full power down to these volts, less by their square below, and none under the second. */
const STABILISED_V = 24;
const DROP_OUT_V = 19;
/** Output lost to each switching off of hot valves. */
const HURT = 0.05;
const HISTORY_US = 4e6;

/** Amperes of the hot heaters at 28.5 V; how many times more they add when cold, and how fast that fades (ours). */
const HEATER_A = 5;
const HEATER_INRUSH = 8;
const HEATER_TAU_US = 6e6;
const DRIVE_W = 35;
const IDLE_W = 45;
const MOTORS_W = 50;
const FAN_W = 40;
/** Share of the input of the output stage that becomes carrier (class C with modulator, ours). */
const EFFICIENCY = 0.45;
/** What heaters and high tension at rest put into the output stage. */
const STANDBY_HEAT_W = 60;

/** The output stage (ours): 120 W into a good match through a clean filter settle at 0.7 of what trips it. */
const STAGE: ThermalBody = { capacity_J_K: 240, still_W_K: 0.6, air_W_K: 1.36 };
const AMBIENT_C = 20;
const TRIP_C = 171;
/** Without its filter the duct stands open and most of the air misses the valves. */
const OPEN_DUCT = 0.3;
const DIRTY_FROM = 0.5;
const FOUND_DIRT = 0.8;
/** How dusty the air is that the fan draws, 0 to 1. */
const DUSTINESS = 0.5;

type SenderState = BoxState & {
  at: Tuning;
  travel: Travel | null;
  seek: MatchSearch | null;
  /** What became of the last search. */
  sought: string;
  settings: (Tuning | null)[];
  cooling: Cooling;
  /** Temperature of the output stage, Celsius. */
  stage_C: number;
  /** A stored setting that the motors have yet to go to, for want of supply. */
  wanted: number | null;
  /** Hot when the drill begins. */
  foundHot: boolean;
  /** When the heaters came on. */
  heaters_us: number;
  /** Drive stages are switched on since; null at off and heat. */
  driven_us: number | null;
  /** High tension stands on the valves, and when it last went. */
  tension: boolean;
  tensionEnd_us: number | null;
  /** Times that hot valves were switched off. */
  hurts: number;
  bareUntil_us: number | null;
  /** Since when too much comes back without a break. */
  back_us: number | null;
  /** Carrier up (mark) and down: history and plan. */
  carrier: Edge[];
  /** Next instant at which the carrier or the relay changes by itself. */
  wake_us: number | null;
  reading: Reading | null;
  lastBack_W: number;
};

const machine = setup({
  types: { events: {} as { type: 'HEAT' | 'FOUND' | 'OFF' | 'HOT_OFF' | 'BACK' | 'OVERHEAT' | 'RESET' } },
}).createMachine({
  id: 'sender',
  initial: 'off',
  states: {
    off: { on: { HEAT: 'heating', FOUND: 'hot' } },
    heating: { after: { [HEATERS_MS]: 'hot' }, on: { OFF: 'off' } },
    hot: { on: { OFF: 'off', HOT_OFF: 'hotOff', BACK: 'trippedBack', OVERHEAT: 'trippedHeat' } },
    trippedBack: { on: { OFF: 'off', HOT_OFF: 'hotOff', RESET: 'hot' } },
    trippedHeat: { on: { OFF: 'off', HOT_OFF: 'hotOff', RESET: 'hot' } },
    hotOff: { after: { 30000: 'off' }, on: { HEAT: 'heating' } },
  },
});

const tripped = (s: SenderState): boolean => s.mode === 'trippedBack' || s.mode === 'trippedHeat';
const tuningNow = (s: SenderState, now_us: number): Tuning => (s.travel ? tuningAt(s.travel, now_us) : s.at);
const kHzNow = (s: SenderState, now_us: number): number => Math.round(tuningNow(s, now_us).kHz * 1000) / 1000;
const busy = (s: SenderState): boolean => s.travel !== null || s.seek !== null;
const radiating = (s: SenderState, now_us: number): boolean => markAt(s.carrier, now_us);

const lit = (s: SenderState, w: Wires): boolean => w.live.sender && s.set['readiness'] !== 'off';

/** Full output from 24 V up, by the square of the volts below, nothing under 19 V. */
function supplyShare(bus_V: number): number {
  if (bus_V < DROP_OUT_V) return 0;
  return bus_V >= STABILISED_V ? 1 : (bus_V / STABILISED_V) * (bus_V / STABILISED_V);
}

/** What the output stage offers to 50 ohm when keyed, W. */
function offered_W(s: SenderState, w: Wires): number {
  const set_W = s.seek ? SEEK_W : s.set['power'] === 'full' ? FULL_W : LOW_W;
  return set_W * supplyShare(w.bus_V) * Math.max(0.5, 1 - HURT * s.hurts);
}

/** Heaters follow lever and supply; valves that still hold the heat of high tension are hurt by going cold at once. */
function heat(s: SenderState, w: Wires, bench: Bench): void {
  if (lit(s, w)) {
    if (s.mode === 'off' || s.mode === 'hotOff') bench.fire('HEAT');
    return;
  }
  if (s.mode === 'off' || s.mode === 'hotOff') return;
  const sudden = s.tension || (s.tensionEnd_us !== null && bench.now_us - s.tensionEnd_us < COOLING_US);
  if (sudden) s.hurts += 1;
  bench.fire(sudden ? 'HOT_OFF' : 'OFF');
}

function standsReady(s: SenderState, w: Wires, now_us: number): void {
  const drive = lit(s, w) && s.set['readiness'] !== 'heat';
  s.driven_us = drive ? (s.driven_us ?? now_us) : null;
  const tension = s.mode === 'hot' && s.set['readiness'] === 'send' && lit(s, w);
  if (s.tension && !tension) s.tensionEnd_us = now_us;
  s.tension = tension;
  const driven = s.driven_us !== null && now_us - s.driven_us >= DRIVE_US;
  w.armed = tension && driven && w.bus_V >= DROP_OUT_V && s.travel === null;
}

function drive(s: SenderState, w: Wires, bench: Bench): void {
  const now_us = bench.now_us;
  if (s.travel && !lit(s, w)) {
    halt(s, bench);
    s.wanted = SETTINGS.indexOf(s.set['setting'] as never);
  }
  if (s.wanted === null || !lit(s, w)) return;
  const to = s.settings[s.wanted] ?? null;
  s.wanted = null;
  if (to === null) return;
  halt(s, bench);
  s.travel = { from_us: now_us, from: s.at, to };
  bench.after(travelTime_us(s.travel), 'arrived');
}

/** Motors and servo stop where they are. */
function halt(s: SenderState, bench: Bench): void {
  s.at = tuningNow(s, bench.now_us);
  s.travel = null;
  s.seek = null;
  bench.forget((e) => e === 'arrived' || e === 'seek');
  dials(s, bench.now_us);
}

/** The knobs stand where the motors took them, to their nearest step. */
function dials(s: SenderState, now_us: number): void {
  const t = tuningNow(s, now_us);
  s.set['frequency'] = Math.round(t.kHz * 10) / 10;
  s.set['coil'] = Math.round(t.coil_uH * 20) / 20;
  s.set['loading'] = Math.round(t.loading_pF / 5) * 5;
  s.set['side'] = t.side;
}

function keying(s: SenderState, w: Wires): Keying {
  return {
    armed: w.armed,
    emission: s.set['emission'] as Emission,
    lever: w.lever,
    talking: w.talking,
    handKey: w.handKey,
    keyed: w.keyed,
    shift_Hz: w.shift_Hz,
    markLow: w.markLow,
    bareUntil_us: s.bareUntil_us,
    seeking: s.seek !== null,
  };
}

function power(s: SenderState, w: Wires, now_us: number): number {
  const up = radiating(s, now_us);
  if (up) s.reading = readMatch(tuningNow(s, now_us), w.whip, s.reading);
  const offer_W = up ? offered_W(s, w) : 0;
  w.forward_W = offer_W;
  w.reflected_W = up ? offer_W * (s.reading?.back ?? 1) : 0;
  w.radiated_W = up ? Math.round(offer_W * (s.reading?.radiated ?? 0) * 1e4) / 1e4 : 0;
  if (up) s.lastBack_W = w.reflected_W;
  // A planned carrier radiates what the present match gives.
  if (!up) s.reading = plans(s, now_us) ? readMatch(tuningNow(s, now_us), w.whip, s.reading) : s.reading;
  return up ? w.radiated_W : Math.round(offered_W(s, w) * (s.reading?.radiated ?? 0) * 1e4) / 1e4;
}

const plans = (s: SenderState, now_us: number): boolean => s.carrier.some((e) => e.mark && e.t_us > now_us);

function lastOff_us(s: SenderState, now_us: number): number {
  for (let i = s.carrier.length - 1; i >= 0; i--) {
    const e = s.carrier[i] as Edge;
    if (e.t_us <= now_us) return e.mark ? now_us : e.t_us;
  }
  return Number.NEGATIVE_INFINITY;
}

function radiate(s: SenderState, w: Wires, bench: Bench): void {
  const now_us = bench.now_us;
  const k = keying(s, w);
  const plan = carrierPlan(k, now_us);
  s.carrier = replan(s.carrier, now_us, plan);
  w.sender_Hz = Math.round(kHzNow(s, now_us) * 1000);
  const power_W = power(s, w, now_us);
  w.radiation.emission = k.seeking ? 'N0N' : k.emission;
  replanSteps(w.radiation.steps, plan, k, w.sender_Hz, power_W, now_us);
  w.radiation.words = replanWords(w.radiation.words, w.words, w.radiation.emission, s.carrier, now_us);
  w.relay = radiating(s, now_us) || now_us - lastOff_us(s, now_us) < RELAY_US ? 'sender' : 'receiver';
}

/** Too much power back without a break for three seconds trips the sender. */
function guardValves(s: SenderState, w: Wires, bench: Bench): void {
  const tooMuch = w.reflected_W > TRIP_BACK_W;
  if (tooMuch && s.back_us === null) {
    s.back_us = bench.now_us;
    bench.after(TRIP_US, 'back');
  } else if (!tooMuch && s.back_us !== null) {
    s.back_us = null;
    bench.forget((e) => e === 'back');
  }
}

/** Heaters are cold wire at first and draw several times their current, falling as they warm; the rest is constant power. */
function draw(s: SenderState, w: Wires, now_us: number): void {
  const heaters = lit(s, w);
  const cold = 1 + HEATER_INRUSH * exp(-Math.max(0, now_us - s.heaters_us) / HEATER_TAU_US);
  w.ohmic_S.sender = heaters ? (HEATER_A * cold) / 28.5 : 0;
  let watts = s.set['fan'] === true && w.live.sender ? FAN_W : 0;
  if (heaters && s.driven_us !== null) watts += DRIVE_W;
  if (heaters && s.tension) watts += IDLE_W;
  if (heaters && busy(s)) watts += MOTORS_W;
  watts += w.forward_W / EFFICIENCY;
  w.draw_A.sender =
    w.bus_V > 0 ? w.ohmic_S.sender * w.bus_V + loadCurrent_A({ kind: 'power', power_W: watts }, w.bus_V) : 0;
}

/** Ask to be woken when carrier, relay or drive will next change by themselves. */
function wake(s: SenderState, bench: Bench): void {
  const now_us = bench.now_us;
  const release_us = lastOff_us(s, now_us) + RELAY_US;
  const driven_us = (s.driven_us ?? now_us - DRIVE_US) + DRIVE_US;
  let next = Number.POSITIVE_INFINITY;
  for (const e of s.carrier) if (e.t_us > now_us) next = Math.min(next, e.t_us);
  if (!radiating(s, now_us) && release_us > now_us) next = Math.min(next, release_us);
  if (driven_us > now_us) next = Math.min(next, driven_us);
  const wish = Number.isFinite(next) ? next : null;
  if (wish === s.wake_us) return;
  if (s.wake_us !== null) bench.forget((e) => e === 'wake');
  s.wake_us = wish;
  if (wish !== null) bench.after(wish - now_us, 'wake');
}

/** Five ticks of the matcher's servo, each with its own reading. */
function search(s: SenderState, w: Wires, bench: Bench): void {
  if (!s.seek) return;
  for (let ms = 0; ms < SEEK_US / 1000; ms += MATCH_TICK_MS) {
    s.at = { kHz: s.at.kHz, ...matchAt(s.seek.at) };
    s.reading = readMatch(s.at, w.whip, s.reading);
    s.seek = servoStep(s.seek, Math.min(1, Math.max(0, s.reading.back)));
  }
  s.at = { kHz: s.at.kHz, ...matchAt(s.seek.at) };
  dials(s, bench.now_us);
  s.sought = s.seek.phase;
  if (s.seek.phase === 'found' || s.seek.phase === 'failed') s.seek = null;
  else bench.after(SEEK_US, 'seek');
}

const heatShare = (s: SenderState): number => Math.max(0, (s.stage_C - AMBIENT_C) / (TRIP_C - AMBIENT_C));

function warm(s: SenderState, w: Wires, dt_s: number): void {
  const fan = s.set['fan'] === true && w.live.sender;
  const filter = s.set['filter'] === true ? 'fitted' : 'missing';
  s.cooling = coolingAfter({ ...s.cooling, fan, filter }, dt_s / 3600, DUSTINESS);
  const flow = airFlow(s.cooling) * (filter === 'missing' ? OPEN_DUCT : 1);
  const standby_W = lit(s, w) ? STANDBY_HEAT_W : 0;
  const power_W = standby_W + w.forward_W / EFFICIENCY - (w.forward_W - w.reflected_W);
  s.stage_C = temperatureAfter_C(STAGE, { ambient_C: AMBIENT_C, power_W, airFlow: flow }, s.stage_C, dt_s);
}

type Turned = (s: SenderState, value: ControlValue, w: Wires, bench: Bench) => string | undefined;

/** Drums, coil, loading and relay by hand: not while the motors have them. */
function byHand(change: (value: ControlValue) => Partial<Tuning>): Turned {
  return (s, value) => {
    if (busy(s)) return 'the motors are turning it';
    s.at = { ...s.at, ...change(value) };
    return undefined;
  };
}

const TURN: Record<string, Turned> = {
  readiness(s, value, _w, bench) {
    if ((value === 'off' || value === 'heat') && tripped(s)) bench.fire('RESET');
    return undefined;
  },
  frequency: byHand((v) => ({ kHz: v as number })),
  coil: byHand((v) => ({ coil_uH: v as number })),
  loading: byHand((v) => ({ loading_pF: v as number })),
  side: byHand((v) => ({ side: v as Tuning['side'] })),
  setting(s, value, _w, bench) {
    halt(s, bench);
    s.wanted = value === 'hand' ? null : Number(value) - 1;
    return undefined;
  },
  keep(s, value) {
    if (value !== true) return undefined;
    if (s.set['setting'] === 'hand') return 'choose a stored setting first';
    if (busy(s)) return 'wait until the motors stand still';
    s.settings[Number(s.set['setting']) - 1] = { ...s.at };
    return undefined;
  },
  seek(s, value, w, bench) {
    if (value !== true) return undefined;
    if (busy(s)) return 'wait until the motors stand still';
    if (!w.armed) return 'the sender is not ready to send';
    s.seek = startSearch(s.at.kHz / 1000, nearestPosition(s.at));
    s.sought = s.seek.phase;
    bench.after(0, 'seek');
    return undefined;
  },
  cage(s, value) {
    if (value === false) s.bareUntil_us = null;
    return undefined;
  },
  carrier(s, value, _w, bench) {
    if (value === true && s.set['cage'] !== true) return 'the cage is shut';
    s.bareUntil_us = value === true ? bench.now_us + BARE_US : null;
    return undefined;
  },
  clean(s, value) {
    if (value !== true) return undefined;
    if (s.set['filter'] === true) return 'take the filter out first';
    s.cooling = { ...s.cooling, dirt: 0 };
    return undefined;
  },
};

const filterWord = (s: SenderState): string => {
  if (s.set['filter'] !== true) return 'out';
  return s.cooling.dirt > DIRTY_FROM ? 'dirty' : 'clean';
};

const indicators: readonly Indicator<SenderState>[] = [
  { id: 'out', name: 'power out', face: 'sail', unit: 'W', min: 0, max: 150, read: (_s, w) => w.forward_W },
  {
    id: 'back',
    name: 'power back',
    face: 'sail',
    unit: 'W',
    min: 0,
    max: 50,
    stop: 25,
    read: (_s, w) => Math.min(50, w.reflected_W),
  },
  {
    id: 'small',
    name: 'small meter',
    face: 'sail',
    min: 0,
    max: 100,
    read: (s, w) => {
      if (s.set['meter'] === 'heat') return Math.min(100, 100 * heatShare(s));
      return w.live.sender ? w.bus_V : 0;
    },
  },
  { id: 'ready', name: 'hot', face: 'lamp', read: (s) => s.mode === 'hot' },
  { id: 'radiating', name: 'radiating', face: 'lamp', read: (s, _w, now_us) => radiating(s, now_us) },
  { id: 'motors', name: 'motors turning', face: 'lamp', read: (s) => busy(s) },
  { id: 'trip', name: 'tripped', face: 'lamp', read: (s) => tripped(s) },
  { id: 'kHz', name: 'frequency', face: 'window', unit: 'kHz', read: (s, _w, now_us) => kHzNow(s, now_us).toFixed(1) },
  { id: 'filterState', name: 'filter', face: 'window', read: filterWord },
  { id: 'seeking', name: 'seek', face: 'window', read: (s) => s.sought },
];

const sampled: readonly Sampled<SenderState>[] = [
  { id: 'radiated_W', unit: 'W', step: 1, read: (_s, w) => w.radiated_W },
  { id: 'reflected_W', unit: 'W', step: 0.5, read: (s) => s.lastBack_W },
  { id: 'forward_W', unit: 'W', step: 1, read: (_s, w) => w.forward_W },
  { id: 'heat', unit: '', step: 0.05, read: heatShare },
  { id: 'hot', unit: '', step: 1, read: (s) => s.mode === 'hot' },
  { id: 'power', unit: '', step: 1, read: (s) => s.set['power'] as string },
  { id: 'emission', unit: '', step: 1, read: (s) => s.set['emission'] as string },
];

/** As found: knobs as the scenario left them; at a stored setting the tuning is the stored one unless the scenario says otherwise. */
function asFound(found: Found): SenderState {
  const set = atRest(SENDER_CONTROLS, found);
  const drift_pct = typeof found.inner['drift'] === 'number' ? found.inner['drift'] : 0;
  const list = Array.isArray(found.inner['settings']) ? (found.inner['settings'] as Json[]) : [];
  const settings = SETTINGS.map((_, i) => storedSetting(list[i], drift_pct));
  const stored = set['setting'] === 'hand' ? null : (settings[Number(set['setting']) - 1] ?? null);
  const told = found.controls;
  const at: Tuning = {
    kHz: told['frequency'] === undefined && stored ? stored.kHz : (set['frequency'] as number),
    coil_uH: told['coil'] === undefined && stored ? stored.coil_uH : (set['coil'] as number),
    loading_pF: told['loading'] === undefined && stored ? stored.loading_pF : (set['loading'] as number),
    side: told['side'] === undefined && stored ? stored.side : (set['side'] as Tuning['side']),
  };
  const s: SenderState = {
    mode: '',
    set,
    at,
    travel: null,
    seek: null,
    sought: 'idle',
    settings,
    cooling: {
      fan: false,
      filter: 'fitted',
      dirt: found.inner['filter'] === 'dirty' ? FOUND_DIRT : 0,
      dust: 0,
    },
    stage_C: AMBIENT_C,
    wanted: null,
    foundHot: found.inner['hot'] === true && set['readiness'] !== 'off',
    heaters_us: 0,
    driven_us: null,
    tension: false,
    tensionEnd_us: null,
    hurts: 0,
    bareUntil_us: null,
    back_us: null,
    carrier: [{ t_us: -RELAY_US, mark: false }],
    wake_us: null,
    reading: null,
    lastBack_W: 0,
  };
  dials(s, 0);
  return s;
}

export const sender = {
  id: 'sender',
  name: 'Sender',
  bay: 'radio',
  about:
    'Makes the carrier, 1.8 to 17 MHz, 15 or 120 W, and matches it to the whip with a coil and a loading capacitor. Morse, voice, print, or voice and print on one carrier.',
  source:
    'Match: L section of any radio handbook over a moment-method whip (core/physics/matching.ts, whip.ts); heat: Newton’s law of cooling (core/physics/thermal.ts); powers, times and trips: the station’s table of values, invented.',
  controls: SENDER_CONTROLS,
  indicators,
  sampled,
  machine,
  inner: {
    filter: { default: 'clean', about: 'The cooling filter as found: clean or dirty.' },
    settings: {
      default: [],
      about:
        'Twelve stored settings, each null or { kHz, coil_uH, loading_pF, side }; with kHz alone the match of the standard fit (four sections, earth spike, four wires) is stored.',
    },
    hot: { default: false, about: 'The heaters are hot already when the drill begins (readiness not at off).' },
    drift: { default: 0, about: 'Percent by which the stored coils are off for this ground, about -3 to 3.' },
  },
  start: asFound,
  turn: (s, control, value, w, bench) => TURN[control]?.(s, value, w, bench),
  settle(s, w, bench) {
    heat(s, w, bench);
    drive(s, w, bench);
    standsReady(s, w, bench.now_us);
    if (s.seek && !w.armed) {
      halt(s, bench);
      s.sought = 'failed';
    }
    radiate(s, w, bench);
    guardValves(s, w, bench);
    draw(s, w, bench.now_us);
    wake(s, bench);
  },
  tick(s, w, dt_s, bench) {
    warm(s, w, dt_s);
    if (heatShare(s) >= 1 && s.mode === 'hot') bench.fire('OVERHEAT');
    if (s.travel) dials(s, bench.now_us);
    prune(s.carrier, bench.now_us - HISTORY_US);
    pruneSteps(w.radiation.steps, bench.now_us - HISTORY_US);
  },
  woken(s, event, w, bench) {
    if (event === 'wake') s.wake_us = null;
    else if (event === 'back') bench.fire('BACK');
    else if (event === 'arrived') halt(s, bench);
    else if (event === 'seek') search(s, w, bench);
  },
  entered(s, _w, bench) {
    if (s.mode === 'heating') s.heaters_us = bench.now_us;
    if (!s.foundHot) return;
    s.foundHot = false;
    s.heaters_us = -HEATERS_MS * 1000;
    bench.fire('FOUND');
  },
} satisfies Box<SenderState>;
