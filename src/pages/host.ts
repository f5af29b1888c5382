/** What the pages are lent: rooms of core that arrive late, the shelf of runs, settings, and the other shells. */
import type { Debrief } from '../core/debrief/debrief.ts';
import type { Drill, Setting } from '../core/drill.ts';
import type { NextStep } from '../core/guide/guide.ts';
import type { View } from '../core/guide/view.ts';
import type { DrillRecord, Header, Manner } from '../core/record/record.ts';
import type { Located, Scenario } from '../core/scenario/scenario.ts';
import type { ControlValue } from '../core/signals.ts';
import type { Stroke } from './drawing.ts';

/** What the first page knows of a drill. */
export type DrillInfo = { id: string; title: string; about: string; minutes: { novice: number; expert: number } };

/** What went wrong, why it matters, what to do. */
export type Trouble = { what: string; why: string; todo: string };

/** A value, or what is wrong with the text it should have come from. */
export type Read<T> = { ok: true; value: T } | Faulty;
/** What is wrong with a text, and where. */
export type Faulty = { ok: false; errors: readonly Located[] };

/** Rooms of core that the first page does without. */
export type Rooms = {
  /** The scenario that a text and a seed make. */
  scenario(text: string, file: string, seed: number): { ok: true; scenario: Scenario } | Faulty;
  drill(scenario: Scenario, setting: Setting): Drill;
  guide(scenario: Scenario): { next(view: View): NextStep | null };
  /** A record as text, for a file. */
  write(record: DrillRecord): string;
  /** A record from a file that may hold anything. */
  read(text: string, file: string): { ok: true; record: DrillRecord } | Faulty;
  /** The debrief of a record whose scenario `scenario` made. */
  debrief(record: DrillRecord, scenario: Scenario): Debrief;
};

/** How a run was begun, as the shelf has it. */
export type RunHead = Pick<Header, 'name' | 'scenario' | 'seed' | 'manner' | 'stretch' | 'engine'> & {
  id: string;
  title: string;
  began_ms: number;
};
/** One thing done to the drill from outside, at drill time `t` in whole microseconds. */
export type Entry = { t: number } & (
  | { control: string; value: ControlValue }
  | { help: string }
  | { away_ms: number; why: string }
  | { end: string }
);
/** How far the drill's clock had come, when by the wall, and how it ended. */
export type RunClock = { t: number; wall_ms: number; outcome?: string };
/** A run from the shelf; `broken` is the number of its first entry that cannot be read. */
export type StoredRun = { head: RunHead; entries: Entry[]; clock: RunClock; broken?: number };

/** The shelf of runs. */
export type RunShelf = {
  readonly lasting: boolean;
  readonly problem: Trouble | undefined;
  begin(about: Omit<RunHead, 'id' | 'began_ms'>): RunHead;
  append(id: string, entry: Entry): void;
  keepClock(id: string, t: number, outcome?: string): void;
  list(): { head: RunHead; clock: RunClock }[];
  load(id: string): StoredRun | undefined;
  salvage(run: StoredRun): RunHead;
  /** The name typed for a run's printed sheet; empty if none. */
  nameOn(id: string): string;
  keepName(id: string, name: string): void;
  raw(id: string): string;
  remove(id: string): void;
};

/** What the trainee chose once. */
export type Settings = {
  theme: 'paper' | 'night' | 'contrast';
  stretch: 1 | 1.5 | 2;
  manner: Manner;
  sound: boolean;
  letters: boolean;
  keys: Record<string, string>;
};

/** The shelter and its loudspeaker once they stand. */
export type Shown = { close(): void };

/** The loudspeaker: what sounds is always known in words, whether or not it can be heard. */
export type Sounding = Shown & {
  mute(on: boolean): void;
  sounding(): readonly string[];
  onSounding(listener: (words: readonly string[]) => void): () => void;
};

/** A drill being worked, as the other shells see it. */
export interface Workbench {
  readonly drill: Drill;
  readonly manner: Manner;
  readonly title: string;
  /** Set a control: stored first, then done. Returns why not, in words. `stamp_ms` is the input event's `timeStamp`. */
  act(control: string, value: ControlValue, stamp_ms?: number): string | undefined;
  /** After anything that may have changed something, at most once a frame. Returns how to stop listening. */
  onChange(listener: () => void): () => void;
  /** Help was given; noted in the record. Nothing happens in the manners without help. */
  help(what: string): void;
  /** The step that is due, where the manner may say it: always in *shown*, after `askHelp` in *prompted*. */
  guideStep(): NextStep | null;
}

/** All that main.ts hands to the pages. */
export type Lent = {
  drills: readonly DrillInfo[];
  /** The text of a drill's scenario. */
  text(id: string): Promise<string>;
  rooms(): Promise<Rooms>;
  runs: RunShelf;
  settings: { read(): Settings; keep(settings: Settings): void };
  /** The first page's picture, 612 wide; less than 524 high cuts the sky. */
  picture(height: number): Promise<readonly Stroke[]>;
  panel(parent: HTMLElement, bench: Workbench): Promise<Shown>;
  sound(bench: Workbench): Promise<Sounding>;
};
