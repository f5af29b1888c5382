/** The shape of patterns, so that a misspelt field, which would never match, is a fault. */
import * as v from 'valibot';
import { type FieldKind, LINE_FIELDS, type Pattern, type Test } from './pattern.ts';
import { anything, fault, flag, list, map, number, oneOf, text } from './shape.ts';

const KINDS = Object.keys(LINE_FIELDS) as (keyof typeof LINE_FIELDS)[];
const BIG = 1e12;

/** The keys of a test, all optional. */
export const testKeys = {
  is: v.optional(anything),
  not: v.optional(anything),
  above: v.optional(number(-BIG, BIG)),
  below: v.optional(number(-BIG, BIG)),
  in: v.optional(list(anything, 100, 1)),
  like: v.optional(text(400)),
};

const test = map(testKeys);
const isMap = (x: unknown): x is Record<string, unknown> => typeof x === 'object' && x !== null && !Array.isArray(x);

const PLAIN: Readonly<Record<FieldKind, v.GenericSchema>> = {
  text: v.string(fault('unquoted-code', 'a text in quotes ("..."), or a test like { not: ... }')),
  number: number(-BIG, BIG),
  flag,
  any: v.union(
    [v.string(), v.number(), v.boolean(), v.null()],
    fault('wrong-type', 'a text, a number, true, false, null or a test'),
  ),
};
const FIELD = Object.fromEntries(
  Object.entries(PLAIN).map(([kind, plain]) => [kind, v.optional(v.lazy((x) => (isMap(x) ? test : plain)))]),
) as unknown as Record<FieldKind, v.GenericSchema>;

function entriesFor(input: unknown): v.ObjectEntries {
  const given = isMap(input) ? input : {};
  const of = KINDS.includes(given['k'] as never) ? [given['k'] as keyof typeof LINE_FIELDS] : KINDS;
  const fields = of.flatMap((k) => Object.entries(LINE_FIELDS[k] as Record<string, FieldKind>));
  // Kinds of line that share a field name may hold different things in it; without `k` any will do.
  const entries = fields.map(([field, kind]) => [field, of.length === 1 ? FIELD[kind] : FIELD.any]);
  const far = of.includes('far') ? Object.keys(given).filter((key) => /^detail\.\w/.test(key)) : [];
  return {
    k: v.optional(oneOf(KINDS)),
    t: FIELD.number,
    ...Object.fromEntries(entries),
    ...Object.fromEntries(far.map((key) => [key, FIELD.any])),
  };
}

const LOOSE = v.looseObject({ k: v.optional(oneOf(KINDS)) });

/** A pattern of record lines. */
export const pattern: v.GenericSchema<unknown, Pattern> = v.lazy((input) =>
  input === undefined
    ? LOOSE
    : v.pipe(
        map(entriesFor(input)),
        v.check((x) => Object.keys(x).length > 0, fault('too-few', 'at least one field')),
      ),
) as unknown as v.GenericSchema<unknown, Pattern>;

/** Conditions on sampled quantities: `q`, and a test or `near` with `by`. */
export const quantityTest = map({
  q: text(80),
  ...testKeys,
  near: v.optional(number(-BIG, BIG)),
  by: v.optional(number(0, BIG)),
});
/** A quantity's name and what it must be. */
export type QuantityTest = { q: string; near?: number; by?: number } & Test;
