/** Patterns of record lines: what scenarios and measures use to point at moments. */
import type { Json } from '../signals.ts';
import type { Line, LineBody } from './record.ts';

/** A test of one value: every given part must hold. `like` is text in which `*` stands for any run of characters, in either height. */
export type Test = { is?: Json; not?: Json; above?: number; below?: number; in?: Json[]; like?: string };
/** Fields of a record line, each equal to a scalar or meeting a test; `detail.x` reaches into a far line. All must match. */
export type Pattern = { k?: LineBody['k'] } & { [field: string]: Json | Test | undefined };

/** What a field of a line holds. */
export type FieldKind = 'text' | 'number' | 'flag' | 'any';

/** The fields of each kind of line, without `t` and `i`, which every line has. */
export const LINE_FIELDS = {
  do: { n: 'number', control: 'text', value: 'any' },
  refused: { control: 'text', value: 'any', why: 'text' },
  mode: { box: 'text', mode: 'text' },
  value: { q: 'text', v: 'any' },
  air: { station: 'text', emission: 'text', f_Hz: 'number', power_W: 'number' },
  spoke: { station: 'text', words: 'text', by: 'text', from_us: 'number' },
  heard: { words: 'text', by: 'text', from_us: 'number' },
  print: { at: 'text', code: 'number', c: 'text' },
  far: { station: 'text', what: 'text', detail: 'any' },
  log: { utc: 'text', text: 'text' },
  happen: { id: 'text' },
  help: { what: 'text' },
  interruption: { wall_ms: 'number', why: 'text' },
  end: { why: 'text' },
} as const satisfies { [K in LineBody['k']]: Record<Exclude<keyof Extract<LineBody, { k: K }>, 'k'>, FieldKind> };

const squeeze = (s: string): string => s.trim().replace(/\s+/g, ' ').toUpperCase();

/** Whether `text` fits `glob`: `*` is any run of characters, runs of space count as one, height of letters does not matter. */
export function fits(text: string, glob: string): boolean {
  const t = squeeze(text);
  const g = squeeze(glob);
  let i = 0;
  let j = 0;
  let star = -1;
  let from = 0;
  while (i < t.length) {
    if (g[j] === '*') {
      star = j++;
      from = i;
    } else if (j < g.length && t[i] === g[j]) {
      i++;
      j++;
    } else if (star >= 0) {
      j = star + 1;
      i = ++from;
    } else return false;
  }
  while (g[j] === '*') j++;
  return j === g.length;
}

/** Whether two pieces of plain data are equal. */
export function same(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const left = Object.entries(a);
  return (
    left.length === Object.keys(b).length && left.every(([key, v]) => same(v, (b as { [key: string]: Json })[key]))
  );
}

/** Whether a value meets a test. A number is never above or below a value that is no number. */
export function meets(value: Json | undefined, test: Test): boolean {
  if (value === undefined) return false;
  if (test.is !== undefined && !same(value, test.is)) return false;
  if (test.not !== undefined && same(value, test.not)) return false;
  if (test.above !== undefined && !(typeof value === 'number' && value > test.above)) return false;
  if (test.below !== undefined && !(typeof value === 'number' && value < test.below)) return false;
  if (test.in !== undefined && !test.in.some((one) => same(value, one))) return false;
  return test.like === undefined || (typeof value === 'string' && fits(value, test.like));
}

function reach(line: Line, field: string): Json | undefined {
  if (!field.includes('.'))
    return Object.hasOwn(line, field) ? (line as unknown as { [key: string]: Json })[field] : undefined;
  let at: Json | undefined = line as unknown as Json;
  for (const part of field.split('.')) {
    if (typeof at !== 'object' || at === null || Array.isArray(at)) return undefined;
    at = Object.hasOwn(at, part) ? at[part] : undefined;
  }
  return at;
}

const isTest = (x: Pattern[string]): x is Test => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Whether a line has every field of the pattern. */
export function matches(line: Line, pattern: Pattern): boolean {
  // Most lines are of another kind; this is asked of every line by every measure.
  if (pattern.k !== undefined && typeof pattern.k === 'string' && pattern.k !== line.k) return false;
  for (const field of Object.keys(pattern)) {
    const want = pattern[field];
    if (want === undefined) continue;
    const has = reach(line, field);
    if (!(isTest(want) ? meets(has, want) : same(has, want))) return false;
  }
  return true;
}
