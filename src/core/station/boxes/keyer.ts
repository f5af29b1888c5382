/** Keyer and terminal unit: the loop to the sender's shift, and the receiver's tones back to the loop. */
import { setup } from 'xstate';
import { prune } from '../../kernel/history.ts';
import type { Edge, Json } from '../../signals.ts';
import { measureDistortion } from '../../telegraphy/distortion.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';
import { follow, standing } from '../follow.ts';
import { put } from '../wave.ts';
import type { Wires } from '../wires.ts';
import { BLOCK_us, isLocked, LOOK_us, newPath, type Path, takeBlock } from './terminal-unit.ts';

/** Drawn from the bus, A, without the loop. */
const DRAW_A = 1.5;
const KEPT_us = 4_000_000;

/** State of the keyer. */
export type KeyerState = BoxState & { path: Path; isDue: boolean; isLocked: boolean };

const controls: readonly Control[] = [
  {
    id: 'power',
    name: 'Keyer and terminal unit',
    face: 'plunger',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside: 'Feeds the line loop, the keyer and the converter.',
    caution: 'The loop supply bites: cords are plugged and drawn by their handles only.',
  },
  {
    id: 'shift',
    name: 'Shift',
    face: 'limpet',
    range: { kind: 'words', words: ['200', '400', '850'], unit: 'Hz' },
    inside:
      'How far apart mark and space stand. It sets the keyer and the converter’s tone filters at once; both stations need the same.',
  },
  {
    id: 'sense',
    name: 'Mark is',
    face: 'tiller',
    range: { kind: 'words', words: ['low', 'high'] },
    inside:
      'Which of the two frequencies is mark. With the wrong one a waiting signal reads as space and the printer runs open; traffic is steady garble.',
  },
  {
    id: 'hold',
    name: 'Hold mark',
    face: 'plunger',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside:
      'Holds the loop at mark when no mark has been there for longer than a character lasts, so that the printer keeps still in an empty channel.',
  },
  {
    id: 'loop',
    name: 'Loop current',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: 40, step: 1, unit: 'mA' },
    inside:
      'Current of the line loop. 20 mA is usual; under 12 mA at the machine its magnets do not hold and it runs open.',
  },
];

const machine = setup({ types: {} as { events: { type: 'ON' } | { type: 'OFF' } } }).createMachine({
  id: 'keyer',
  initial: 'off',
  states: { off: { on: { ON: 'on' } }, on: { on: { OFF: 'off' } } },
});

const canReceive = (s: KeyerState, w: Wires): boolean => s.mode === 'on' && w.rx.on && !w.rx.deaf;

// What the line does appears a block after the signal, so that nothing is decided in the past.
function lay(w: Wires, edges: readonly Edge[], now_us: number): void {
  for (const e of edges) put(w.decided, Math.max(now_us, e.t_us + BLOCK_us), e.mark);
}

function receive(s: KeyerState, w: Wires, length_us: number, bench: Bench): void {
  const keying = { shift_Hz: w.shift_Hz, markLow: w.markLow, hold: s.set['hold'] === true };
  const span = [bench.now_us - length_us, bench.now_us] as const;
  const edges = takeBlock(s.path, bench.ear, w.rx, keying, span, bench.seed);
  s.isLocked = isLocked(s.path, s.isLocked);
  if (!isReading(s, w)) return;
  // The line may stand otherwise than the converter after a time away.
  const stands = s.path.converter.line;
  lay(w, edges, bench.now_us);
  const end = w.decided[w.decided.length - 1];
  if ((end?.mark ?? true) !== stands) put(w.decided, Math.max(bench.now_us, end?.t_us ?? 0), stands);
}

// In IN every block counts, unless an empty channel holds the line at mark anyhow. Otherwise only the tuning display is fed,
// one short block a tick, which the eye cannot tell.
const isReading = (s: KeyerState, w: Wires): boolean =>
  w.lever === 'IN' && canReceive(s, w) && !(w.rx.quiet && s.set['hold'] === true);

// In an empty channel the blades only tremble: once a second will do.
const isLookDue = (w: Wires, now_us: number): boolean => !w.rx.quiet || now_us % 1_000_000 === 0;

function keepWaking(s: KeyerState, w: Wires, bench: Bench): void {
  if (s.isDue || !isReading(s, w)) return;
  bench.after(BLOCK_us - (bench.now_us % BLOCK_us), 'block');
  s.isDue = true;
}

function fade(s: KeyerState): void {
  s.path.lock *= 0.5;
  s.path.converter = { ...s.path.converter, markLevel: 0, spaceLevel: 0 };
  s.isLocked = isLocked(s.path, s.isLocked);
}

const round2 = (x: number): number => Math.round(100 * x) / 100;

/** Start-stop distortion of the last four seconds, percent of a unit; null when no character ran. */
function distortion(w: Wires, now_us: number): number | null {
  const { characters, degree } = measureDistortion(
    w.decided.filter((e) => e.t_us <= now_us),
    50,
  );
  return characters > 0 ? Math.round(degree) : null;
}

/** Keyer and terminal unit. */
export const keyer = {
  id: 'keyer',
  name: 'Keyer and terminal unit',
  bay: 'messages',
  about:
    'Turns the line loop into frequency shift for the sender, and the receiver’s two tones into current in the loop.',
  source:
    'Frequency-shift keying: CCIR Rec. F.246. Mark is the lower frequency: ITU-T V.1. Width after the detector: ITU-R F.338. Distortion: FS-1037C.',
  controls,
  indicators: [
    {
      id: 'blades',
      name: 'Tuning display',
      face: 'blades',
      read: (s: KeyerState): Json => ({
        mark: round2(Math.min(1, s.path.converter.markLevel)),
        space: round2(Math.min(1, s.path.converter.spaceLevel)),
        lean: round2(s.path.lean),
      }),
    },
    { id: 'lock', name: 'Tone there', face: 'lamp', read: (s: KeyerState) => s.isLocked },
    {
      id: 'dist',
      name: 'Distortion',
      face: 'window',
      shows: 'number',
      unit: '%',
      read: (_s: KeyerState, w: Wires, now_us: number) => distortion(w, now_us),
    },
    { id: 'lamp', name: 'Unit on', face: 'lamp', read: (s: KeyerState) => s.mode === 'on' },
  ],
  sampled: [
    { id: 'locked', unit: '', step: 1, shows: 'flag', read: (s: KeyerState) => s.isLocked },
    { id: 'sense', unit: '', step: 1, shows: { control: 'sense' }, read: (s: KeyerState) => String(s.set['sense']) },
    { id: 'shift', unit: 'Hz', step: 1, shows: { control: 'shift' }, read: (s: KeyerState) => String(s.set['shift']) },
  ],
  machine,
  inner: {},
  start: (found) => ({
    mode: '',
    set: atRest(controls, { controls: { shift: '400', loop: 20, ...found.controls }, inner: found.inner }),
    path: newPath(),
    isDue: false,
    isLocked: false,
  }),
  settle(s, w, bench) {
    const { now_us } = bench;
    const isOn = s.set['power'] === true && w.live.terminal;
    if (isOn !== (s.mode === 'on')) bench.fire(isOn ? 'ON' : 'OFF');
    w.draw_A.terminal = isOn ? DRAW_A : 0;
    w.supply_mA = isOn ? Number(s.set['loop']) : 0;
    w.shift_Hz = Number(s.set['shift']);
    w.markLow = s.set['sense'] === 'low';
    w.keyed = follow(w.keyed, now_us, isOn ? w.sent : standing(true));
    if (!isReading(s, w)) w.decided = follow(w.decided, now_us, standing(true));
    keepWaking(s, w, bench);
  },
  woken(s, _event, w, bench) {
    s.isDue = false;
    if (isReading(s, w)) receive(s, w, BLOCK_us, bench);
  },
  tick(s, w, _dt, bench) {
    if (!canReceive(s, w)) fade(s);
    else if (!isReading(s, w) && isLookDue(w, bench.now_us)) receive(s, w, LOOK_us, bench);
    for (const wave of [w.decided, w.keyed]) prune(wave, bench.now_us - KEPT_us);
  },
} satisfies Box<KeyerState>;
