/** Tape set: punch, reader and rack for five-unit tape. */
import { setup } from 'xstate';
import type { Edge, Json } from '../../signals.ts';
import { charEdges } from '../../telegraphy/startstop.ts';
import { atRest, type Bench, type Box, type BoxState, type Control, type ControlFace } from '../box.ts';
import { follow, standing } from '../follow.ts';
import { prune, replan } from '../wave.ts';
import type { Wires } from '../wires.ts';
import {
  feedOut,
  keepOn,
  loadFrom,
  newTapes,
  PEGS,
  punchColumn,
  readColumn,
  rewind,
  stepOn,
  type Tapes,
  tearAtPunch,
} from './tapes.ts';

// At 50 Hz: 7.5 units of 20 ms, a character each 150 ms.
const RATED_Bd = 50;
const STOP_units = 1.5;
const LEAST_V = 180;
const KEPT_us = 4_000_000;
/** Taken from the mains-type supply by a running reader, and by the punch standing ready, W (ours). */
const READ_W = 15;
const PUNCH_W = 25;

/** State of the tape set. `free_us`: when the reader may step again; `seen`: how many of the printer's characters it has looked at. */
export type TapeState = BoxState & Tapes & { out: Edge[]; free_us: number; seen: number; isDue: boolean };

const control = (id: string, name: string, face: ControlFace, range: Control['range'], inside: string): Control => ({
  id,
  name,
  face,
  range,
  inside,
});
const PRESS: Control['range'] = { kind: 'press' };

const controls: readonly Control[] = [
  control(
    'punch',
    'Punch',
    'plunger',
    { kind: 'switch', words: ['off', 'on'] },
    'While on, every character that runs through the printer is punched into tape as well.',
  ),
  control(
    'run',
    'Reader',
    'tiller',
    { kind: 'switch', words: ['stop', 'run'] },
    'Feels the holes of the tape column by column and sends them, 400 characters a minute. It stops at the end of the tape, and waits when it has caught up with the punch.',
  ),
  control(
    'back',
    'Back',
    'push',
    PRESS,
    'Draws the tape back one column under the punch. Holes cannot be filled, but a column with all five prints nothing: punch LTRS over a wrong character.',
  ),
  control('feed', 'Feed out', 'push', PRESS, 'Punches ten columns of all holes as a leader. They print nothing.'),
  control(
    'tear',
    'Tear off',
    'push',
    PRESS,
    'Tears the tape off at the punch and lays it into the reader. A tape that lay there goes to a free peg.',
  ),
  control(
    'keep',
    'Keep',
    'push',
    PRESS,
    'Hangs the tape from the reader on the chosen peg, to be sent again to another station.',
  ),
  control(
    'rack',
    'Peg',
    'limpet',
    { kind: 'words', words: Array.from({ length: PEGS }, (_, i) => String(i + 1)) },
    'Chooses one of six pegs for Keep and Load.',
  ),
  control(
    'load',
    'Load',
    'push',
    PRESS,
    'Lays the tape of the chosen peg into the reader at its start. A tape in the reader takes its place on the peg.',
  ),
  control('step', 'Step', 'push', PRESS, 'Moves the reader one column on without sending.'),
  control('rewind', 'Rewind', 'push', PRESS, 'Draws the tape in the reader back to its start.'),
];

const machine = setup({
  types: {} as { events: { type: 'RUN' } | { type: 'STOP' } | { type: 'END' } | { type: 'SLACK' } },
}).createMachine({
  id: 'tape',
  initial: 'stopped',
  states: {
    stopped: { on: { RUN: 'running' } },
    running: { on: { STOP: 'stopped', END: 'ended', SLACK: 'slack' } },
    slack: { on: { STOP: 'stopped', RUN: 'running' } },
    ended: { on: { STOP: 'stopped' } },
  },
});

const hasMains = (w: Wires): boolean => w.mains_V > LEAST_V;
const peg = (s: TapeState): number => Number(s.set['rack']) - 1;

const PUSHES: Readonly<Record<string, (s: TapeState) => string | undefined>> = {
  back(s) {
    if (s.set['punch'] !== true) return 'the punch is off';
    if (s.head === 0) return 'no tape punched';
    s.head--;
    return undefined;
  },
  feed: feedOut,
  tear: tearAtPunch,
  keep: (s) => keepOn(s, peg(s)),
  load: (s) => loadFrom(s, peg(s)),
  step: stepOn,
  rewind,
};

function sendColumn(s: TapeState, w: Wires, bench: Bench): void {
  if (s.mode !== 'running') return;
  const code = readColumn(s);
  if (code === null) {
    bench.fire(s.reading ? 'END' : 'SLACK');
    return;
  }
  const { edges, end_us } = charEdges(code, bench.now_us, (RATED_Bd * (w.mains_Hz || 50)) / 50, STOP_units);
  s.out = replan(s.out, bench.now_us, edges);
  s.free_us = end_us;
}

function punchNew(s: TapeState, w: Wires): void {
  const fresh = Math.min(w.read.n - s.seen, w.read.codes.length);
  s.seen = w.read.n;
  if (!w.punching || fresh <= 0) return;
  for (const code of w.read.codes.slice(-fresh)) punchColumn(s, code);
}

function moveReader(s: TapeState, w: Wires, bench: Bench): void {
  const isDriven = s.set['run'] === true && hasMains(w);
  if (!isDriven && s.mode !== 'stopped') bench.fire('STOP');
  if (isDriven && s.mode === 'stopped') bench.fire('RUN');
  // The tape has drooped again behind the punch: the slack arm lets the reader go on.
  if (s.mode === 'slack' && (s.reading || s.slackAt < s.head)) bench.fire('RUN');
  if (s.mode !== 'running' || s.isDue) return;
  bench.after(Math.max(0, s.free_us - bench.now_us), 'column');
  s.isDue = true;
}

/** The tape set. */
export const tape = {
  id: 'tape',
  name: 'Tape set',
  bay: 'messages',
  about: 'Punch, reader and rack for paper tape with five holes across: hole is mark.',
  source:
    'Hole is mark: ITU-T V.1. All five holes are LTRS (ITU-T S.1), so a wrong column can be punched out. Pace: 7.5 units at 50 Bd, 150 ms.',
  controls,
  indicators: [
    { id: 'punched', name: 'Tape in the punch', face: 'tape', read: (s: TapeState): Json => s.punched.slice() },
    {
      id: 'reading',
      name: 'Tape in the reader',
      face: 'tape',
      read: (s: TapeState): Json =>
        s.reading ? { codes: s.reading.codes.slice(), at: s.reading.at } : { codes: [], at: s.slackAt },
    },
    {
      id: 'rackList',
      name: 'Rack',
      face: 'window',
      read: (s: TapeState) => s.rack.map((t, i) => `${i + 1}: ${t ? `${t.length} columns` : 'empty'}`).join(', '),
    },
    { id: 'count', name: 'Columns', face: 'window', read: (s: TapeState) => s.head },
    {
      id: 'onReader',
      name: 'Columns on the reader',
      face: 'window',
      read: (s: TapeState) => s.reading?.codes.length ?? 0,
    },
    { id: 'slack', name: 'Tape tight', face: 'lamp', read: (s: TapeState) => s.mode === 'slack' },
    { id: 'lamp', name: 'Reader runs', face: 'lamp', read: (s: TapeState) => s.mode === 'running' },
  ],
  sampled: [{ id: 'running', unit: '', step: 1, read: (s: TapeState) => s.mode === 'running' }],
  machine,
  inner: {
    rack: {
      default: [],
      about: 'Texts of the tapes that hang on the pegs, from peg 1; an empty text is an empty peg.',
    },
    reader: { default: '', about: 'Text of the tape that lies in the reader.' },
  },
  start(found) {
    const rack = found.inner['rack'];
    return {
      mode: '',
      set: atRest(controls, found),
      ...newTapes(Array.isArray(rack) ? rack.map(String) : [], String(found.inner['reader'] ?? '')),
      out: [],
      free_us: 0,
      seen: 0,
      isDue: false,
    };
  },
  turn(s, id, value, _w, bench) {
    // Moving the lever again, even to where it stands, lifts the stop at the end of a tape.
    if (id === 'run') bench.fire('STOP');
    return value === true ? PUSHES[id]?.(s) : undefined;
  },
  settle(s, w, bench) {
    const { now_us } = bench;
    w.punching = s.set['punch'] === true && hasMains(w);
    punchNew(s, w);
    moveReader(s, w, bench);
    w.tapeOut = s.out;
    w.contact.tape = follow(w.contact.tape, now_us, w.source === 'line' ? s.out : standing(true));
    w.mains_W.tape = (s.mode === 'running' ? READ_W : 0) + (w.punching ? PUNCH_W : 0);
  },
  woken(s, _event, w, bench) {
    s.isDue = false;
    sendColumn(s, w, bench);
  },
  tick(s, w, _dt, bench) {
    prune(s.out, bench.now_us - KEPT_us);
    prune(w.contact.tape, bench.now_us - KEPT_us);
  },
} satisfies Box<TapeState>;
