/**
 * A record as text: JSON lines, the header first. Keys stand in a fixed order, so equal records are equal bytes.
 */
import type { Json } from '../signals.ts';
import { type FieldKind, LINE_FIELDS } from './pattern.ts';
import { type Located, Places } from './places.ts';
import { type DrillRecord, type Header, type Line, MANNERS, RECORD_VERSION } from './record.ts';

/** Longest record taken, characters. */
export const MAX_RECORD_CHARS = 64 * 1024 * 1024;
/** Deepest nesting of a value in a line. */
const MAX_DEPTH = 16;
const MAX_ERRORS = 50;

const HEADER_FIELDS: Readonly<Record<keyof Header, FieldKind>> = {
  'keydown-record': 'number',
  engine: 'text',
  name: 'text',
  scenario: 'text',
  seed: 'number',
  manner: 'text',
  stretch: 'number',
};

type Bag = { [key: string]: Json };
const isBag = (x: unknown): x is Bag => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Plain data with the keys of every map in alphabetical order. */
function sorted(data: Json): Json {
  if (Array.isArray(data)) return data.map(sorted);
  if (!isBag(data)) return data;
  const keys = Object.keys(data).sort();
  return Object.fromEntries(keys.map((key) => [key, sorted(data[key] as Json)]));
}

function lineText(line: Line): string {
  const from = line as unknown as Bag;
  const out: Bag = { t: line.t, i: line.i, k: line.k };
  for (const field of Object.keys(LINE_FIELDS[line.k])) out[field] = sorted(from[field] as Json);
  return JSON.stringify(out);
}

/** A record as text, a line each, ended by a line feed. */
export function writeRecord({ header, lines }: DrillRecord): string {
  const first: Bag = {};
  for (const field of Object.keys(HEADER_FIELDS)) first[field] = header[field as keyof Header];
  return `${[JSON.stringify(first), ...lines.map(lineText)].join('\n')}\n`;
}

type Fault = { code: string; key?: string; expected: string };

/** A scenario, a picture, an empty file. */
const NOT_A_RECORD: Fault = {
  code: 'not-a-record',
  expected: 'a record of a drill: lines of JSON, the first with the key "keydown-record"',
};

function tooDeep(data: Json): boolean {
  let level: Json[] = [data];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > MAX_DEPTH) return true;
    level = level.flatMap((x) => (typeof x === 'object' && x !== null ? Object.values(x) : []));
  }
  return false;
}

const SAYS: Readonly<Record<FieldKind, string>> = {
  text: 'a text',
  number: 'a finite number',
  flag: 'true or false',
  any: `plain data at most ${MAX_DEPTH} deep`,
};

function fitsKind(x: Json, kind: FieldKind): boolean {
  if (kind === 'text') return typeof x === 'string';
  // JSON has no infinity, but 1e999 reads as one.
  if (kind === 'number') return typeof x === 'number' && Number.isFinite(x);
  if (kind === 'flag') return typeof x === 'boolean';
  return typeof x !== 'object' || !tooDeep(x);
}

function checkFields(bag: Bag, fields: Readonly<Record<string, FieldKind>>): Fault | undefined {
  for (const [field, kind] of Object.entries(fields)) {
    if (!Object.hasOwn(bag, field)) return { code: 'missing-key', expected: `a key "${field}"` };
    if (!fitsKind(bag[field] as Json, kind))
      return { code: 'wrong-type', key: field, expected: `${SAYS[kind]} for "${field}"` };
  }
  const extra = Object.keys(bag).find((key) => !Object.hasOwn(fields, key));
  if (extra === undefined) return undefined;
  return { code: 'unknown-key', key: extra, expected: `the keys ${Object.keys(fields).join(', ')}` };
}

const isWhole = (x: Json | undefined, min: number, max: number): boolean =>
  typeof x === 'number' && Number.isSafeInteger(x) && x >= min && x <= max;

function checkHeader(bag: Bag): Fault | undefined {
  if (!Object.hasOwn(bag, 'keydown-record')) return NOT_A_RECORD;
  if (bag['keydown-record'] !== RECORD_VERSION) {
    return { code: 'unknown-version', key: 'keydown-record', expected: `record format version ${RECORD_VERSION}` };
  }
  const wrong = checkFields(bag, HEADER_FIELDS);
  if (wrong) return wrong;
  if (!isWhole(bag['seed'], 0, 0x7fffffff))
    return { code: 'out-of-range', key: 'seed', expected: 'a whole number from 0 to 2147483647' };
  if (!MANNERS.includes(bag['manner'] as never))
    return { code: 'unknown-word', key: 'manner', expected: `one of ${MANNERS.join(', ')}` };
  const stretch = bag['stretch'] as number;
  return stretch >= 1 && stretch <= 4
    ? undefined
    : { code: 'out-of-range', key: 'stretch', expected: 'a number from 1 to 4' };
}

const WITH_BASE = new Map<Json | undefined, Readonly<Record<string, FieldKind>>>(
  Object.entries(LINE_FIELDS).map(([k, own]) => [k, { t: 'number', i: 'number', k: 'text', ...own }]),
);

function checkLine(bag: Bag, i: number, after_us: number): Fault | undefined {
  const fields = WITH_BASE.get(bag['k']);
  if (!fields) return { code: 'unknown-kind', key: 'k', expected: `"k" one of ${Object.keys(LINE_FIELDS).join(', ')}` };
  const wrong = checkFields(bag, fields);
  if (wrong) return wrong;
  if (bag['i'] !== i) return { code: 'out-of-order', key: 'i', expected: `line number ${i}` };
  if (!isWhole(bag['t'], after_us, Number.MAX_SAFE_INTEGER)) {
    return { code: 'out-of-order', key: 't', expected: `a whole number of microseconds from ${after_us}` };
  }
  return undefined;
}

/** Reads lines one by one and gathers what is wrong with them. */
class Reader {
  readonly errors: Located[] = [];
  private places: Places | undefined;
  constructor(
    private readonly text: string,
    private readonly file: string,
  ) {}

  fail(offset: number, code: string, expected: string): void {
    this.places ??= new Places(this.text, this.file);
    if (this.errors.length < MAX_ERRORS) this.errors.push(this.places.error(code, offset, expected));
  }

  /** The map on the line from `start` to `end`, if it is one and has no fault. */
  map(start: number, end: number, check: (bag: Bag) => Fault | undefined): Bag | undefined {
    const source = this.text.slice(start, end);
    let data: unknown;
    try {
      data = JSON.parse(source);
    } catch {
      if (start === 0 && !source.includes('"keydown-record"')) this.fail(0, NOT_A_RECORD.code, NOT_A_RECORD.expected);
      else if (end === this.text.length) this.fail(end, 'truncated', 'a whole line; the record breaks off here');
      else this.fail(start, 'not-json', 'a line of JSON');
      return undefined;
    }
    const wrong = isBag(data)
      ? check(data)
      : start === 0
        ? NOT_A_RECORD
        : { code: 'wrong-type', expected: 'a map in braces' };
    if (!wrong) return data as Bag;
    const at = wrong.key === undefined ? -1 : source.indexOf(`${JSON.stringify(wrong.key)}:`);
    this.fail(start + Math.max(0, at), wrong.code, wrong.expected);
    return undefined;
  }
}

/** Read a record's text. Everything that is wrong comes back located (the first 50); nothing is half-read, nothing throws. */
export function readRecord(
  text: string,
  file = 'record',
): { ok: true; record: DrillRecord } | { ok: false; errors: Located[] } {
  const reader = new Reader(text.length > MAX_RECORD_CHARS ? '' : text, file);
  if (text.length > MAX_RECORD_CHARS) {
    reader.fail(0, 'too-large', `at most ${MAX_RECORD_CHARS} characters, got ${text.length}`);
    return { ok: false, errors: reader.errors };
  }
  let header: Bag | undefined;
  const lines: Line[] = [];
  let after_us = 0;
  let n = 0;
  for (let start = 0; start < text.length || n === 0; n++) {
    const feed = text.indexOf('\n', start);
    const end = feed < 0 ? text.length : feed;
    const bag = reader.map(start, end, n === 0 ? checkHeader : (one) => checkLine(one, n, after_us));
    // What follows a header that cannot be read cannot be judged; a faulty line is one error, not many.
    if (n === 0 && !bag) break;
    if (n === 0) header = bag;
    else if (bag) {
      after_us = bag['t'] as number;
      lines.push(bag as unknown as Line);
    }
    if (reader.errors.length >= MAX_ERRORS) break;
    start = end + 1;
  }
  if (reader.errors.length > 0) return { ok: false, errors: reader.errors };
  return { ok: true, record: { header: header as unknown as Header, lines } };
}
