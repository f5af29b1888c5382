/** A text as a printer printed it. */
import * as v from 'valibot';
import { momentText } from '../../record/moment.ts';
import { fits, matches } from '../../record/pattern.ts';
import { pattern, type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { list, text, whole } from '../../record/shape.ts';
import { printedAt } from '../copy.ts';
import type { Evidence } from '../evidence.ts';
import { measure, notExercised } from '../measure.ts';

/** How much of a text is shown. */
const SHOWN = 60;

/** A text's beginning, up to a space, with dots for what is left out. */
function beginning(text: string): string {
  if (text.length <= SHOWN) return text;
  const cut = text.slice(0, SHOWN).replace(/\s+\S*$/, '');
  return `${cut} ...`;
}

/** The lines between each `from` (or the record's beginning) and the next `to` (or its end). */
function windows(evidence: Evidence, from: Pattern | undefined, to: Pattern | undefined): Line[][] {
  const starts = from ? evidence.all(from).map((line) => line.i) : [0];
  return starts.map((start) => {
    const end = to && evidence.first(to, start);
    return evidence.lines.slice(start, end ? end.i : undefined);
  });
}
type Pattern = Parameters<Evidence['all']>[0];

const count = (s: string, what: RegExp): number => s.match(what)?.length ?? 0;

/** What of it was not there. */
function lacking(text: string, like: string | undefined, letters: number, figures: number): string {
  if (like !== undefined && !fits(text, like)) return `, without ${like.replaceAll('*', ' ').trim()}`;
  if (count(text, /[A-Z]/g) < letters) return `, ${count(text, /[A-Z]/g)} of ${letters} letters`;
  return `, ${count(text, /[0-9]/g)} of ${figures} figures`;
}

/**
 * Between a `from` and the `to` after it a printer (`own` or a distant call sign) printed a text that fits `like` and has
 * so many letters and figures at least. Only what it printed while all of `while` held counts, and nothing of a time in
 * which a line matches `unless`.
 */
export const printed = measure({
  id: 'printed',
  about: 'A text is printed between two moments, while quantities stand so.',
  entries: {
    at: text(8),
    from: v.optional(pattern),
    to: v.optional(pattern),
    while: v.optional(list(quantityTest, 20, 1)),
    unless: v.optional(pattern),
    like: v.optional(text(120)),
    letters: v.optional(whole(0, 1000)),
    figures: v.optional(whole(0, 1000)),
  },
  judge({ at, from, to, while: during, unless, like, letters = 0, figures = 0 }, evidence) {
    const spans = windows(evidence, from, to);
    if (spans.length === 0) return notExercised(`the moment never came: ${momentText(evidence.names, from ?? {})}`);
    const stood = (line: Line): boolean => evidence.stoodAt((during ?? []) as QuantityTest[], line);
    const texts = spans.map((all) => {
      const lines = unless && all.some((line) => matches(line, unless)) ? [] : all;
      const kept = printedAt(
        lines.filter((line) => line.k === 'print' && stood(line)),
        at,
      );
      return { text: kept.map((p) => p.c).join(''), last: kept[kept.length - 1]?.line, start: all[0]?.i };
    });
    const good = texts.find(
      (t) =>
        (like === undefined || fits(t.text, like)) &&
        count(t.text, /[A-Z]/g) >= letters &&
        count(t.text, /[0-9]/g) >= figures &&
        t.text !== '',
    );
    const told = good ?? texts[texts.length - 1];
    const shown = told?.text.trim() ?? '';
    const lack = good ? '' : lacking(shown, like, letters, figures);
    return {
      exercised: texts.some((t) => t.text !== '') || from !== undefined,
      go: good !== undefined,
      value: shown === '' ? 'nothing was printed' : `printed ${beginning(shown)}${lack}`,
      because: [told?.last ?? told?.start ?? 1],
    };
  },
});
