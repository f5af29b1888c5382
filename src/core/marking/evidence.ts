/** A record made ready for questions. It only looks. */
import { secondsOfDay, utcText } from '../quantity/time-text.ts';
import { type Names, NO_NAMES } from '../record/names.ts';
import { matches, type Pattern } from '../record/pattern.ts';
import type { QuantityTest } from '../record/pattern-shape.ts';
import type { DrillRecord, Line } from '../record/record.ts';
import type { Json } from '../signals.ts';
import { holds } from './measure.ts';

/** What marking needs of a scenario; a whole scenario will do. */
export type Sheet = {
  own: { call: string };
  papers: { messages: { id: string; lines: string[] }[] };
  /** UTC at the drill's instant 0, `HH:MM:SS`; midnight if left out. */
  world?: { utc: string };
};

type Series = { at: number[]; v: Json[] };

/** The lines of a record, with the sampled quantities as series. */
export class Evidence {
  readonly lines: readonly Line[];
  /** How many times longer than stated the operator's time limits are. */
  readonly stretch: number;
  private readonly series = new Map<string, Series>();

  constructor(
    readonly record: DrillRecord,
    readonly sheet: Sheet,
    /** How people call things; words only, no mark depends on it. */
    readonly names: Names = NO_NAMES,
  ) {
    this.lines = record.lines;
    this.stretch = record.header.stretch;
    for (const [at, line] of record.lines.entries()) {
      if (line.k !== 'value') continue;
      const one = this.series.get(line.q) ?? { at: [], v: [] };
      one.at.push(at);
      one.v.push(line.v);
      this.series.set(line.q, one);
    }
  }

  /** Time of day of a line or another instant, `HH MM SS`. */
  utc({ t }: { t: number }): string {
    return utcText(secondsOfDay(this.sheet.world?.utc ?? '00:00:00'), t);
  }

  /** When the record ends, microseconds. */
  get end_us(): number {
    return this.lines[this.lines.length - 1]?.t ?? 0;
  }

  /** Every line that matches, in order. */
  all(pattern: Pattern): Line[] {
    return this.lines.filter((line) => matches(line, pattern));
  }

  /** The first matching line at index `from` or later. */
  first(pattern: Pattern, from = 0): Line | undefined {
    for (let i = from; i < this.lines.length; i++) {
      const line = this.lines[i] as Line;
      if (matches(line, pattern)) return line;
    }
    return undefined;
  }

  /**
   * The last value of a quantity written at or before a line, and the number of that line. When none was written by
   * then, the first one of the same instant.
   */
  valueAt(q: string, line: Line): { v: Json; i: number } | undefined {
    const one = this.series.get(q);
    if (!one) return undefined;
    const before = one.at.findLastIndex((at) => at < line.i);
    const pick = Math.max(before, 0);
    const source = this.lines[one.at[pick] as number] as Line;
    return before >= 0 || source.t === line.t ? { v: one.v[pick] as Json, i: source.i } : undefined;
  }

  /** Whether every condition holds by the values at a line. */
  stoodAt(tests: readonly QuantityTest[], line: Line): boolean {
    return tests.every((test) => holds(this.valueAt(test.q, line)?.v, test));
  }

  /** Spans of time in which all conditions hold, in order: from the line that made them hold to the line that ended it (or the record's last). */
  spans(tests: readonly QuantityTest[], lines: readonly Line[] = this.lines): { from: Line; to: Line }[] {
    const now = new Map<string, Json>();
    const spans: { from: Line; to: Line }[] = [];
    let since: Line | undefined;
    for (const line of lines) {
      if (line.k !== 'value' || !tests.some((t) => t.q === line.q)) continue;
      now.set(line.q, line.v);
      const all = tests.every((t) => holds(now.get(t.q), t));
      if (all && !since) since = line;
      if (!all && since) {
        spans.push({ from: since, to: line });
        since = undefined;
      }
    }
    const last = lines[lines.length - 1];
    if (since && last) spans.push({ from: since, to: last });
    return spans;
  }
}
