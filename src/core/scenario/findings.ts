/** What a check of a scenario finds, and the questions that all parts of the check ask. */
import type { GenericSchema } from 'valibot';
import { meant } from '../record/places.ts';
import type { Range } from '../record/range.ts';
import { faults } from '../record/shape.ts';
import type { Shows } from '../record/shows.ts';
import type { Json } from '../signals.ts';
import { encode } from '../telegraphy/ita2.ts';
import type { Kinds, Scenario } from './scenario.ts';
import { type Comparable, controlTakes, isTest, type Takes, testFaults } from './takes.ts';

/** Steps from the root of a scenario to a value. */
export type Path = readonly (string | number)[];
/** A fault: `key` points at the key instead of the value; `index` at one character of a text. */
export type Finding = { path: Path; code: string; expected: string; key?: boolean; index?: number };

/** Names of what a scenario speaks of, and a list of what does not fit. */
export class Findings {
  readonly list: Finding[] = [];
  readonly far: readonly string[];
  readonly messages: readonly string[];
  constructor(
    readonly scenario: Scenario,
    readonly kinds: Kinds,
  ) {
    this.far = scenario.stations.map((x) => x.call);
    this.messages = scenario.papers.messages.map((m) => m.id);
  }

  say(code: string, path: Path, expected: string, more: Partial<Finding> = {}): void {
    this.list.push({ code, path, expected, ...more });
  }

  /** Whether `word` is one of `all`; a finding otherwise, with the nearest. */
  known(code: string, path: Path, word: string, all: Iterable<string>, what: string, key = false): boolean {
    const list = Array.from(all);
    if (list.includes(word)) return true;
    this.say(code, path, `${what}${meant(word, list)}`, { key });
    return false;
  }

  once(path: Path, field: string, items: readonly { [key: string]: unknown }[]): void {
    const seen = new Set<unknown>();
    for (const [i, item] of items.entries()) {
      if (seen.has(item[field])) this.say('duplicate-id', [...path, i, field], `another ${field} than those above`);
      seen.add(item[field]);
    }
  }

  shape(path: Path, schema: GenericSchema, value: Json): void {
    for (const f of faults(schema, value)) {
      // A missing key has no place of its own: its parent's key shows where it belongs.
      const inside = f.missing ? f.path.slice(0, -1) : f.path;
      this.say(f.code, [...path, ...inside], f.expected, { key: f.missing || f.key });
    }
  }

  /** Only characters that a printer has; line ends only where lines are typed. */
  letters(path: Path, text: string, ends = false): void {
    const bad = encode(text).errors[0] ?? badControl(text, ends);
    if (bad)
      this.say('not-in-alphabet', path, `only characters of ITA2 (ITU-T S.1), not ${JSON.stringify(bad.char)}`, {
        index: bad.at,
      });
  }

  control(path: Path, full: string, key = false): Range | undefined {
    const { controls } = this.kinds;
    this.known('unknown-control', path, full, controls.keys(), 'a control of the station', key);
    return controls.get(full);
  }

  indicator(path: Path, full: string): Shows | undefined {
    const { indicators } = this.kinds;
    this.known('unknown-indicator', path, full, indicators.keys(), 'an indicator of the station');
    return indicators.get(full);
  }

  quantity(path: Path, full: string): Shows | undefined {
    const { sampled } = this.kinds;
    this.known('unknown-quantity', path, full, sampled.keys(), 'a sampled quantity of the station');
    return sampled.get(full);
  }

  message(path: Path, id: string): void {
    this.known('unknown-message', path, id, this.messages, 'a message of the papers');
  }

  /** A control set to a value. */
  setting(path: Path, full: string, value: Json): void {
    const range = this.control(path, full, true);
    if (range) this.compared(path, controlTakes(range), value);
  }

  /** A value that is compared with what something takes: plain, or a test at that place. */
  compared(path: Path, takes: Takes, value: Json): void {
    if (isTest(value)) this.test(path, takes, value);
    else if (!takes.fits(value)) this.say('does-not-fit', path, takes.says);
  }

  /** A test of what something takes, its keys at `path`. */
  test(path: Path, takes: Takes, test: Comparable): void {
    for (const { at, expected, key } of testFaults(takes, test))
      this.say('does-not-fit', [...path, ...at], expected, { key: key ?? false });
  }
}

// Bell and "who are you" are in the alphabet but not in a text that people write.
function badControl(text: string, ends: boolean): { at: number; char: string } | undefined {
  const at = Array.from(text).findIndex((c) => c < ' ' && !(ends && c === '\n'));
  return at < 0 ? undefined : { at, char: text[at] as string };
}
