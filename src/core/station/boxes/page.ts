/** The page of a printer: carriage, paper, and what stands on it, overprinting included. */

/** A sheet under a carriage. `lines` are those on the page, oldest first; `column` counts from 0. */
export type Sheet = { lines: string[]; column: number; left: number };

/** Lines that a page shows. */
export const PAGE_lines = 60;
/** Places in a line; the carriage stands at the last until it is returned (72 is common practice; messages keep to 69). */
export const PLACES = 72;
/** What two different characters on one place look like. */
export const BLOT = '▓';

/** A sheet with so many lines of paper left. */
export const newSheet = (left: number): Sheet => ({ lines: [''], column: 0, left });

function over(old: string | undefined, char: string): string {
  if (old === undefined || old === ' ') return char;
  return char === ' ' || char === old ? old : BLOT;
}

/** Strike a character (a space moves only) where the carriage stands. Nothing marks a platen without paper. */
export function strike(sheet: Sheet, char: string): void {
  const { lines, column, left } = sheet;
  const old = (lines[lines.length - 1] ?? '').padEnd(column);
  if (left > 0) lines[lines.length - 1] = old.slice(0, column) + over(old[column], char) + old.slice(column + 1);
  sheet.column = Math.min(column + 1, PLACES - 1);
}

/** Turn the paper up one line. */
export function feedLine(sheet: Sheet): void {
  if (sheet.left === 0) return;
  sheet.left--;
  sheet.lines.push('');
  if (sheet.lines.length > PAGE_lines) sheet.lines.shift();
}

/** Tear the page off: what was printed goes with it. */
export function tearOff(sheet: Sheet): void {
  sheet.lines = [''];
}
