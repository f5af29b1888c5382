/** The powered half of the station with everything a sender needs, and a stub for the boxes that key it. */
import { setup } from 'xstate';
import type { ControlValue, Edge, Json, SpokenWord } from '../../../../src/core/signals.ts';
import type { Box, BoxState, Found } from '../../../../src/core/station/box.ts';
import { aerial } from '../../../../src/core/station/boxes/aerial.ts';
import { feed } from '../../../../src/core/station/boxes/feed.ts';
import { inverter } from '../../../../src/core/station/boxes/inverter.ts';
import { sender } from '../../../../src/core/station/boxes/sender.ts';
import type { Wires } from '../../../../src/core/station/wires.ts';
import { Rig } from './rig.ts';

/** What hand, line box, keyer and printer would put on the wires. */
export type Hands = BoxState & {
  lever: Wires['lever'];
  talking: boolean;
  handKey: Edge[];
  keyed: Edge[];
  words: SpokenWord[];
  shift_Hz: number;
  markLow: boolean;
  mains_W: number;
};

const hands = {
  id: 'hands',
  name: 'Hands',
  bay: 'messages',
  about: '',
  source: '',
  controls: [],
  indicators: [],
  sampled: [],
  machine: setup({}).createMachine({ id: 'hands', initial: 'on', states: { on: {} } }),
  inner: {},
  start: (): Hands => ({
    mode: '',
    set: {},
    lever: 'STEADY',
    talking: false,
    handKey: [{ t_us: 0, mark: false }],
    keyed: [],
    words: [],
    shift_Hz: 400,
    markLow: true,
    mains_W: 0,
  }),
  settle(s: Hands, w: Wires) {
    const { lever, talking, handKey, keyed, words, shift_Hz, markLow } = s;
    Object.assign(w, { lever, talking, handKey, keyed, words, shift_Hz, markLow });
    w.mains_W.printer = w.mains_V > 180 ? s.mains_W : 0;
  },
} satisfies Box<Hands>;

/** Every breaker in, engine running. */
export const POWERED: Record<string, ControlValue> = {
  isolator: true,
  master: true,
  engine: 'run',
  vent: true,
  inverter: true,
  sender: true,
  receiver: true,
  terminal: true,
};
/** The whole whip with guard, earth and wires: the standard fit. */
export const FITTED: Record<string, ControlValue> = { sections: 4, guard: true, earth: true, counterpoise: 4 };
/** Hot and at send on a stored frequency of 3620 kHz, full power. */
export const READY: Record<string, ControlValue> = {
  readiness: 'send',
  setting: '1',
  power: 'full',
  filter: true,
  fan: true,
};
export const SETTINGS: Json = [{ kHz: 3620 }, { kHz: 5310 }, null, { kHz: 8000 }];

/** A station at work: the sender hot, armed (drive stages up) and keyed by `hands`. */
export class PowerRig extends Rig {
  constructor(
    controls: Record<string, ControlValue> = {},
    inner: Record<string, Json> = {},
    more: Record<string, Partial<Found>> = {},
  ) {
    super([feed, inverter, aerial, hands, sender], {
      feed: { controls: POWERED },
      aerial: { controls: FITTED },
      ...more,
      sender: { controls: { ...READY, ...controls }, inner: { hot: true, settings: SETTINGS, ...inner } },
    });
    this.run(3.1);
  }

  /** The keying boxes do something now. */
  hand(change: Partial<Hands>): this {
    Object.assign(this.station.state.boxes['hands'] as Hands, change);
    this.station.settle();
    return this;
  }

  /** A hand that sets a control and lets it go at once. */
  push(control: string): this {
    return this.do(control, true).do(control, false);
  }

  state<S extends BoxState>(box: string): S {
    return this.station.state.boxes[box] as S;
  }

  modes(box: string): string[] {
    return this.notes.flatMap((n) => (n.k === 'mode' && n.box === box ? [n.mode] : []));
  }

  unsafe(): string[] {
    return this.notes.flatMap((n) => (n.k === 'far' && n.what === 'unsafe' ? [String(n.detail['why'])] : []));
  }
}

export { hands };
