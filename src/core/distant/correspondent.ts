/** What a distant station is. One kind, one file in correspondents/, one line in correspondents/list.ts. */
import type { GenericSchema } from 'valibot';
import type { LineBody } from '../record/record.ts';
import type { Recordings } from '../samples/recording.ts';
import type { Papers } from '../scenario/scenario.ts';
import type { Ear, Json, Radiation } from '../signals.ts';

/** What the drill lends a distant station while it acts. */
export type FarBench = {
  now_us: number;
  seed: number;
  utc0_s: number;
  /** How many times longer than stated the operator's time limits are. */
  stretch: number;
  /** The same papers as on the operator's desk: both ends hold the same card. */
  papers: Pick<Papers, 'card' | 'messages'>;
  /** What may be put on the air. */
  recordings: Recordings;
  /** What this station's own aerial brings it. */
  ear: Ear;
  after(delay_us: number, event: Json): void;
  forget(which: (event: Json) => boolean): void;
  note(body: LineBody): void;
};

/** State of one distant station: plain data. `radiation` is what it puts on the air (history and plan). */
export type FarState = { call: string; radiation: Radiation };

/** Where a distant receiver stands: middle of its passband and shift of its terminal unit, Hz. */
export type FarReceiver = { tuned_Hz: number; shift_Hz: number };

/** A kind of distant station. Methods may change `s` and nothing else. */
export interface Correspondent<S extends FarState = FarState, P = unknown> {
  id: string;
  about: string;
  /** What a scenario may set under `with`. */
  schema: GenericSchema;
  /** What a scenario may tell it while the drill runs. */
  told: GenericSchema;
  /** What its notes in the record tell, by their `what`: words after its call sign, see `Names.tells`. */
  tells?: Readonly<Record<string, string>>;
  /** What else it can leave in the record, beside its carrier. */
  leaves?: readonly ('spoke' | 'print')[];
  /** Can it not work with these parameters unless both ends hold a recognition card? */
  needsCard?(params: P): boolean;
  /** The station at instant 0 from its (already validated) parameters; may ask for wake-ups. */
  start(call: string, params: P, bench: FarBench): S;
  /** The scenario tells it something (already validated, with defaults filled in). */
  tell(s: S, what: unknown, bench: FarBench): void;
  /** A wake-up that it asked for. */
  woken(s: S, event: Json, bench: FarBench): void;
  /** Where its receiver stands now. */
  receiver(s: S): FarReceiver;
  /** Somebody's radiation changed (own or another's); look at `bench.ear` if interested. */
  stirred?(s: S, bench: FarBench): void;
}
