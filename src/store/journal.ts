/** What one run is kept as: a header, one entry for every event, and the drill's clock, each under a key of its own. */
import { type Header, MANNERS, type Manner } from '../core/record/record.ts';

/** How a run was begun. */
export type RunHead = Pick<Header, 'name' | 'scenario' | 'seed' | 'manner' | 'stretch' | 'engine'> & {
  id: string;
  /** The scenario's title, for lists. */
  title: string;
  /** Wall time of the beginning, milliseconds since 1970. */
  began_ms: number;
};

/** One thing that was done to the drill from outside, at drill time `t` (whole microseconds). */
export type Entry = { t: number } & (
  | { control: string; value: string | number | boolean }
  | { help: string }
  | { away_ms: number; why: string }
  | { end: string }
);

/** How far the drill's clock had come, and when that was by the wall; the outcome once the drill has ended. */
export type RunClock = { t: number; wall_ms: number; outcome?: string };

/** A run as it was found on the shelf. `broken` is the number of the first entry that cannot be read. */
export type StoredRun = { head: RunHead; entries: Entry[]; clock: RunClock; broken?: number };

type Fields = { [key: string]: unknown };
const isTime = (x: unknown): x is number => typeof x === 'number' && Number.isSafeInteger(x) && x >= 0;
const isText = (x: unknown): x is string => typeof x === 'string';
const isNumber = (x: unknown): x is number => typeof x === 'number' && Number.isFinite(x);

function fields(text: string | null): Fields | undefined {
  if (text === null) return undefined;
  try {
    const made: unknown = JSON.parse(text);
    return typeof made === 'object' && made !== null && !Array.isArray(made) ? (made as Fields) : undefined;
  } catch {
    return undefined;
  }
}

/** Reads a header; undefined if it is not one. */
export function readHead(text: string | null): RunHead | undefined {
  const f = fields(text);
  if (!f) return undefined;
  const { id, title, name, scenario, engine, seed, manner, stretch, began_ms } = f;
  const said = [id, title, name, scenario, engine].every(isText);
  const fits = isTime(seed) && isNumber(stretch) && isNumber(began_ms) && MANNERS.includes(manner as Manner);
  return said && fits ? (f as unknown as RunHead) : undefined;
}

/** Reads an entry; undefined if it is not one. */
export function readEntry(text: string | null): Entry | undefined {
  const f = fields(text);
  if (!f || !isTime(f['t'])) return undefined;
  const acts = isText(f['control']) && (isText(f['value']) || isNumber(f['value']) || typeof f['value'] === 'boolean');
  const away = isNumber(f['away_ms']) && isText(f['why']);
  return acts || away || isText(f['help']) || isText(f['end']) ? (f as unknown as Entry) : undefined;
}

/** Reads a clock; undefined if it is not one. */
export function readClock(text: string | null): RunClock | undefined {
  const f = fields(text);
  if (!f || !isTime(f['t']) || !isNumber(f['wall_ms'])) return undefined;
  return f['outcome'] === undefined || isText(f['outcome']) ? (f as unknown as RunClock) : undefined;
}
