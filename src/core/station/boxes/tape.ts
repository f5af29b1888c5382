/** Tape set: punch, reader and rack for five-unit tape. */
import * as v from 'valibot';
import { setup } from 'xstate';
import { prune } from '../../kernel/history.ts';
import { fault, list } from '../../record/shape.ts';
import type { Edge, Json } from '../../signals.ts';
import { charEdges } from '../../telegraphy/startstop.ts';
import { atRest, type Bench, type Box, type BoxState } from '../box.ts';
import { follow, standing } from '../follow.ts';
import { replan } from '../wave.ts';
import type { Wires } from '../wires.ts';
import { tapeControls } from './tape-controls.ts';
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

/** Text on a tape, empty for none. */
const writing = v.pipe(
  v.string(fault('wrong-type', 'a text')),
  v.maxLength(10_000, fault('too-long', 'at most 10000 characters')),
);

// At 50 Hz: 7.5 units of 20 ms, a character each 150 ms.
const RATED_Bd = 50;
const STOP_units = 1.5;
/** Supply at which its motor starts, and that at which it stalls, V (ours): what it takes must not stop it again. */
const STARTS_V = 180;
const STALLS_V = 150;
const KEPT_us = 4_000_000;
/** Taken from the mains-type supply by a running reader, and by the punch standing ready, W (ours). */
const READ_W = 15;
const PUNCH_W = 25;

/** State of the tape set. `free_us`: when the reader may step again; `seen`: how many of the printer's characters it has looked at. */
export type TapeState = BoxState & Tapes & { out: Edge[]; free_us: number; seen: number; isDue: boolean };

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

const turns = (w: Wires, before: boolean): boolean => w.mains_V > (before ? STALLS_V : STARTS_V);
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
  const isDriven = s.set['run'] === true && turns(w, s.mode !== 'stopped');
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
  controls: tapeControls,
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
    { id: 'count', name: 'Columns', face: 'window', shows: 'number', read: (s: TapeState) => s.head },
    {
      id: 'onReader',
      name: 'Columns on the reader',
      face: 'window',
      shows: 'number',
      read: (s: TapeState) => s.reading?.codes.length ?? 0,
    },
    { id: 'slack', name: 'Tape tight', face: 'lamp', read: (s: TapeState) => s.mode === 'slack' },
    { id: 'lamp', name: 'Reader runs', face: 'lamp', read: (s: TapeState) => s.mode === 'running' },
  ],
  sampled: [{ id: 'running', unit: '', step: 1, shows: 'flag', read: (s: TapeState) => s.mode === 'running' }],
  machine,
  modes: { slack: 'stopped by a tight tape', ended: 'at the end of the tape' },
  inner: {
    rack: {
      default: [],
      schema: list(writing, PEGS),
      fixed: true,
      about: 'Texts of the tapes that hang on the pegs, from peg 1; an empty text is an empty peg.',
    },
    reader: { default: '', schema: writing, fixed: true, about: 'Text of the tape that lies in the reader.' },
  },
  start(found) {
    const rack = found.inner['rack'];
    return {
      mode: '',
      set: atRest(tapeControls, found),
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
    w.punching = s.set['punch'] === true && turns(w, w.punching);
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
