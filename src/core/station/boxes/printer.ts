/** Page printer: keyboard, start-stop reader, type and carriage, driven by one governed motor on the mains-type supply. */
import { setup } from 'xstate';
import { prune } from '../../kernel/history.ts';
import { number, whole } from '../../record/shape.ts';
import type { Edge, Json } from '../../signals.ts';
import { BELL, BLANK, CR, codeOf, FIGS, LF, LTRS, printCode, SPACE } from '../../telegraphy/ita2.ts';
import { charEdges } from '../../telegraphy/startstop.ts';
import { atRest, type Bench, type Box, type BoxState } from '../box.ts';
import { follow, inSeries, standing } from '../follow.ts';
import { keepWake, type LoopReader, loopReader, readTo, type Turning } from '../loop-reader.ts';
import { replan } from '../wave.ts';
import type { Wires } from '../wires.ts';
import { feedLine, newSheet, type Sheet, strike, tearOff } from './page.ts';
import { printerControls } from './printer-controls.ts';

/** Rated speed at 50 Hz, bauds; length of the keyboard's stop, units. */
export const RATED_Bd = 50;
const STOP_units = 1.5;
/** Supply at which the motor starts, and that at which it stalls, V (ours): what it takes must not stop it again. */
const STARTS_V = 180;
const STALLS_V = 150;
/** Its run-up and run-down, s. */
const RUN_UP_s = 2;
const RUN_DOWN_s = 1;
/** Taken from the mains-type supply, W: running, and four times that while running up (common practice for small motors). */
const RUN_W = 60;
const START_W = 240;
/** The reader's magnet needs a fifth of a unit to move its armature. */
const ARMATURE = 20;
const KEPT_us = 4_000_000;
const FULL_lines = 2000;

/** State of the printer. `speed` is the motor's, relative to rated. */
export type PrinterState = BoxState & {
  keys: Edge[];
  lock_us: number;
  reader: LoopReader;
  /** The loop that the reader stands in. */
  at: 'local' | 'line';
  speed: number;
  case: 'letters' | 'figures';
  sheet: Sheet;
  speedError: number;
};

const machine = setup({ types: {} as { events: { type: 'RUN' } | { type: 'STOP' } } }).createMachine({
  id: 'printer',
  initial: 'still',
  states: {
    still: { on: { RUN: 'runUp' } },
    runUp: { on: { STOP: 'still' }, after: { 2000: 'running' } },
    running: { on: { STOP: 'still' } },
  },
});

const KEYS: Readonly<Record<string, number>> = { LTRS, FIGS, CR, LF, SPACE, BLANK };

/** The code of a key by its name, or null. */
export const keyCode = (name: string): number | null =>
  KEYS[name.toUpperCase()] ?? (/^[A-Za-z]$/.test(name) ? codeOf(name, 'letters') : null);

const hasPower = (s: PrinterState, w: Wires): boolean =>
  s.set['motor'] === true && w.mains_V > (s.mode === 'still' ? STARTS_V : STALLS_V);

/** Bauds at which the machine turns now. */
const baud = (s: PrinterState, w: Wires): number => RATED_Bd * ((w.mains_Hz || 50) / 50) * (1 + s.speedError) * s.speed;

// Under a fifth of its speed the clutch does not carry the cam round.
const turning = (s: PrinterState, w: Wires): Turning | null =>
  s.speed < 0.2
    ? null
    : { baud: baud(s, w), range: Math.min(Math.max(Number(s.set['range']), ARMATURE), 100 - ARMATURE) };

/** What the reader makes of five units when its armature is still, or again, on the move: each unit is taken for its neighbour. */
export function shifted(code: number, range: number): number {
  if (range < ARMATURE) return (code << 1) & 31;
  return range > 100 - ARMATURE ? (code >> 1) | 16 : code;
}

const loopOf = (s: PrinterState, w: Wires): Edge[] => (s.at === 'line' ? w.loop : w.local);

function press(s: PrinterState, name: string, w: Wires, bench: Bench): string | undefined {
  const code = keyCode(name);
  if (code === null) return `no key ${name}`;
  if (!turning(s, w) || !hasPower(s, w)) return 'the keyboard does not move: the motor stands still';
  if (bench.now_us < s.lock_us) return 'the keyboard is locked until the last key is through';
  const { edges, end_us } = charEdges(code, bench.now_us, baud(s, w), STOP_units);
  s.keys = replan(s.keys, bench.now_us, edges);
  s.lock_us = end_us;
  return undefined;
}

function print(s: PrinterState, w: Wires, code: number, bench: Bench): void {
  const { char, state } = printCode(code, { case: s.case });
  s.case = state.case ?? 'letters';
  w.read.n++;
  w.read.codes.push(code);
  if (w.read.codes.length > 16) w.read.codes.shift();
  if (char === '\r') s.sheet.column = 0;
  else if (char === '\n') feedLine(s.sheet);
  else if (char !== null && char >= ' ') strike(s.sheet, char);
  const isInked = s.sheet.left > 0 || char === '\r' || char === BELL;
  bench.note({ k: 'print', at: 'own', code, c: isInked ? (char ?? '') : '' });
}

// Blanks of a loop left open are told three times in the record, then the machine runs on untold.
const TOLD = 3;

function readLoop(s: PrinterState, w: Wires, bench: Bench): void {
  const turns = turning(s, w);
  if (!turns) {
    s.reader = { ...loopReader(bench.now_us), wake_us: s.reader.wake_us };
    return;
  }
  let open = s.reader.open;
  for (const c of readTo(s.reader, loopOf(s, w), bench.now_us, turns)) {
    open = c.code === 0 && !c.stopOk ? open + 1 : 0;
    if (open <= TOLD) print(s, w, shifted(c.code, Number(s.set['range'])), bench);
  }
}

function turnMotor(s: PrinterState, w: Wires, dt_s: number): void {
  s.speed = hasPower(s, w) ? Math.min(1, s.speed + dt_s / RUN_UP_s) : Math.max(0, s.speed - dt_s / RUN_DOWN_s);
}

/** The printer box. */
export const printer = {
  id: 'printer',
  name: 'Page printer',
  bay: 'messages',
  about: 'Keyboard and page printer for the five-unit alphabet at 50 bauds, with its own motor.',
  source:
    'Alphabet: ITU-T S.1. Start-stop speed, stop and margin: ITU-T S.3 (50 Bd, stop 1.5, from memory). Distortion terms: FS-1037C.',
  controls: printerControls,
  indicators: [
    { id: 'page', name: 'Page', face: 'page', read: (s: PrinterState): Json => s.sheet.lines.slice() },
    { id: 'column', name: 'Column', face: 'window', shows: 'number', read: (s: PrinterState) => s.sheet.column },
    {
      id: 'case',
      name: 'Case',
      face: 'window',
      shows: ['LTRS', 'FIGS'],
      read: (s: PrinterState) => (s.case === 'letters' ? 'LTRS' : 'FIGS'),
    },
    { id: 'lamp', name: 'Motor', face: 'lamp', read: (s: PrinterState) => s.mode === 'running' },
    {
      id: 'speed',
      name: 'Speed',
      face: 'window',
      shows: 'number',
      unit: 'Bd',
      read: (s: PrinterState, w: Wires) => Math.round(10 * baud(s, w)) / 10,
    },
    {
      id: 'paperLeft',
      name: 'Paper',
      face: 'window',
      shows: ['enough', 'low', 'out'],
      read: (s: PrinterState) => (s.sheet.left === 0 ? 'out' : s.sheet.left < 40 ? 'low' : 'enough'),
    },
  ],
  sampled: [
    {
      id: 'source',
      unit: '',
      step: 1,
      shows: { control: 'source' },
      read: (s: PrinterState) => String(s.set['source']),
    },
    { id: 'motor', unit: '', step: 1, shows: 'flag', read: (s: PrinterState) => s.mode === 'running' },
  ],
  machine,
  modes: { still: 'came to rest', runUp: 'began to run up' },
  inner: {
    speedError_pct: {
      default: 0,
      schema: number(-25, 25),
      about: 'How much too fast the governed motor turns, percent.',
    },
    paper: { default: FULL_lines, schema: whole(0, FULL_lines), about: 'Lines of paper left.' },
  },
  start: (found) => ({
    mode: '',
    set: atRest(printerControls, { controls: { range: 50, ...found.controls }, inner: found.inner }),
    keys: [],
    lock_us: 0,
    reader: loopReader(0),
    at: 'local',
    speed: 0,
    case: 'letters',
    sheet: newSheet(Number(found.inner['paper'] ?? FULL_lines)),
    speedError: Number(found.inner['speedError_pct'] ?? 0) / 100,
  }),
  turn(s, control, value, w, bench) {
    if (control === 'key') return press(s, String(value), w, bench);
    if (control === 'paper' && value === true) s.sheet.left = FULL_lines;
    if (control === 'tearOff' && value === true) tearOff(s.sheet);
    return undefined;
  },
  upset(s, thing, value, w, bench) {
    // What came up to now is read at the old speed and printed on the old paper.
    readLoop(s, w, bench);
    if (thing === 'paper') s.sheet.left = value as number;
    else s.speedError = Number(value) / 100;
  },
  settle(s, w, bench) {
    const { now_us } = bench;
    const isOnLine = s.set['source'] === 'line';
    w.source = isOnLine ? 'line' : 'local';
    if (s.at !== w.source) {
      // What the old loop carried up to now is read there; the new loop counts from now on.
      readLoop(s, w, bench);
      s.at = w.source;
    }
    w.contact.keys = isOnLine ? follow(w.contact.keys, now_us, s.keys) : follow(w.contact.keys, now_us, standing(true));
    w.local = follow(w.local, now_us, isOnLine ? standing(true) : inSeries([s.keys, w.tapeOut], now_us));
    const isFed = hasPower(s, w);
    if (isFed === (s.mode === 'still')) bench.fire(isFed ? 'RUN' : 'STOP');
    w.mains_W.printer = s.mode === 'runUp' ? START_W : s.mode === 'running' ? RUN_W : 0;
    keepWake(s.reader, loopOf(s, w), turning(s, w), bench, 'read');
  },
  woken(s, _event, w, bench) {
    s.reader.wake_us = null;
    readLoop(s, w, bench);
  },
  tick(s, w, dt_s, bench) {
    readLoop(s, w, bench);
    turnMotor(s, w, dt_s);
    for (const wave of [s.keys, w.local, w.contact.keys]) prune(wave, bench.now_us - KEPT_us);
  },
} satisfies Box<PrinterState>;
