/**
 * The sender: from the drive to the foot of the whip. Who radiates when is the table in sender-air.ts, motors and match are
 * in sender-match.ts, the settling in sender-run.ts, watts and heat in sender-load.ts.
 */
import * as v from 'valibot';
import { setup } from 'xstate';
import { prune } from '../../kernel/history.ts';
import { COIL_MAX_UH, LOADING_MAX_PF } from '../../physics/match-motors.ts';
import { flag, list, map, number, oneOf } from '../../record/shape.ts';
import type { Box, Indicator, Sampled } from '../box.ts';
import { SENDER_CONTROLS } from './sender-controls.ts';
import { draw, heatShare, warm } from './sender-load.ts';
import { KHZ_MAX, KHZ_MIN } from './sender-match.ts';
import { drive, guardValves, halt, heat, radiate, search, standsReady, wake } from './sender-run.ts';
import { asFound, busy, dials, dirtOf, kHzNow, radiating, type SenderState, tripped } from './sender-state.ts';
import { TURN } from './sender-turn.ts';

/** A stored setting as a scenario writes it. */
const stored = map({
  kHz: number(KHZ_MIN, KHZ_MAX),
  coil_uH: v.optional(number(0, COIL_MAX_UH)),
  loading_pF: v.optional(number(0, LOADING_MAX_PF)),
  side: v.optional(oneOf(['sender', 'whip'])),
});

const HEATERS_MS = 45_000;
const HISTORY_US = 4e6;
const DIRTY_FROM = 0.5;

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

const filterWord = (s: SenderState): string => {
  const word = s.cooling.dirt > DIRTY_FROM ? 'dirty' : 'clean';
  return s.set['filter'] === true ? word : `out, ${word}`;
};

/** What the servo is at, for the window under its push; found and failed as they are. */
const SEEKING: Readonly<Record<string, string>> = {
  home: 'to start',
  'sweep coil': 'coil',
  'seat coil': 'coil',
  'sweep loading': 'loading',
  climb: 'fine match',
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
    scaleAt: { control: 'meter', scales: { volts: { max: 32, unit: 'V' }, heat: { max: 100, unit: '%' } } },
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
  {
    id: 'filterState',
    name: 'filter',
    face: 'window',
    shows: ['clean', 'dirty', 'out, clean', 'out, dirty'],
    read: filterWord,
  },
  {
    id: 'seeking',
    name: 'seek',
    face: 'window',
    shows: ['idle', ...Object.values(SEEKING), 'found', 'failed'],
    read: (s) => SEEKING[s.sought] ?? s.sought,
  },
];

const sampled: readonly Sampled<SenderState>[] = [
  { id: 'radiated_W', unit: 'W', step: 1, read: (_s, w) => w.radiated_W },
  { id: 'reflected_W', unit: 'W', step: 0.5, read: (s) => s.lastBack_W },
  { id: 'forward_W', unit: 'W', step: 1, read: (_s, w) => w.forward_W },
  { id: 'heat', unit: '', step: 0.05, read: heatShare },
  { id: 'hot', unit: '', step: 1, shows: 'flag', read: (s) => s.mode === 'hot' },
  { id: 'power', unit: '', step: 1, shows: { control: 'power' }, read: (s) => s.set['power'] as string },
  { id: 'emission', unit: '', step: 1, shows: { control: 'emission' }, read: (s) => s.set['emission'] as string },
];

/** The box. */
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
  modes: { trippedBack: 'tripped by power back', trippedHeat: 'tripped by heat', hotOff: 'switched off hot' },
  inner: {
    filter: {
      default: 'clean',
      schema: oneOf(['clean', 'dirty']),
      about: 'The cooling filter as found: clean or dirty.',
    },
    settings: {
      default: [],
      schema: list(v.nullable(stored), 12),
      fixed: true,
      about:
        'Twelve stored settings, each null or { kHz, coil_uH, loading_pF, side }; with kHz alone the match of the standard fit (four sections, earth spike, four wires) is stored.',
    },
    hot: {
      default: false,
      schema: flag,
      fixed: true,
      about: 'The heaters are hot already when the drill begins (readiness not at off).',
    },
    drift: {
      default: 0,
      schema: number(-10, 10),
      fixed: true,
      about: 'Percent by which the stored coils are off for this ground, about -3 to 3.',
    },
  },
  start: asFound,
  turn: (s, control, value, w, bench) => TURN[control]?.(s, value, w, bench),
  upset(s, _thing, value) {
    s.cooling = { ...s.cooling, dirt: dirtOf(value) };
  },
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
    prune(w.radiation.steps, bench.now_us - HISTORY_US);
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
