/** The whip outside, with what stands round it: sections, insulator guard, earth, counterpoise, second whip, power lines. */
import { setup } from 'xstate';
import { flag } from '../../record/shape.ts';
import type { ControlValue } from '../../signals.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';
import type { Wires } from '../wires.ts';

/** Four sections of 1.3 m, 10 mm radius (table of values). */
const SECTION_M = 1.3;
const RADIUS_M = 0.01;
/**
 * Loss at the foot, ohm: 10 with earth spike and four wires (table of values); more without them (ours; 5 to 20 ohm for
 * a vehicle in the low megahertz is common practice, from memory).
 */
const BEST_GROUND_OHM = 10;
const NO_EARTH_OHM = 15;
const MISSING_WIRE_OHM = 5;
const WIRES = 4;

type AerialState = BoxState & {
  /** A power line runs overhead. */
  lines: boolean;
  looked: boolean;
  /** What the exhaust did when the operator last looked. */
  exhaust: string;
  /** What stood a moment ago, to tell raising from lowering. */
  sections: number;
  /** The foot is live, and a guard that is off meanwhile has been recorded. */
  live: boolean;
  told: boolean;
};

const LINES_CAUTION =
  'A whip that touches or comes near a power line kills. Look up first, keep well clear, and follow local codes and the people in charge of the line.';

const controls: readonly Control[] = [
  {
    id: 'look',
    name: 'look up and round',
    face: 'push',
    range: { kind: 'press' },
    inside: 'You step outside and look: what runs overhead, and where the exhaust goes.',
    caution: LINES_CAUTION,
  },
  {
    id: 'sections',
    name: 'whip sections',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: 4, step: 1, unit: 'sections' },
    inside:
      'Each section adds 1.3 m. A longer whip radiates more of the power and needs less coil. Nobody touches the whip while the sender radiates.',
    caution: LINES_CAUTION,
  },
  {
    id: 'guard',
    name: 'insulator guard',
    face: 'tiller',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside: 'A cage round the foot of the whip, which carries high voltage while the sender radiates.',
    caution:
      'The foot of a live whip burns and can kill. Keep the guard on whenever the sender may radiate; local rules and the equipment’s manual decide.',
  },
  {
    id: 'earth',
    name: 'earth spike',
    face: 'tiller',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside:
      'Joins the vehicle to the ground: the body stands at earth and the current at the foot of the whip finds a shorter way.',
    caution:
      'Before driving a spike make sure that no cable or pipe lies below; local codes and qualified people decide.',
  },
  {
    id: 'counterpoise',
    name: 'counterpoise wires',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: WIRES, step: 1, unit: 'wires' },
    inside: 'Wires laid out on the ground carry the return current. Each that is missing adds 5 ohm of loss.',
  },
  {
    id: 'second',
    name: 'second whip',
    face: 'tiller',
    range: { kind: 'switch', words: ['stowed', 'up'] },
    inside:
      'A whip for the receiver alone, so that it hears while the sender radiates. It wants distance, and frequencies well apart.',
    caution: LINES_CAUTION,
  },
  {
    id: 'spacing',
    name: 'distance of the second whip',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: 30, step: 1, unit: 'm' },
    inside: 'The farther off, the less of the own sender the receiver hears. 15 m at least is common practice.',
  },
];

const machine = setup({ types: { events: {} as { type: 'RAISE' | 'STRIKE' } } }).createMachine({
  id: 'aerial',
  initial: 'stowed',
  states: { stowed: { on: { RAISE: 'up' } }, up: { on: { STRIKE: 'stowed' } } },
});

function unsafe(bench: Bench, why: string): void {
  bench.note({ k: 'far', station: 'own', what: 'unsafe', detail: { why } });
}

function ground_ohm(s: AerialState): number {
  const missing = WIRES - (s.set['counterpoise'] as number);
  return BEST_GROUND_OHM + (s.set['earth'] === true ? 0 : NO_EARTH_OHM) + missing * MISSING_WIRE_OHM;
}

type Turned = (s: AerialState, value: ControlValue, w: Wires, bench: Bench) => string | undefined;

const TURN: Record<string, Turned> = {
  look(s, value, w) {
    if (value !== true) return undefined;
    s.looked = true;
    s.exhaust = w.engine && !w.live.vent ? 'at the shelter' : 'clear';
    return undefined;
  },
  sections(s, value, w, bench) {
    if (w.relay === 'sender') return 'the sender radiates: nobody touches the whip';
    if ((value as number) > s.sections && s.lines) unsafe(bench, 'whip raised near a power line');
    s.sections = value as number;
    bench.fire(s.sections > 0 ? 'RAISE' : 'STRIKE');
    return undefined;
  },
  second(s, value, _w, bench) {
    if (value === true && s.lines) unsafe(bench, 'second whip raised near a power line');
    return undefined;
  },
};

/** The box. */
export const aerial = {
  id: 'aerial',
  name: 'Aerial',
  bay: 'outside',
  about:
    'A 5.2 m whip in four sections on an arm of the vehicle, low over the ground; its guard, earth and counterpoise, and a second whip.',
  source: 'Impedance by moment method (core/physics/whip.ts); ground losses: table of values and common practice.',
  controls,
  indicators: [
    {
      id: 'overhead',
      name: 'overhead',
      face: 'window',
      shows: ['not looked', 'clear', 'line near'],
      read: (s) => (s.looked ? (s.lines ? 'line near' : 'clear') : 'not looked'),
    },
    {
      id: 'exhaust',
      name: 'exhaust',
      face: 'window',
      shows: ['not looked', 'clear', 'at the shelter'],
      read: (s) => s.exhaust,
    },
    {
      id: 'height',
      name: 'height of the whip',
      face: 'window',
      unit: 'm',
      read: (_s, w) => w.whip.height_m.toFixed(1),
    },
    { id: 'foot', name: 'foot live', face: 'lamp', read: (_s, w) => w.forward_W > 0 },
  ],
  sampled: [
    { id: 'guard', unit: '', step: 1, shows: { control: 'guard' }, read: (s) => s.set['guard'] === true },
    { id: 'earth', unit: '', step: 1, shows: { control: 'earth' }, read: (s) => s.set['earth'] === true },
    { id: 'sections', unit: '', step: 1, read: (s) => s.sections },
    { id: 'looked', unit: '', step: 1, shows: 'flag', read: (s) => s.looked },
  ],
  machine,
  inner: {
    lines: {
      default: false,
      schema: flag,
      fixed: true,
      about: 'A power line runs overhead, too near to raise a whip.',
    },
  },
  start(found) {
    const set = atRest(controls, found);
    return {
      mode: '',
      set,
      lines: found.inner['lines'] === true,
      looked: false,
      exhaust: 'not looked',
      sections: set['sections'] as number,
      live: false,
      told: false,
    };
  },
  turn: (s, control, value, w, bench) => TURN[control]?.(s, value, w, bench),
  settle(s, w, bench) {
    const { whip } = w;
    whip.sections = s.sections;
    whip.height_m = s.sections * SECTION_M;
    whip.radius_m = RADIUS_M;
    whip.ground_ohm = ground_ohm(s);
    whip.guard = s.set['guard'] === true;
    whip.earthed = s.set['earth'] === true;
    whip.second = s.set['second'] === true;
    whip.distance_m = s.set['spacing'] as number;
    // One radiation lasts until the relay lets go: the gaps of Morse do not end it.
    s.live = w.relay === 'sender';
    if (!s.live) s.told = false;
    else if (!whip.guard && !s.told) {
      s.told = true;
      unsafe(bench, 'guard off, foot live');
    }
  },
  entered(s, _w, bench) {
    // A whip found standing: the machine begins in `stowed`.
    if (s.mode === 'stowed' && s.sections > 0) bench.fire('RAISE');
  },
} satisfies Box<AerialState>;
