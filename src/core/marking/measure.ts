/** What a kind of measure is. One kind, one file in measures/, one line in measures/list.ts. */
import * as v from 'valibot';
import { meets } from '../record/pattern.ts';
import type { QuantityTest } from '../record/pattern-shape.ts';
import type { Json } from '../signals.ts';
import type { Evidence } from './evidence.ts';

/** A measure as a scenario states it: what all have, and its kind's own parameters beside them. */
export type Stated = {
  id: string;
  title: string;
  kind: string;
  weight: number;
  critical: boolean;
  standard: string;
  [own: string]: Json;
};

/** What a kind finds in a record. */
export type Judgement = {
  /** Whether the record has anything that the measure speaks of. What was not exercised is never GO and earns nothing. */
  exercised: boolean;
  go: boolean;
  /** Part of the points earned, 0..1; all when GO, none otherwise, unless stated. */
  share?: number;
  /** What it was, as text. */
  value: string;
  /** Numbers of the record lines that decided it, the decisive one first. */
  because: number[];
  /** When it was decided, microseconds, where that is not the instant of the decisive line: a deadline that went by. */
  at_us?: number;
};

/** A kind of measure: its own keys and how it judges. */
export interface Measure {
  id: string;
  about: string;
  /** Schema of the kind's own keys. */
  schema: v.StrictObjectSchema<v.ObjectEntries, undefined>;
  judge(stated: Stated, evidence: Evidence): Judgement;
}

/** A kind, with the parameters of its judge typed by its own keys. */
export function measure<const E extends v.ObjectEntries>(kind: {
  id: string;
  about: string;
  entries: E;
  judge(own: v.InferOutput<v.StrictObjectSchema<E, undefined>>, evidence: Evidence): Judgement;
}): Measure {
  const { id, about, entries, judge } = kind;
  return { id, about, schema: v.strictObject(entries), judge } as unknown as Measure;
}

/** Nothing of the kind happened. */
export const notExercised = (value: string): Judgement => ({ exercised: false, go: false, value, because: [] });

/** Whether a sampled value meets a condition; a value never sampled meets none. */
export function holds(value: Json | undefined, test: QuantityTest): boolean {
  if (value === undefined) return false;
  const { q: _, near, by, ...rest } = test;
  if (near !== undefined && !(typeof value === 'number' && Math.abs(value - near) <= (by ?? 0))) return false;
  return meets(value, rest);
}
