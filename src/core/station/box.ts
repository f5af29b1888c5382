/** What a box is. One kind, one file in boxes/, one line in boxes/list.ts. */
import type { GenericSchema } from 'valibot';
import type { AnyStateMachine } from 'xstate';
import type { Range } from '../record/range.ts';
import type { LineBody } from '../record/record.ts';
import type { Shows } from '../record/shows.ts';
import type { ControlValue, Ear, Json } from '../signals.ts';
import type { Wires } from './wires.ts';

export type { Range };

/** Where a box hangs. */
export type Bay = 'power' | 'radio' | 'messages' | 'desk' | 'outside';

/** The drawn face of a control; the panel has one file for each. */
export type ControlFace =
  | 'tiller'
  | 'limpet'
  | 'pins'
  | 'fine'
  | 'drums'
  | 'plunger'
  | 'push'
  | 'caged'
  | 'jack'
  | 'key'
  | 'microphone'
  | 'keyboard'
  | 'writing';

/** A control as data: all that panel, keyboard, screen reader and hand script need. */
export type Control = {
  /** Within its box; the full name is `box.id`. */
  id: string;
  name: string;
  face: ControlFace;
  range: Range;
  /** What it does inside, for the explain-card: one to three plain sentences. */
  inside: string;
  /** The usual caution where the real thing can hurt. */
  caution?: string;
};

/** The drawn face of an indicator. */
export type IndicatorFace =
  | 'sail'
  | 'lamp'
  | 'window'
  | 'reeds'
  | 'blades'
  | 'scale'
  | 'page'
  | 'tape'
  | 'fan'
  | 'caption';

/** Something the operator can read. `read` only looks. */
export type Indicator<S> = {
  id: string;
  name: string;
  face: IndicatorFace;
  unit?: string;
  /** Instead of one scale: that of the word at which a control of the box stands, each from nothing up. */
  scaleAt?: { control: string; scales: Readonly<Record<string, { max: number; unit: string }>> };
  min?: number;
  max?: number;
  /** What it can show, where its face does not say: a window or caption of free text says nothing here. */
  shows?: Shows;
  /** Where a meter's stop zone begins. */
  stop?: number;
  read(s: S, w: Wires, now_us: number): Json;
};

/** A quantity that goes into the record whenever it has moved by `step` (numbers, rounded to it) or changed (the rest). */
export type Sampled<S> = {
  id: string;
  unit: string;
  step: number;
  /** What it can be: a number unless told, or the setting of a control of the same box. */
  shows?: Shows | { control: string };
  read(s: S, w: Wires, now_us: number): Json;
};

/** What the station lends a box while it acts. */
export type Bench = {
  now_us: number;
  seed: number;
  /** UTC at the drill's instant 0, in whole seconds since midnight. */
  utc0_s: number;
  ear: Ear;
  /** Send an event to the box's own machine. */
  fire(event: string): void;
  /** Wake the box's `woken` with `event` after a delay. */
  after(delay_us: number, event: Json): void;
  /** Forget the box's own wake-ups that satisfy `which`. */
  forget(which: (event: Json) => boolean): void;
  /** Write a line into the record. */
  note(body: LineBody): void;
  /** End the drill (the desk does, when the watch is handed over). */
  end(why: string): void;
};

/** Every box state is plain data and says the mode of its machine and where its controls stand. */
export type BoxState = { mode: string; set: Record<string, ControlValue> };

/** As found: where the scenario wants controls and inner things other than at rest. */
export type Found = { controls: Record<string, ControlValue>; inner: Record<string, Json> };

/** An inner thing that a scenario may set as found, and, unless it is `fixed`, while the drill runs. */
export type InnerThing = { default: Json; about: string; schema: GenericSchema; fixed?: true };

/** A box. Methods may change `s` and the wires that the box owns, and nothing else. */
export interface Box<S extends BoxState = BoxState> {
  id: string;
  name: string;
  bay: Bay;
  /** What it is, one or two sentences. */
  about: string;
  /** Where its physics comes from. */
  source: string;
  controls: readonly Control[];
  indicators: readonly Indicator<S>[];
  sampled: readonly Sampled<S>[];
  /** Flat, modes and delays only; no context, guards or actions. */
  machine: AnyStateMachine;
  /** What its modes are in words, after its name, where the id made plain will not do: "switched off hot". */
  modes?: Readonly<Record<string, string>>;
  /** Inner things by name. */
  inner: Readonly<Record<string, InnerThing>>;
  /** The state as found; `set` filled with the controls at rest, then as found. */
  start(found: Found, seed: number): S;
  /** The operator set a control (already checked against its range and written to `s.set`). Return words to refuse: the setting is then put back. */
  turn?(s: S, control: string, value: ControlValue, w: Wires, bench: Bench): string | undefined;
  /** Bring the wires that the box owns up to now. Called after every event, twice; must be idempotent. */
  settle?(s: S, w: Wires, bench: Bench): void;
  /** Time passed: integrate. Called at whole multiples of TICK_US only. */
  tick?(s: S, w: Wires, dt_s: number, bench: Bench): void;
  /** The scenario changes an inner thing while the drill runs (a fault comes, a filter clogs). `thing` is a name in `inner` that is not `fixed`, `value` fits its schema. */
  upset?(s: S, thing: string, value: Json, w: Wires, bench: Bench): void;
  /** A wake-up that the box asked for with `after`. */
  woken?(s: S, event: Json, w: Wires, bench: Bench): void;
  /** The box's machine went into `s.mode`. */
  entered?(s: S, w: Wires, bench: Bench): void;
}

/** Boxes integrate at whole multiples of this. */
export const TICK_US = 250_000;

const BY_FACE: Readonly<Record<IndicatorFace, Shows>> = {
  sail: 'number',
  lamp: 'flag',
  window: 'text',
  reeds: 'number',
  blades: 'list',
  scale: 'number',
  page: 'list',
  tape: 'list',
  fan: 'number',
  caption: 'text',
};

/** What an indicator can show. */
export const shownBy = ({ shows, face }: Pick<Indicator<never>, 'shows' | 'face'>): Shows => shows ?? BY_FACE[face];

/** What a sampled quantity of a box can be. */
export function sampledAs(
  { controls }: Pick<Box, 'controls'>,
  { shows = 'number' }: Pick<Sampled<never>, 'shows'>,
): Shows {
  if (typeof shows === 'string' || !('control' in shows)) return shows;
  const range = controls.find((c) => c.id === shows.control)?.range;
  return range?.kind === 'words'
    ? range.words
    : range?.kind === 'number' || range?.kind === 'text'
      ? range.kind
      : 'flag';
}

/** Where a control stands before anybody touched it: the first word, out, the least number, nothing written. */
export function rest(c: Control): ControlValue {
  switch (c.range.kind) {
    case 'words':
      return c.range.words[0] ?? '';
    case 'number':
      return c.range.min;
    case 'text':
      return '';
    default:
      return false;
  }
}

/** Controls at rest, overlaid with those as found. */
export function atRest(controls: readonly Control[], found: Found): Record<string, ControlValue> {
  return { ...Object.fromEntries(controls.map((c) => [c.id, rest(c)])), ...found.controls };
}

/** A number set on a control lands on the nearest whole step. */
export function onStep(c: Control, value: ControlValue): ControlValue {
  if (c.range.kind !== 'number' || typeof value !== 'number') return value;
  const { min, step } = c.range;
  // Dividing by the whole number of steps a unit keeps 0.1-steps exact to the last digit printed.
  const perUnit = Math.round(1 / step);
  const n = Math.round((value - min) / step);
  return perUnit >= 1 && Math.abs(perUnit * step - 1) < 1e-9
    ? (Math.round(min * perUnit) + n) / perUnit
    : min + n * step;
}
