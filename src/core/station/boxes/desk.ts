/** The desk: clock, order, log, recognition cards, and the handing over of the watch. */
import { setup } from 'xstate';
import { utcText } from '../../quantity/time-text.ts';
import { list, text } from '../../record/shape.ts';
import type { Json } from '../../signals.ts';
import { atRest, type Bench, type Box, type BoxState, type Control } from '../box.ts';

/** State of the desk. */
export type DeskState = BoxState & {
  utc0_s: number;
  lines: string[];
  isSigned: boolean;
  order: string;
  isRead: boolean;
};

const controls: readonly Control[] = [
  {
    id: 'log',
    name: 'Log entry',
    face: 'writing',
    range: { kind: 'text', max: 120, allowed: 'any' },
    inside:
      'Writes one line into the station log with the time in UTC. Nothing is erased: a wrong line is put right by a further line.',
  },
  {
    id: 'order',
    name: 'Read the order',
    face: 'push',
    range: { kind: 'press' },
    inside:
      'Opens the order of the watch: the task. Its conditions and standards, with the times, were given before the drill began.',
  },
  {
    id: 'cards',
    name: 'Recognition cards',
    face: 'tiller',
    range: { kind: 'switch', words: ['out', 'locked'] },
    inside: 'The recognition cards lie on the desk while in use and are locked away after it.',
  },
  {
    id: 'sign',
    name: 'Sign the log',
    face: 'push',
    range: { kind: 'press' },
    inside: 'The operator answers for the log with a signature. A line written later wants a new one.',
  },
  {
    id: 'handover',
    name: 'Hand over',
    face: 'push',
    range: { kind: 'press' },
    inside: 'Hands the watch over and ends the drill.',
  },
];

const machine = setup({ types: {} as { events: { type: 'HAND_OVER' } } }).createMachine({
  id: 'desk',
  initial: 'onWatch',
  states: { onWatch: { on: { HAND_OVER: 'handedOver' } }, handedOver: {} },
});

const NO_ORDER = 'No order for this watch.';

function write(s: DeskState, text: string, bench: Bench): string | undefined {
  const line = text.trim();
  if (line === '') return 'nothing written';
  const utc = utcText(bench.utc0_s, bench.now_us);
  s.lines.push(`${utc}  ${line}`);
  s.isSigned = false;
  bench.note({ k: 'log', utc, text: line });
  return undefined;
}

function sign(s: DeskState): string | undefined {
  if (s.lines.length === 0) return 'the log is empty';
  s.isSigned = true;
  return undefined;
}

/** The desk box. */
export const desk = {
  id: 'desk',
  name: 'Desk',
  bay: 'desk',
  about: 'Clock in UTC, the order, the station log and the recognition cards.',
  source:
    'Log kept in UTC, in order, without erasing, signed by the operator: 47 CFR 80.409 states such rules for ship stations.',
  controls,
  indicators: [
    {
      id: 'utc',
      name: 'UTC',
      face: 'window',
      read: (s: DeskState, _w: unknown, now_us: number) => utcText(s.utc0_s, now_us),
    },
    { id: 'logLines', name: 'Station log', face: 'page', read: (s: DeskState): Json => s.lines.slice() },
    { id: 'signed', name: 'Log signed', face: 'lamp', read: (s: DeskState) => s.isSigned },
    {
      id: 'cardsState',
      name: 'Recognition cards',
      face: 'window',
      shows: ['out', 'locked'],
      read: (s: DeskState) => (s.set['cards'] === true ? 'locked' : 'out'),
    },
    { id: 'orderText', name: 'The order', face: 'window', read: (s: DeskState) => (s.isRead ? s.order : 'not read') },
  ],
  sampled: [
    { id: 'signed', unit: '', step: 1, shows: 'flag', read: (s: DeskState) => s.isSigned },
    {
      id: 'cards',
      unit: '',
      step: 1,
      shows: ['out', 'locked'],
      read: (s: DeskState) => (s.set['cards'] === true ? 'locked' : 'out'),
    },
  ],
  machine,
  inner: {
    order: { default: NO_ORDER, schema: text(2000), fixed: true, about: 'Text of the order, shown once it is read.' },
    log: { default: [], schema: list(text(120), 200), fixed: true, about: 'Lines left in the log by the last watch.' },
  },
  start(found) {
    const left = found.inner['log'];
    return {
      mode: '',
      set: atRest(controls, found),
      utc0_s: 0,
      lines: Array.isArray(left) ? left.map(String) : [],
      isSigned: false,
      order: String(found.inner['order'] ?? NO_ORDER),
      isRead: false,
    };
  },
  turn(s, control, value, _w, bench) {
    if (control === 'log') return write(s, String(value), bench);
    if (value !== true) return undefined;
    if (control === 'order') s.isRead = true;
    if (control === 'sign') return sign(s);
    if (control === 'handover') {
      bench.fire('HAND_OVER');
      bench.end('handed over');
    }
    return undefined;
  },
  settle(s, _w, bench) {
    s.utc0_s = bench.utc0_s;
  },
} satisfies Box<DeskState>;
