/**
 * Shapes of plain data: the parts that schemas are made of. A message is `code|what was expected`, so that an issue
 * carries both.
 */
import * as v from 'valibot';
import { nearest } from './places.ts';

/** The message of a fault. */
export const fault = (code: string, expected: string): string => `${code}|${expected}`;

/** Free text, 1 to `max` characters. */
export const text = (max: number) =>
  v.pipe(
    v.string(fault('wrong-type', 'a text')),
    v.minLength(1, fault('too-short', 'a text that is not empty')),
    v.maxLength(max, fault('too-long', `at most ${max} characters`)),
  );

/** A code or call sign: a quoted string, since YAML turns 007 and 1E5 into numbers. */
export const code = (pattern: RegExp, expected: string) =>
  v.pipe(
    v.string(fault('unquoted-code', `${expected}, as a quoted string ("...")`)),
    v.regex(pattern, fault('bad-code', expected)),
  );

/** A name within the file: letters, digits, hyphens. */
export const name = code(
  /^[A-Za-z][A-Za-z0-9_-]{0,39}$/,
  'a name of letters, digits, - and _, beginning with a letter',
);
/** A call sign. */
export const callSign = code(/^[A-Z0-9]{3,8}$/, 'a call sign of 3 to 8 capital letters and digits');
/** `box.thing`. */
export const fullName = code(/^[A-Za-z]\w*\.[A-Za-z]\w*$/, 'a full name `box.thing`');

/** A finite number in a range. */
export const number = (min: number, max: number) =>
  v.pipe(
    v.number(fault('wrong-type', `a number from ${min} to ${max}`)),
    v.minValue(min, fault('out-of-range', `a number from ${min} to ${max}`)),
    v.maxValue(max, fault('out-of-range', `a number from ${min} to ${max}`)),
  );
/** A whole number in a range. */
export const whole = (min: number, max: number) =>
  v.pipe(number(min, max), v.integer(fault('out-of-range', `a whole number from ${min} to ${max}`)));
/** True or false. */
export const flag = v.boolean(fault('wrong-type', 'true or false'));
/** One of these words. */
export const oneOf = <const W extends readonly string[]>(words: W) =>
  v.picklist(words, fault('unknown-word', `one of ${words.join(', ')}`));

/** A list of 0 to `max` (or from `min`). */
export const list = <S extends v.GenericSchema>(item: S, max: number, min = 0) =>
  v.pipe(
    v.array(item, fault('wrong-type', 'a list')),
    v.minLength(min, fault('too-few', `at least ${min}`)),
    v.maxLength(max, fault('too-many', `at most ${max}`)),
  );

type Told = { expected: string | null; input: unknown; received: string; path?: unknown };

function keyFault(known: readonly string[], issue: Told): string {
  if (issue.expected === 'never') {
    const near = nearest(String(issue.input), known);
    return fault('unknown-key', `${near ? `perhaps "${near}"; ` : ''}the keys here are ${known.join(', ')}`);
  }
  if (issue.received === 'undefined') return fault('missing-key', `a key ${issue.expected}`);
  return fault('wrong-type', `a map with ${known.join(', ')}`);
}

/** A map with these keys and no others. */
export const map = <const E extends v.ObjectEntries>(entries: E) =>
  v.strictObject(entries, (issue) => keyFault(Object.keys(entries), issue as Told));

(x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null && !Array.isArray(x);

const isMap = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null && !Array.isArray(x);

/** A map from names that fit `key` to values that fit `value`. */
export const record = <K extends v.GenericSchema<string, string>, S extends v.GenericSchema>(key: K, value: S) =>
  v.record(key, value, fault('wrong-type', 'a map'));

/** Any plain data. */
export const anything = v.any();
/** A word, a number or true/false. */
export const scalar = v.union(
  [v.string(), v.number(), v.boolean()],
  fault('wrong-type', 'a text, a number, true or false'),
);

/**
 * A map whose meaning is told by which key it has: the first of `options` whose name is among its keys decides, so a
 * fault is told of that one and not of all. Asked with nothing it is the union of all, for the JSON Schema.
 */
export function byKey<T = Record<string, unknown>>(
  options: () => Readonly<Record<string, v.GenericSchema>>,
): v.GenericSchema<unknown, T> {
  let all: v.GenericSchema | undefined;
  return v.lazy((input) => {
    const known = options();
    if (input === undefined) {
      all ??= v.union(Object.values(known));
      return all;
    }
    const keys = isMap(input) ? Object.keys(input) : [];
    const found = Object.keys(known).find((key) => keys.includes(key));
    if (found !== undefined) return known[found] as v.GenericSchema;
    const near = keys[0] === undefined ? undefined : nearest(keys[0], Object.keys(known));
    const hint = near ? `perhaps "${near}"; ` : '';
    return v.never(
      fault(
        keys.length > 0 ? 'unknown-key' : 'wrong-type',
        `${hint}a map with one of ${Object.keys(known).join(', ')}`,
      ),
    );
  }) as v.GenericSchema<unknown, T>;
}

/** A map whose meaning is told by the word under `kind`. Asked with nothing it is the union of all. */
export function byKind<T = Record<string, unknown>>(
  options: () => ReadonlyMap<string, v.GenericSchema>,
): v.GenericSchema<unknown, T> {
  let all: v.GenericSchema | undefined;
  return v.lazy((input) => {
    const known = options();
    if (input === undefined) {
      all ??= v.union(Array.from(known.values()));
      return all;
    }
    const kind = isMap(input) ? input['kind'] : undefined;
    if (kind === undefined) return map({ kind: v.string() });
    const found = typeof kind === 'string' ? known.get(kind) : undefined;
    if (found) return found;
    return v.looseObject({ kind: v.never(fault('unknown-kind', `one of ${Array.from(known.keys()).join(', ')}`)) });
  }) as v.GenericSchema<unknown, T>;
}

/** An issue's path, code and words. `missing`: a key that should be there; `key`: the fault is in the key itself. */
export type Fault = { path: (string | number)[]; code: string; expected: string; missing: boolean; key: boolean };

/** Every fault of `data` by a schema, in the order found; none when it fits. */
export function faults(schema: v.GenericSchema, data: unknown): Fault[] {
  return (v.safeParse(schema, data).issues ?? []).map((issue) => {
    const bar = issue.message.indexOf('|');
    const code = bar > 0 ? issue.message.slice(0, bar) : 'wrong-type';
    const expected = bar > 0 ? issue.message.slice(bar + 1) : (issue.expected ?? 'something else');
    const missing = code === 'missing-key';
    const items = (issue.path ?? []) as { key: string | number; origin: string }[];
    return {
      path: items.map((item) => item.key),
      code,
      expected,
      missing,
      key: !missing && items.at(-1)?.origin === 'key',
    };
  });
}
