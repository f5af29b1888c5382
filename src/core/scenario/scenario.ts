/**
 * A scenario as the rest of the house sees it. The text comes in two stages: `readScenario` checks everything and keeps
 * what the seed decides open; `castScenario` lets the seed decide.
 */

import type { GenericSchema, ObjectEntries } from 'valibot';
import type { Pattern, Test } from '../record/pattern.ts';
import type { Located } from '../record/places.ts';
import type { Range } from '../record/range.ts';
import type { Shows } from '../record/shows.ts';
import type { ControlValue, Json } from '../signals.ts';

/** A complete drill with everything decided. */
export type Scenario = {
  /** Small letters, digits and hyphens; also the file's name. */
  id: string;
  title: string;
  about: string;
  /** How long it takes, minutes. */
  minutes: { novice: number; expert: number };
  order: Order;
  world: World;
  /** What the seed decided, by name. */
  drawn: Record<string, Json>;
  own: Own;
  papers: Papers;
  stations: StationSpec[];
  happenings: Happening[];
  measures: MeasureSpec[];
  /** Score needed for GO, 0..100. */
  pass: number;
  /** The drill ends by itself after this many minutes. */
  time_limit_min: number;
  /** The right way, in order. */
  steps: Step[];
};

/** The order that the operator reads. */
export type Order = { task: string; conditions: string[]; standards: string[] };

/** Where and when. */
export type World = {
  /** `YYYY-MM-DD`. */
  date: string;
  /** UTC at the drill's instant 0, `HH:MM:SS`. */
  utc: string;
  /** Latitude north and longitude east, degrees. */
  at: [number, number];
  /** Twelve-month smoothed sunspot number, 0..250. */
  R12: number;
  /** Man-made noise by ITU-R P.372. */
  noise: 'city' | 'residential' | 'rural' | 'quiet-rural';
};

/** The own station as found: `box.control` and `box.thing` to values; whatever is not named is at rest. */
export type Own = { call: string; controls: Record<string, ControlValue>; inner: Record<string, Json> };

/** What lies on the desk. */
export type Papers = { frequencies: FrequencyRow[]; calls: CallRow[]; card: Card | null; messages: Message[] };
/** A line of the frequency chart; `from` and `to` are `HH:MM` UTC, `setting` the sender's stored setting 1..12. */
export type FrequencyRow = { name: string; kHz: number; setting?: number; from: string; to: string; use: string };
/** A line of the call-sign card. */
export type CallRow = { call: string; place: string; who: string };
/** A recognition card: `cells[row][column]` are two letters, thrown by the seed. `valid` is `YYYY-MM-DD`. */
export type Card = { name: string; rows: string; columns: string; valid: string; cells: string[][] };
/** A message as it must be sent: lines of at most 69 ITA2 characters. */
export type Message = { id: string; to: string; precedence: Precedence; lines: string[] };
/** Order of handling, most urgent first. */
export type Precedence = 'FLASH' | 'IMMEDIATE' | 'PRIORITY' | 'ROUTINE';

/** Stretches of ground from the own station to the distant one. */
export type PathPiece = { ground: string; km: number };
/** A distant station: its kind of correspondent and that kind's own parameters. */
export type StationSpec = { call: string; kind: string; place: string; path: PathPiece[]; with: Json };

/** Something that happens at a time, or a while after a record line. */
export type Happening = { id: string; do: Deed } & ({ at_s: number } | { when: Pattern; after_s: number });
/** What happens: a distant station is told something, or inner things of the own boxes change. */
export type Deed = { station: string; tell: Json } | { inner: Record<string, Json> };

/** A measure: what all have, and its kind's own parameters beside them. */
export type MeasureSpec = {
  id: string;
  title: string;
  kind: string;
  /** Points, from 0. */
  weight: number;
  critical: boolean;
  /** The standard as printed on the result sheet. */
  standard: string;
  /** Why it matters, for the debrief. */
  why: string;
  /** What to do next time. */
  next: string;
  [own: string]: Json;
};

/** One step of the right way. */
export type Step = {
  id: string;
  phase: string;
  title: string;
  why: string;
  tip?: string;
  /** The message whose form the step is worked from: the panel leaves the forms out for it, and puts them away for others. */
  form?: string;
  do: Action[];
  /** When the step counts as done; without it, when its actions are. */
  done?: Condition;
};

/**
 * One thing to do. Strings may hold `{name}` for a remembered word and `{own}` for the own call sign. Names in `lookup`,
 * `choose` and `check` are those of remembered words.
 */
export type Action =
  | { set: Record<string, ControlValue> }
  /** Touch and let go, one after the other. */
  | { press: string[] }
  /** Hold a press control down while doing other things. */
  | { hold: { control: string; do: Action[] } }
  /** Turn a number control, in whole steps of `by`, until an indicator reads `is`: correct by what is left over. */
  | { turn: { control: string; see: string; is: number; by: number } }
  /** Seconds. */
  | { wait: number }
  /** Wait for a condition, at most `within` seconds. */
  | { until: Condition; within: number }
  /** Hold talk, say the words, let go. */
  | { say: string }
  /** Listen for words: `*` stands for any words, `<name>` remembers one word. */
  | { hear: string; within: number }
  /** Read the card cell of the remembered row and column; remember its letters, spelled, as `as`. */
  | { lookup: { row: string; column: string; as: string } }
  /** Think of an own challenge, another than the heard one; remember its row and column under these names. */
  | { choose: { row: string; column: string } }
  /** Compare the letters remembered under the names `heard`, in order, with the card; remember true or false as `as`. */
  | { check: { row: string; column: string; heard: string[]; as: string } }
  /** Type on the printer's keyboard. */
  | { type: string }
  /** Type a message to tape. */
  | { punch: string }
  | { log: string }
  /** Sweep a control and rest where the indicator is least or most. */
  | { tune: Tune }
  | { when: Condition; do: Action[]; else: Action[] }
  /** At most `again` times, until the condition holds. */
  | { again: number; until: Condition; do: Action[] };

/**
 * A sweep: from, to and step in the control's unit (relative to where it stands if `around`), a setting every `every_s`
 * seconds; one of `least` and `most` is given.
 */
export type Tune = {
  control: string;
  from: number;
  to: number;
  by: number;
  around?: boolean;
  every_s: number;
  least?: string;
  most?: string;
};

/** Something an operator can know. */
export type Condition =
  | ({ see: string } & Test)
  | ({ standing: string } & Test)
  /** The operator set this control so since the step began, and it was not refused. */
  | ({ did: string } & Test)
  /** Words heard, as in the action `hear`. */
  | { heard: string }
  | { printed: string }
  /** Nothing heard for so many seconds (at most since the step began). */
  | { quiet: number }
  | { remembered: string; is: ControlValue }
  | { all: Condition[] }
  | { any: Condition[] }
  | { not: Condition };

/** What a scenario must know of a kind of distant station. */
export type FarKind = {
  readonly schema: GenericSchema;
  readonly told: GenericSchema;
  readonly needsCard?: (params: Json) => boolean;
  /** Its notes in the record, by their `what`. */
  readonly tells?: Readonly<Record<string, string>>;
  /** What else it can leave in the record, beside its carrier. */
  readonly leaves?: readonly ('spoke' | 'print')[];
};

/** What a scenario may name, as the catalogue knows it. Schemas are valibot's; a Standard Schema of any maker would not say where. */
export type Kinds = {
  /** By full name `box.control`. */
  controls: ReadonlyMap<string, Range>;
  /** Inner things by full name `box.thing`; `fixed` ones are as found and stay. */
  inner: ReadonlyMap<string, { readonly schema: GenericSchema; readonly fixed?: true }>;
  /** What each indicator can show, by full name. */
  indicators: ReadonlyMap<string, Shows>;
  /** What each sampled quantity can be, by full name. */
  sampled: ReadonlyMap<string, Shows>;
  /** Modes of each box. */
  modes: ReadonlyMap<string, readonly string[]>;
  /** What the own station notes of itself. */
  ownNotes: readonly string[];
  /** By kind of distant station: the schema of `with`, that of what it may be told, and whether it needs a recognition card. */
  correspondents: ReadonlyMap<string, FarKind>;
  /** Schema of a kind's own keys, by kind of measure. */
  measures: ReadonlyMap<string, { readonly entries: ObjectEntries }>;
};

/** A number from `from` to `to` in steps; one of a list; or that of a list which stands where `with` fell in its own. */
export type Draw = { from: number; to: number; step: number } | { of: Json[] } | { pick: Json[]; with: string };

/** A checked scenario whose draws are still open: plain data. */
export type ScenarioSource = { file: string; text: string; draws: Record<string, Draw>; tree: { [key: string]: Json } };

export { castScenario } from './cast.ts';
export { parseScenario, readScenario } from './read.ts';
export type { Located, Pattern, Range as ControlRange, Test };
