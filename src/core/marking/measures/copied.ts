/** A message as it was printed. */
import { number, text } from '../../record/shape.ts';
import { asOneText, compare, printedAt } from '../copy.ts';
import { measure, notExercised } from '../measure.ts';

/** What a printer (`own` or a distant call sign) printed of a message has at most so many per cent of its characters wrong. */
export const copied = measure({
  id: 'copied',
  about: 'A message is printed with at most so many characters wrong.',
  entries: { at: text(8), message: text(10), percent: number(0, 100) },
  judge({ at, message, percent }, evidence) {
    const lines = evidence.sheet.papers.messages.find((m) => m.id === message)?.lines;
    if (!lines) throw new RangeError(`no message ${message} in the papers`);
    const printed = printedAt(evidence.lines, at);
    if (printed.length === 0) return notExercised('nothing was printed there');
    const copy = compare(asOneText(lines), printed);
    const wrong = copy.slips.flatMap((slip) => slip.got?.line ?? []);
    // When nothing of the print could be used, the first of it stands for all.
    const ends = copy.to && copy.from ? [copy.to.line, copy.from.line] : printed.slice(0, 1).map((p) => p.line);
    return {
      exercised: true,
      go: copy.errors * 100 <= percent * copy.length,
      value:
        copy.errors === 0
          ? `none of ${copy.length} characters wrong`
          : `${copy.errors} of ${copy.length} characters wrong (${((100 * copy.errors) / copy.length).toFixed(1)} %)`,
      because: [...wrong, ...ends].slice(0, 20),
    };
  },
});
