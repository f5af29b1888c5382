/** A text as a printer printed it. */
import * as v from 'valibot';
import { lineText, momentText } from '../../record/moment.ts';
import { stood as stoodAs } from '../../record/names.ts';
import { fits, matches } from '../../record/pattern.ts';
import { pattern, type QuantityTest, quantityTest } from '../../record/pattern-shape.ts';
import type { Line } from '../../record/record.ts';
import { list, text, whole } from '../../record/shape.ts';
import { type Printed, printedAt } from '../copy.ts';
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

/** What a printer printed in one stretch of lines: the text that counts, all of it, and why the rest does not. */
type Piece = { text: string; all: string; line: number; whyNot: string };

type Rule = { at: string; during: readonly QuantityTest[]; unless: Pattern | undefined };

const asText = (printed: readonly Printed[]): string =>
  printed
    .map((p) => p.c)
    .join('')
    .trim();

function pieceOf(lines: readonly Line[], { at, during, unless }: Rule, evidence: Evidence): Piece {
  const { names } = evidence;
  const all = printedAt(lines, at);
  const first = lines[0]?.i ?? 1;
  const last = (of: readonly Printed[]): number => of[of.length - 1]?.line ?? first;
  const void_ = unless && lines.find((line) => matches(line, unless));
  if (void_) {
    const whyNot = `${lineText(names, void_)} at ${evidence.utc(void_)}`;
    return { text: '', all: asText(all), line: all.length > 0 ? void_.i : first, whyNot };
  }
  const stood = (line: Line): boolean => evidence.stoodAt(during, line);
  const kept = printedAt(
    lines.filter((line) => line.k === 'print' && stood(line)),
    at,
  );
  const astray = lines.find((line) => line.k === 'print' && line.at === at && !stood(line));
  const wrong = astray ? during.filter((test) => !evidence.stoodAt([test], astray)) : [];
  const how = wrong.map((test) => stoodAs(names, test.q, astray && evidence.valueAt(test.q, astray)?.v));
  return {
    text: asText(kept),
    all: asText(all),
    line: last(kept.length > 0 ? kept : all),
    whyNot: `with ${how.join(' and ')}`,
  };
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
  judge({ at, from, to, while: during = [], unless, like, letters = 0, figures = 0 }, evidence) {
    const spans = windows(evidence, from, to);
    if (spans.length === 0) return notExercised(`the moment never came: ${momentText(evidence.names, from ?? {})}`);
    const rule = { at, during: during as QuantityTest[], unless };
    const pieces = spans.map((lines) => pieceOf(lines, rule, evidence));
    const good = pieces.find(
      ({ text }) =>
        (like === undefined || fits(text, like)) &&
        count(text, /[A-Z]/g) >= letters &&
        count(text, /[0-9]/g) >= figures &&
        text !== '',
    );
    const told = good ?? pieces.findLast((p) => p.text) ?? pieces.findLast((p) => p.all) ?? pieces[pieces.length - 1];
    const { text, all, line, whyNot } = told as Piece;
    const lack = good ? '' : lacking(text, like, letters, figures);
    return {
      exercised: all !== '' || from !== undefined,
      go: good !== undefined,
      value: text
        ? `printed ${beginning(text)}${lack}`
        : all
          ? `printed ${beginning(all)}, but ${whyNot}: it does not count`
          : 'nothing was printed',
      because: [line],
    };
  },
});
