/** Cover adaptor: adds the characters of a key tape to those of the traffic (modulo-2 addition of five-unit characters). */
import { setup } from 'xstate';
import { die } from '../../kernel/dice.ts';
import { prune } from '../../kernel/history.ts';
import type { Edge } from '../../signals.ts';
import { charEdges } from '../../telegraphy/startstop.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';
import { follow, standing } from '../follow.ts';
import { keepWake, type LoopReader, loopReader, readTo } from '../loop-reader.ts';
import { replan } from '../wave.ts';
import type { Wires } from '../wires.ts';

/** Characters in one group of the key tape, as its printed group numbers count. */
export const GROUP = 5;
const TURNING = { baud: 50, range: 50 };
const STOP_units = 1.5;
// A following character may begin after one unit of stop, so that a sender a little fast never piles up.
const LEAST_units = 7;
const UNIT_us = 20_000;
const KEPT_us = 4_000_000;

/** State of the adaptor. `step` is the place on the key tape; `out` the regenerated line; `free_us` when it may send again. */
export type CoverState = BoxState & {
  step: number;
  reader: LoopReader;
  out: Edge[];
  free_us: number;
  seed: number;
  lever: Wires['lever'];
};

/** Character 0..31 of key tape `tapeNo` at place `step`; stations of one drill (one `seed`) hold the same tapes. */
export const keyCharacter = (seed: number, tapeNo: string, step: number): number =>
  die(seed, `key tape ${tapeNo}`, step, 32);

const controls: readonly Control[] = [
  {
    id: 'cover',
    name: 'Plain or cover',
    face: 'tiller',
    range: { kind: 'switch', words: ['plain', 'cover'] },
    inside:
      'In cover every character is read, added unit by unit to the next character of the key tape, and sent anew. The same addition at the other end gives the text back. For practice only: no claim to secrecy.',
  },
  {
    id: 'tapeNo',
    name: 'Key tape',
    face: 'limpet',
    range: { kind: 'words', words: ['none', '1', '2', '3'] },
    inside: 'Which key tape is in. Both stations need the same one. Without one the adaptor passes everything plain.',
  },
  {
    id: 'group',
    name: 'Start group',
    face: 'limpet',
    range: { kind: 'number', min: 0, max: 99, step: 1, unit: '' },
    inside: 'The group, of five key characters each, at which the key tape shall begin.',
  },
  {
    id: 'set',
    name: 'Set key tape',
    face: 'push',
    range: { kind: 'press' },
    inside:
      'Draws the key tape to the start group. Both stations set to the same group before covered traffic, and again when step is lost.',
  },
];

const machine = setup({ types: {} as { events: { type: 'COVER' } | { type: 'PLAIN' } } }).createMachine({
  id: 'cover',
  initial: 'plain',
  states: { plain: { on: { COVER: 'covering' } }, covering: { on: { PLAIN: 'plain' } } },
});

const tapeNo = (s: CoverState): string => String(s.set['tapeNo']);
const isCovering = (s: CoverState): boolean => s.set['cover'] === true && tapeNo(s) !== 'none';

const input = (w: Wires): Edge[] => (w.lever === 'IN' ? w.decided : w.loop);

function regenerate(s: CoverState, code: number, now_us: number): void {
  const sum = code ^ keyCharacter(s.seed, tapeNo(s), s.step);
  s.step++;
  const t0 = Math.max(now_us, s.free_us);
  const { edges } = charEdges(sum, t0, TURNING.baud, STOP_units);
  // The character being sent goes on; the new one follows it.
  const kept = s.out.filter((e) => e.t_us < t0);
  s.out = replan(kept, t0, edges);
  s.free_us = t0 + LEAST_units * UNIT_us;
}

function copy(s: CoverState, w: Wires, bench: Bench): void {
  if (!isCovering(s) || w.lever === 'STEADY') {
    s.reader = { ...loopReader(bench.now_us), wake_us: s.reader.wake_us };
    return;
  }
  // A line held at space is no character: the adaptor waits for mark.
  for (const { code, stopOk } of readTo(s.reader, input(w), bench.now_us, TURNING))
    if (stopOk || code !== 0) regenerate(s, code, bench.now_us);
}

/** The cover adaptor. */
export const cover = {
  id: 'cover',
  name: 'Cover adaptor',
  bay: 'messages',
  about: 'Five-unit addition of a key tape to the traffic, between loop and keyer. Practice only: no claim to secrecy.',
  source:
    'Addition of two five-unit tapes: G. S. Vernam, Cipher Printing Telegraph Systems, Journal of the AIEE, 1926; from memory.',
  controls,
  indicators: [
    { id: 'step', name: 'Place on key tape', face: 'window', shows: 'number', read: (s: CoverState) => s.step },
    { id: 'lamp', name: 'Covering', face: 'lamp', read: (s: CoverState) => s.mode === 'covering' },
  ],
  sampled: [{ id: 'on', unit: '', step: 1, shows: 'flag', read: (s: CoverState) => s.mode === 'covering' }],
  machine,
  inner: {},
  start: (found, seed) => ({
    mode: '',
    set: atRest(controls, found),
    step: 0,
    reader: loopReader(0),
    out: [],
    free_us: 0,
    seed,
    lever: 'STEADY',
  }),
  turn(s, control, value) {
    if (control !== 'set' || value !== true) return undefined;
    if (tapeNo(s) === 'none') return 'no key tape in';
    s.step = Number(s.set['group']) * GROUP;
    return undefined;
  },
  settle(s, w, bench) {
    const { now_us } = bench;
    if (s.lever !== w.lever) {
      // Another line is read from now on: what was begun on the old one is lost.
      s.lever = w.lever;
      s.reader = { ...loopReader(now_us), wake_us: s.reader.wake_us };
    }
    const isOn = isCovering(s);
    if (isOn !== (s.mode === 'covering')) bench.fire(isOn ? 'COVER' : 'PLAIN');
    const through = isOn ? s.out : input(w);
    const isOut = w.lever === 'OUT';
    const isIn = w.lever === 'IN';
    w.sent = follow(w.sent, now_us, isOut ? through : standing(true));
    w.contact.unit = follow(w.contact.unit, now_us, isIn ? through : standing(true));
    keepWake(s.reader, input(w), isOn && (isOut || isIn) ? TURNING : null, bench, 'read');
  },
  woken(s, _event, w, bench) {
    s.reader.wake_us = null;
    copy(s, w, bench);
  },
  tick(s, w, _dt, bench) {
    copy(s, w, bench);
    for (const wave of [s.out, w.sent, w.contact.unit]) prune(wave, bench.now_us - KEPT_us);
  },
} satisfies Box<CoverState>;
