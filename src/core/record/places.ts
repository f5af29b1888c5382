/** Where things stand in a text, and errors that show it. */

/** Where and what is wrong with a text: `source` is its line, `caret` a line with `^` under the column. */
export type Located = {
  code: string;
  file: string;
  /** From 1. */
  line: number;
  /** From 1. */
  col: number;
  source: string;
  caret: string;
  /** What was expected, in words. */
  expected: string;
};

/** Longest piece of a source line shown in an error. */
const SHOWN = 160;

/** A text with its line starts. */
export class Places {
  private readonly starts: number[] = [0];
  constructor(
    readonly text: string,
    readonly file: string,
  ) {
    for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) this.starts.push(i + 1);
  }

  private lineOf(offset: number): number {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((this.starts[middle] as number) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** An error at a character of the text (clamped into it). A long line is shown in part, with the column true. */
  error(code: string, offset: number, expected: string): Located {
    const at = Math.max(0, Math.min(offset, this.text.length));
    const line = this.lineOf(at);
    const start = this.starts[line] as number;
    const whole = this.text.slice(start, this.starts[line + 1] ?? this.text.length).replace(/[\r\n]+$/, '');
    const col = at - start;
    const from = whole.length > SHOWN && col > SHOWN / 2 ? col - SHOWN / 2 : 0;
    // A file that is no text must not speak to a terminal.
    const source = whole.slice(from, from + SHOWN).replace(/[^\t\P{Cc}]/gu, '\u00b7');
    const caret = `${source.slice(0, col - from).replace(/[^\t]/g, ' ')}^`;
    return { code, file: this.file, line: line + 1, col: col + 1, source, caret, expected };
  }
}

/** Errors as text for a terminal: place, code, what was expected, the line and its caret. */
export function showErrors(errors: readonly Located[]): string {
  return errors
    .map((e) => `${e.file}:${e.line}:${e.col}: ${e.code} ${e.expected}\n  ${e.source}\n  ${e.caret}`)
    .join('\n');
}

function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const swap = (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] as number) + 1, (next[j - 1] as number) + 1));
    }
    row = next;
  }
  return row[b.length] as number;
}

/** The known word nearest to `word` in edits (the earlier one of equals), or undefined when none is near. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  const short = word.slice(0, 64);
  let best: string | undefined;
  let least = Math.max(2, Math.floor(short.length / 2)) + 1;
  for (const one of known) {
    const d = distance(short.toLowerCase(), one.toLowerCase());
    if (d < least) [best, least] = [one, d];
  }
  return best;
}

/** `; did you mean "x"?`, or nothing when no known word is near. */
export function meant(word: string, known: Iterable<string>): string {
  const near = nearest(word, known);
  return near === undefined ? '' : `; did you mean "${near}"?`;
}
