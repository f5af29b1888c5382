/**
 * A text as printed against the text as it should be. Pieces from later transmissions may stand in for what was lost in
 * earlier ones, as a clerk would put them together; within one transmission nothing is forgiven.
 */
import type { Line } from '../record/record.ts';

/** A silence of the printer this long parts two transmissions. */
export const PIECE_GAP_US = 3_000_000;
/** Most cells of the comparison; earlier print is left out rather than run beyond them. */
const MAX_CELLS = 20_000_000;

/** A character as printed, with the record line that printed it (of a run of line ends and spaces, the first). */
export type Printed = { c: string; code: number; line: number; t: number; piece: number };

/** What a printer printed: line ends and spaces in a row are one space, and what prints nothing is left out. */
export function printedAt(lines: readonly Line[], at: string): Printed[] {
  const out: Printed[] = [];
  let piece = 0;
  let last_us = 0;
  for (const line of lines) {
    if (line.k !== 'print' || line.at !== at) continue;
    if (out.length > 0 && line.t - last_us > PIECE_GAP_US) piece++;
    last_us = line.t;
    for (const raw of line.c.toUpperCase()) {
      const c = /\s/.test(raw) ? ' ' : raw;
      const before = out[out.length - 1];
      if (c === ' ' && before?.c === ' ' && before.piece === piece) continue;
      out.push({ c, code: line.code, line: line.i, t: line.t, piece });
    }
  }
  return out;
}

/** A message's lines as one text in the same form. */
export const asOneText = (lines: readonly string[]): string =>
  lines.join(' ').toUpperCase().replace(/\s+/g, ' ').trim();

/** One fault of the copy: a wrong character, one that is missing, or one too many. `at` is the place in the text, from 0. */
export type Slip = { at: number; want: string; got: Printed | null };

/** The best reading of what was printed. `length` is that of the text; `from` and `to` bound the print used, or are null. */
export type Copy = { errors: number; length: number; slips: Slip[]; from: Printed | null; to: Printed | null };

// How a cell was reached: right or wrong character, one missing, one too many, from an earlier piece, or nothing read yet.
const DIAGONAL = 1;
const LOST = 2;
const EXTRA = 3;
const JUMP = 4;

/** Null columns are the beginnings of pieces, before their first character. */
const columnsOf = (printed: readonly Printed[]): (Printed | null)[] =>
  printed.flatMap((p, j) => (j === 0 || p.piece !== (printed[j - 1] as Printed).piece ? [null, p] : [p]));

type Grid = { columns: (Printed | null)[]; how: Uint8Array; jumps: Int32Array[]; errors: number; end: number };

function fillGrid(text: string, columns: (Printed | null)[]): Grid {
  const n = text.length;
  const how = new Uint8Array(columns.length * (n + 1));
  const jumps: Int32Array[] = [];
  // Least cost of place i in the columns so far, and the first column that has it.
  const best = Int32Array.from({ length: n + 1 }, (_, i) => i);
  const bestAt = new Int32Array(n + 1);
  let entry = best.slice();
  let cost = best.slice();
  for (const [j, one] of columns.entries()) {
    if (one === null) {
      entry = best.slice();
      jumps.push(bestAt.slice());
    }
    const next = new Int32Array(n + 1);
    for (let i = 1; i <= n; i++) {
      let least = entry[i] as number;
      let way = JUMP;
      if ((next[i - 1] as number) + 1 <= least) [least, way] = [(next[i - 1] as number) + 1, LOST];
      if (one !== null) {
        if ((cost[i] as number) + 1 <= least) [least, way] = [(cost[i] as number) + 1, EXTRA];
        const across = (cost[i - 1] as number) + (text[i - 1] === one.c ? 0 : 1);
        if (across <= least) [least, way] = [across, DIAGONAL];
      }
      next[i] = least;
      how[j * (n + 1) + i] = way;
    }
    for (let i = 0; i <= n; i++)
      if ((next[i] as number) < (best[i] as number)) [best[i], bestAt[i]] = [next[i] as number, j];
    cost = next;
  }
  return { columns, how, jumps, errors: best[n] as number, end: bestAt[n] as number };
}

/** The way back through a grid: slips and the print that was used. */
function trace(text: string, grid: Grid): Pick<Copy, 'slips' | 'from' | 'to'> {
  const { columns, how, jumps } = grid;
  const width = text.length + 1;
  const slips: Slip[] = [];
  let from: Printed | null = null;
  let to: Printed | null = null;
  let piece = columns.slice(0, grid.end + 1).filter((c) => c === null).length - 1;
  let j = grid.end;
  for (let i = text.length; i > 0; ) {
    const way = how[j * width + i];
    const one = columns[j] ?? null;
    if (way === JUMP) {
      j = (jumps[piece] as Int32Array)[i] as number;
      piece = columns.slice(0, j + 1).filter((c) => c === null).length - 1;
      continue;
    }
    if (way === LOST) slips.push({ at: --i, want: text[i] as string, got: null });
    else if (way === EXTRA) {
      slips.push({ at: i, want: '', got: one });
      j--;
    } else {
      i--;
      if (one?.c === text[i]) to ??= one;
      else slips.push({ at: i, want: text[i] as string, got: one });
      from = one;
      j--;
    }
  }
  return { slips: slips.reverse(), from, to };
}

/**
 * Compare by edit distance (Levenshtein 1965), free before and after what is used of each piece; a piece may take up
 * where an earlier one is left. With nothing printed every character is missing.
 */
export function compare(text: string, printed: readonly Printed[]): Copy {
  const n = text.length;
  const kept = printed.slice(Math.max(0, printed.length - Math.floor(MAX_CELLS / (n + 1))));
  if (kept.length === 0 || n === 0) {
    const slips = Array.from(text, (want, at) => ({ at, want, got: null }));
    return { errors: n, length: n, slips, from: null, to: null };
  }
  const grid = fillGrid(text, columnsOf(kept));
  return { errors: grid.errors, length: n, ...trace(text, grid) };
}
