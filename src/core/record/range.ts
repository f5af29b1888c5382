/** What a control can be set to, and why a value does not fit. */
import type { Json } from '../signals.ts';

/** What a control can be set to. */
export type Range =
  /** One of these words, in the order of the positions; words that are figures may have a unit. */
  | { kind: 'words'; words: readonly string[]; unit?: string }
  /** From min to max in whole steps. */
  | { kind: 'number'; min: number; max: number; step: number; unit: string }
  /** In or out: `true` is the second word. */
  | { kind: 'switch'; words: readonly [string, string] }
  /** Held or touched: `true` while pressed. */
  | { kind: 'press' }
  /** A line of text, at most `max` characters, of what `allowed` tells people and `only` (the whole text) tells machines. */
  | { kind: 'text'; max: number; allowed: string; only?: RegExp };

/** What was expected when a value does not fit; undefined when it does. */
export function misfit(r: Range, value: Json): string | undefined {
  switch (r.kind) {
    case 'words':
      return typeof value === 'string' && r.words.includes(value) ? undefined : `one of ${r.words.join(', ')}`;
    case 'number':
      return typeof value === 'number' && value >= r.min && value <= r.max
        ? undefined
        : `a number from ${r.min} to ${r.max} ${r.unit}`.trim();
    case 'text':
      return typeof value === 'string' && value.length <= r.max && (r.only?.test(value) ?? true)
        ? undefined
        : `a text of at most ${r.max} characters, ${r.allowed}`;
    default:
      return typeof value === 'boolean' ? undefined : 'true or false';
  }
}
