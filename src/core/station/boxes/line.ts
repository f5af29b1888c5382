/** Line box: the loop of contacts, its current, and the lever that says which way traffic runs. */
import { setup } from 'xstate';
import { prune } from '../../kernel/history.ts';
import { flag } from '../../record/shape.ts';
import type { Edge } from '../../signals.ts';
import { printCode } from '../../telegraphy/ita2.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';
import { follow, inSeries, markShare, standing } from '../follow.ts';
import { keepWake, type LoopReader, loopReader, readTo } from '../loop-reader.ts';
import type { Wires } from '../wires.ts';

/** Least current at which the loop's magnets hold, mA; under it mark reads as space (ours; 20 mA is the usual loop, common practice). */
export const HOLDS_mA = 12;
/** What the wire of the remote line takes off the loop current, mA (ours: some kilometre of field wire). */
export const FAR_mA = 5;
const KEPT_us = 4_000_000;
const REMOTE = { baud: 50, range: 50 };

/** State of the line box. `remote` is the reader of the machine at the far end of the remote line. */
export type LineState = BoxState & { remote: LoopReader; remoteCase: 'letters' | 'figures'; isFarBroken: boolean };

const jack = (id: string, name: string, inside: string): Control => ({
  id,
  name,
  face: 'jack',
  range: { kind: 'switch', words: ['out', 'in'] },
  inside,
});

const controls: readonly Control[] = [
  {
    id: 'lever',
    name: 'Line lever',
    face: 'tiller',
    range: { kind: 'words', words: ['OUT', 'STEADY', 'IN'] },
    inside:
      'OUT: the loop keys the sender. STEADY: the sender gets steady mark and nothing prints. IN: the sender is silent and the terminal unit drives the loop.',
  },
  jack(
    'keys',
    'Keyboard in the loop',
    'Puts the contact of the keyboard into the line loop. All contacts lie in series: one open contact is space for everybody.',
  ),
  jack('tape', 'Tape reader in the loop', 'Puts the contact of the tape reader into the line loop.'),
  jack(
    'far',
    'Remote line',
    'Takes the loop out to a second machine some distance off. The wire costs 5 mA of loop current, and that machine copies all that runs.',
  ),
];

const machine = setup({ types: {} as { events: { type: 'HOLD' } | { type: 'DROP' } } }).createMachine({
  id: 'line',
  initial: 'open',
  states: { open: { on: { HOLD: 'closed' } }, closed: { on: { DROP: 'open' } } },
});

const isIn = (s: LineState, id: string): boolean => s.set[id] === true;

/** Loop current at mark, mA. */
function current_mA(s: LineState, w: Wires): number {
  const full = w.supply_mA - (isIn(s, 'far') ? FAR_mA : 0);
  return isIn(s, 'far') && s.isFarBroken ? 0 : Math.max(0, full);
}

function contacts(s: LineState, w: Wires): (readonly Edge[])[] {
  const waves: (readonly Edge[])[] = [];
  if (w.lever === 'STEADY') return waves;
  if (w.lever === 'IN') waves.push(w.contact.unit);
  if (isIn(s, 'keys')) waves.push(w.contact.keys);
  if (isIn(s, 'tape')) waves.push(w.contact.tape);
  return waves;
}

function copyRemote(s: LineState, w: Wires, bench: Bench): void {
  if (!isIn(s, 'far') || s.isFarBroken) return;
  for (const { code, stopOk } of readTo(s.remote, w.loop, bench.now_us, REMOTE)) {
    if (code === 0 && !stopOk) continue;
    const { char, state } = printCode(code, { case: s.remoteCase });
    s.remoteCase = state.case ?? 'letters';
    bench.note({ k: 'print', at: 'remote', code, c: char ?? '' });
  }
}

/** The reader's pending wake-up goes with the reader. */
function listenAnew(s: LineState, bench: Bench): void {
  bench.forget((e) => e === 'remote');
  s.remote = loopReader(bench.now_us);
}

/** The line box. */
export const line = {
  id: 'line',
  name: 'Line box',
  bay: 'messages',
  about:
    'Where keyboard, tape reader, terminal unit and remote line are patched into one loop, and where its direction is set.',
  source:
    'Single-current loop of contacts in series, 20 mA usual: common practice. Steady mark while idle: ITU-T V.1 (mark is the idle state).',
  controls,
  indicators: [
    {
      id: 'meter',
      name: 'Loop current',
      face: 'sail',
      unit: 'mA',
      min: 0,
      max: 40,
      // A needle is slow: it shows the mean of the last 0.3 s.
      read: (_s: LineState, w: Wires, now_us: number) =>
        Math.round(10 * w.loop_mA * (w.loop_mA < HOLDS_mA ? 1 : markShare(w.loop, now_us, 300_000))) / 10,
    },
    {
      id: 'lamp',
      name: 'Loop holds',
      face: 'lamp',
      read: (s: LineState) => s.mode === 'closed',
    },
  ],
  sampled: [
    { id: 'lever', unit: '', step: 1, shows: { control: 'lever' }, read: (s: LineState) => String(s.set['lever']) },
    { id: 'loop_mA', unit: 'mA', step: 1, read: (_s: LineState, w: Wires) => w.loop_mA },
  ],
  machine,
  inner: {
    farBroken: {
      default: false,
      schema: flag,
      about: 'The wire of the remote line is broken: the loop stands open while it is patched in.',
    },
  },
  start(found) {
    const atStart = { controls: { lever: 'STEADY', ...found.controls }, inner: found.inner };
    return {
      mode: '',
      set: atRest(controls, atStart),
      remote: loopReader(0),
      remoteCase: 'letters',
      isFarBroken: found.inner['farBroken'] === true,
    };
  },
  turn(s, control, _value, _w, bench) {
    if (control !== 'far') return undefined;
    listenAnew(s, bench);
    return undefined;
  },
  upset(s, _thing, value, _w, bench) {
    s.isFarBroken = value === true;
    if (isIn(s, 'far')) listenAnew(s, bench);
  },
  settle(s, w, bench) {
    const { now_us } = bench;
    w.lever = s.set['lever'] as Wires['lever'];
    w.loop_mA = current_mA(s, w);
    const isHeld = w.loop_mA >= HOLDS_mA;
    w.loop = follow(w.loop, now_us, isHeld ? inSeries(contacts(s, w), now_us) : standing(false));
    if (isHeld !== (s.mode === 'closed')) bench.fire(isHeld ? 'HOLD' : 'DROP');
    keepWake(s.remote, w.loop, isIn(s, 'far') && !s.isFarBroken ? REMOTE : null, bench, 'remote');
  },
  woken(s, _event, w, bench) {
    s.remote.wake_us = null;
    copyRemote(s, w, bench);
  },
  tick(s, w, _dt, bench) {
    copyRemote(s, w, bench);
    prune(w.loop, bench.now_us - KEPT_us);
  },
} satisfies Box<LineState>;
