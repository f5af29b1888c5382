/** A shore post's parameters, state and modes. */
import * as v from 'valibot';
import { setup } from 'xstate';
import { uniform } from '../../kernel/dice.ts';
import { move } from '../../kernel/machine.ts';
import type { Copied } from '../../procedure/copying.ts';
import type { Challenge } from '../../procedure/recognition.ts';
import { callSign, flag, list, map, number, oneOf, text } from '../../record/shape.ts';
import type { Json } from '../../signals.ts';
import type { Copier } from '../copier.ts';
import type { FarBench } from '../correspondent.ts';
import type { Sender } from '../cover.ts';
import type { Hearing } from '../hearing.ts';

/** How it answers when it is challenged; a stranger answers wrong. */
const answers = oneOf(['right', 'wrong-first', 'wrong']);

/** What a scenario may set. */
export const schema = map({
  /** Its channel. */
  kHz: number(1800, 17_000),
  /** Whom it serves; every caller if left out. */
  serves: v.optional(list(callSign, 40)),
  /** Messages it may be sent, by id. */
  expects: v.optional(list(text(10), 40), []),
  shift_Hz: v.optional(v.picklist([200, 400, 850]), 400),
  /** Output before the whip, W. */
  power_W: v.optional(number(1, 500), 120),
  /** Does it prove a caller before it serves? */
  challenges: v.optional(flag, true),
  /** A reply must begin within so many seconds of the challenge's end. */
  limit_s: v.optional(number(3, 120), 20),
  answers: v.optional(answers, 'right'),
  /** In contact, may call signs be left out (ACP 125: abbreviated procedure, from memory)? */
  abbreviated: v.optional(flag, true),
});
/** Its parameters. */
export type Params = v.InferOutput<typeof schema>;

/** What a scenario may tell it while the drill runs. */
export const told = map({
  answers: v.optional(answers),
  expects: v.optional(list(text(10), 40)),
});

/** What happens once the last word or letter of something is out. */
export type Then =
  | { challenged: Challenge }
  | { answered: { row: string; column: string; right: boolean } }
  | { offered: { precedence: string; count: number } }
  | { asked: string }
  | { receipted: string; again: boolean }
  /** A reply is still owed. */
  | { waiting: true }
  | null;

/** A post at one instant. */
export type PostState = Sender & {
  mode: string;
  with: Params;
  /** Its receiver stands this far off the channel, Hz. */
  off_Hz: number;
  radiated_W: number;
  hearing: Hearing;
  /** With whom it is in contact ('' for nobody), and whose voice that is. */
  partner: string;
  voice: string;
  challenge: Challenge | null;
  challenged: number;
  answered: number;
  deadline_us: number | null;
  copier: Copier | null;
  /** Printed in this transmission; the message that it is, and what is there of it. */
  printed: string;
  message: string;
  copied: Copied | null;
  /** What it said last. */
  said: { words: string; after: Then } | null;
  /** Throws of its dice so far. */
  turns: number;
};

/** Modes and what leads from one to another. Delays are the post's own: some of them depend on parameters. */
export const machine = setup({
  types: {
    events: {} as { type: 'CALLED' | 'PROVED' | 'OFFERED' | 'COPIED' | 'CARRIER' | 'REFUSED' | 'CLOSED' },
  },
}).createMachine({
  id: 'post',
  initial: 'watching',
  states: {
    watching: { on: { CALLED: 'challenging', PROVED: 'proved' } },
    challenging: { on: { PROVED: 'proved', REFUSED: 'refusing', CLOSED: 'watching' } },
    proved: { on: { OFFERED: 'ready', CLOSED: 'watching' } },
    ready: { on: { CARRIER: 'copying', CLOSED: 'watching' } },
    copying: { on: { COPIED: 'receipted', OFFERED: 'ready', CLOSED: 'watching' } },
    receipted: { on: { CARRIER: 'copying', OFFERED: 'ready', CLOSED: 'watching' } },
    refusing: { on: { CLOSED: 'watching' } },
  },
});

/** Tell the machine. */
export function fire(s: PostState, event: string): void {
  s.mode = move(machine, s.mode, event).mode;
}

/** Write down what it did. */
export function note(s: PostState, bench: FarBench, what: string, detail: { [key: string]: Json } = {}): void {
  bench.note({ k: 'far', station: s.call, what, detail });
}

/** It answers within 2 to 4 seconds (common practice). */
const DELAY_MIN_US = 2_000_000;
const DELAY_SPAN_US = 2_000_000;

/** How long it takes to answer this time. */
export const delay_us = (s: PostState, bench: FarBench): number =>
  DELAY_MIN_US + Math.round(DELAY_SPAN_US * uniform(bench.seed, `delay ${s.call}`, s.turns++));

/** Where its receiver is tuned. */
export const tuned_Hz = (s: PostState): number => s.with.kHz * 1000 + s.off_Hz;

/** The contact is over. */
export function close(s: PostState, bench: FarBench): void {
  note(s, bench, 'closed', { by: s.partner });
  fire(s, 'CLOSED');
  Object.assign(s, { partner: '', voice: '', challenge: null, challenged: 0, deadline_us: null, said: null });
  Object.assign(s, { copier: null, printed: '', message: '', copied: null });
  bench.forget(() => true);
}
