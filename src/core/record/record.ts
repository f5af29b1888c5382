/**
 * What happened in one drill, and all that a mark may read. A header carries the scenario itself, so a record can be marked
 * again by any engine that takes it; lines are in order of time, numbered from 1.
 */
import type { ControlValue, Emission, Json } from '../signals.ts';

/** Version of the record format; history in DEVELOPERS.md. */
export const RECORD_VERSION = 1;
/** Name and version of the engine, which stands in every record's header: raised when the same acts make another record. */
export const ENGINE = 'keydown 0.2.0';

/** How the drill is worked: next step shown, help on request, no help, or a check by an instructor. */
export type Manner = 'shown' | 'prompted' | 'unaided' | 'assessed';
/** Every manner, mildest first. */
export const MANNERS: readonly Manner[] = ['shown', 'prompted', 'unaided', 'assessed'];

/** First line of a record. */
export type Header = {
  'keydown-record': number;
  /** What made the lines: `keydown 0.2.0`, or `keydown 0.2.0, begun with keydown 0.1.0` where a run outlived its version. */
  engine: string;
  /** File name of the scenario, for people. */
  name: string;
  /** The scenario's whole text. */
  scenario: string;
  /** Whole number from 0 to 2^31 - 1. */
  seed: number;
  manner: Manner;
  /** How many times longer than stated the operator's time limits are; 1 to 4. */
  stretch: number;
};

/** The engine whose code made the lines: of `keydown 0.2.0, begun with keydown 0.1.0` the first. */
export const writerOf = ({ engine }: Pick<Header, 'engine'>): string => engine.split(', begun with ', 1).join('');

/** Why a drill that does not check is no fault of its file, in words; undefined where this engine wrote it, so that it is. */
export function notTaken(header: Pick<Header, 'engine'>, what: 'record' | 'journal'): string | undefined {
  const writer = writerOf(header);
  return writer === ENGINE ? undefined : `${writer} wrote this ${what}, and ${ENGINE} does not take the drill in it`;
}

/** What a line says, without its time and number. */
export type LineBody =
  /** The operator set a control: his act number `n`, from 1. Refused or not, it is written down first. */
  | { k: 'do'; n: number; control: string; value: ControlValue }
  /** A control refused: `why` in words. */
  | { k: 'refused'; control: string; value: ControlValue; why: string }
  /** A box's machine changed mode. */
  | { k: 'mode'; box: string; mode: string }
  /** A sampled quantity `box.quantity` moved by its step or more; `v` rounded to it. */
  | { k: 'value'; q: string; v: Json }
  /** A station's carrier came up, changed or went: `f_Hz` rounded to 1 Hz, `power_W` radiated to 0.01 W, 0 = silent. */
  | { k: 'air'; station: string; emission: Emission; f_Hz: number; power_W: number }
  /** Words that left a station's aerial in one go, the first of them at `from_us`. */
  | { k: 'spoke'; station: string; words: string; by: 'voice' | 'morse'; from_us: number }
  /** What the operator's own ear could make of a transmission ('...' for what was lost). */
  | { k: 'heard'; words: string; by: 'voice' | 'morse'; from_us: number }
  /** One operation of a page printer: `at` is `own` or the distant call sign, `code` 0..31, `c` as printed. */
  | { k: 'print'; at: string; code: number; c: string }
  /** A distant station did something: its inner truth. */
  | { k: 'far'; station: string; what: string; detail: { [key: string]: Json } }
  /** A log entry by the operator, `utc` as `HH MM SS`. */
  | { k: 'log'; utc: string; text: string }
  /** A timed happening of the scenario took place. */
  | { k: 'happen'; id: string }
  /** The operator asked for help, or was shown a step. */
  | { k: 'help'; what: string }
  /** The program was away (closed, hidden, killed) for `wall_ms`; no drill time passed. */
  | { k: 'interruption'; wall_ms: number; why: string }
  /** The drill ended: handed over, given up, or out of time. */
  | { k: 'end'; why: string };

/** One line: `t` whole microseconds since the drill began, `i` its number from 1. */
export type Line = { t: number; i: number } & LineBody;

/** A whole record. */
export type DrillRecord = { header: Header; lines: Line[] };

/** Append a line at time `t`. */
export function append(record: DrillRecord, t: number, body: LineBody): Line {
  const line = { t, i: record.lines.length + 1, ...body } as Line;
  record.lines.push(line);
  return line;
}
