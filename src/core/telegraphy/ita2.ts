/**
 * International Telegraph Alphabet No. 2 (ITU-T S.1): 32 codes of five units, two cases.
 * A code is a number 0..31; unit 1 is its low-order bit and goes to line first; 1 is mark (condition Z, hole in tape).
 */

/** Which of the two meanings a printing code has. */
export type Case = 'letters' | 'figures';
/** Figures case in force: the international one, or the variant common in the United States. */
export type FiguresSet = 'ITA2' | 'US';

/** Carriage return (No. 27). */
export const CR = 0x08;
/** Line feed (No. 28). */
export const LF = 0x02;
/** Letters shift (No. 29); all five holes, so it also rubs out. */
export const LTRS = 0x1f;
/** Figures shift (No. 30). */
export const FIGS = 0x1b;
/** Word space (No. 31). */
export const SPACE = 0x04;
/** Blank (No. 32): all space; prints and moves nothing. */
export const BLANK = 0x00;
/** "Who are you?" in ITA2 figures case: calls the far answer-back. */
export const WRU_CODE = 0x09;

/** How "who are you?" stands in text: the IA5 enquiry character. */
export const WRU = '\u0005';
/** How the bell stands in text: the IA5 bell character. */
export const BELL = '\u0007';

// One row a code in the order of S.1, Nos. 1 to 26: letter, code, figures in ITA2, figures in the US variant.
// F, G, H figures are left to each administration by S.1, so ITA2 has none here. US tables differ on H; # is the commoner.
const ROWS: readonly (readonly [string, number, string | null, string])[] = [
  ['A', 0x03, '-', '-'],
  ['B', 0x19, '?', '?'],
  ['C', 0x0e, ':', ':'],
  ['D', 0x09, WRU, '$'],
  ['E', 0x01, '3', '3'],
  ['F', 0x0d, null, '!'],
  ['G', 0x1a, null, '&'],
  ['H', 0x14, null, '#'],
  ['I', 0x06, '8', '8'],
  ['J', 0x0b, BELL, "'"],
  ['K', 0x0f, '(', '('],
  ['L', 0x12, ')', ')'],
  ['M', 0x1c, '.', '.'],
  ['N', 0x0c, ',', ','],
  ['O', 0x18, '9', '9'],
  ['P', 0x16, '0', '0'],
  ['Q', 0x17, '1', '1'],
  ['R', 0x0a, '4', '4'],
  ['S', 0x05, "'", BELL],
  ['T', 0x10, '5', '5'],
  ['U', 0x07, '7', '7'],
  ['V', 0x1e, '=', ';'],
  ['W', 0x13, '2', '2'],
  ['X', 0x1d, '/', '/'],
  ['Y', 0x15, '6', '6'],
  ['Z', 0x11, '+', '"'],
];

type Faces = readonly (string | null)[];

function faces(column: 0 | 2 | 3): Faces {
  const table: (string | null)[] = new Array(32).fill(null);
  for (const row of ROWS) table[row[1]] = row[column];
  table[CR] = '\r';
  table[LF] = '\n';
  table[SPACE] = ' ';
  return table;
}

const LETTERS = faces(0);
const FIGURES: Record<FiguresSet, Faces> = { ITA2: faces(2), US: faces(3) };
const NAMES: Readonly<Record<number, string>> = {
  [CR]: 'CR',
  [LF]: 'LF',
  [LTRS]: 'LTRS',
  [FIGS]: 'FIGS',
  [SPACE]: 'SPACE',
  [BLANK]: 'BLANK',
};

const facesOf = (case_: Case, figures: FiguresSet): Faces => (case_ === 'letters' ? LETTERS : FIGURES[figures]);

function checkCode(code: number): void {
  if (!Number.isInteger(code) || code < 0 || code > 31) throw new RangeError(`a five-unit code is 0..31, got ${code}`);
}

/** True for the codes that act alike in either case: CR, LF, LTRS, FIGS, SPACE, BLANK. */
export const isFunction = (code: number): boolean => code in NAMES;

/** The five units of a code in the order sent, true for mark. Throws RangeError outside 0..31. */
export function unitsOf(code: number): readonly [boolean, boolean, boolean, boolean, boolean] {
  checkCode(code);
  return [(code & 1) !== 0, (code & 2) !== 0, (code & 4) !== 0, (code & 8) !== 0, (code & 16) !== 0];
}

/** What a code prints in a case: one character (CR, LF, space, bell, WRU included) or null when it prints nothing. */
export function faceOf(code: number, case_: Case, figures: FiguresSet = 'ITA2'): string | null {
  checkCode(code);
  return facesOf(case_, figures)[code] ?? null;
}

/** Word for a code on a display: its function name, else its character, WRU, BELL, or "–" where the alphabet has none. */
export function nameOf(code: number, case_: Case, figures: FiguresSet = 'ITA2'): string {
  checkCode(code);
  const face = faceOf(code, case_, figures);
  if (face === WRU) return 'WRU';
  if (face === BELL) return 'BELL';
  return NAMES[code] ?? face ?? '–';
}

/** The code that prints a character in a case, or null if that case has no such character. Letters of either height. */
export function codeOf(char: string, case_: Case, figures: FiguresSet = 'ITA2'): number | null {
  const code = facesOf(case_, figures).indexOf(char.toUpperCase());
  return code < 0 || char === '' ? null : code;
}

/** Settings of both directions. */
export interface Ita2Options {
  /** Figures case in force; ITA2 unless told. */
  readonly figures?: FiguresSet;
  /** The machines return to letters at each space (a machine option, not part of S.1); false unless told. */
  readonly unshiftOnSpace?: boolean;
  /** Codes sent for a line feed character in text; CR LF unless told. */
  readonly lineEnd?: readonly number[];
}

/** Memory of a sending or printing machine. Null: the case is not known, so the next printing character needs a shift. */
export interface CaseState {
  readonly case: Case | null;
}

/** A character that the alphabet does not have. */
export interface Ita2Error {
  readonly code: 'no-such-character';
  /** Index of the character in the text, from 0. */
  readonly at: number;
  readonly char: string;
}

/** Result of encoding a text. */
export interface Encoded {
  readonly codes: readonly number[];
  readonly errors: readonly Ita2Error[];
  readonly state: CaseState;
}

function shiftFor(char: string, now: Case | null, figures: FiguresSet): { case: Case; code: number } | null {
  const order: readonly Case[] = now === 'figures' ? ['figures', 'letters'] : ['letters', 'figures'];
  for (const c of order) {
    const code = codeOf(char, c, figures);
    if (code !== null) return { case: c, code };
  }
  return null;
}

/**
 * Text to codes, with LTRS and FIGS put in where the case changes and CR LF for each "\n" ("\r\n" counts once, "\r" alone
 * is CR). A character the alphabet lacks is left out and listed. The state tells the case the machine is left in.
 */
export function encode(text: string, options: Ita2Options = {}, state: CaseState = { case: null }): Encoded {
  const { figures = 'ITA2', unshiftOnSpace = false, lineEnd = [CR, LF] } = options;
  const codes: number[] = [];
  const errors: Ita2Error[] = [];
  let now = state.case;
  const chars = Array.from(text);
  for (const [at, char] of chars.entries()) {
    if (char === '\r') {
      if (chars[at + 1] !== '\n') codes.push(CR);
    } else if (char === '\n') {
      codes.push(...lineEnd);
    } else if (char === ' ') {
      codes.push(SPACE);
      if (unshiftOnSpace) now = 'letters';
    } else {
      const found = shiftFor(char, now, figures);
      if (found === null) {
        errors.push({ code: 'no-such-character', at, char });
        continue;
      }
      if (found.case !== now) codes.push(found.case === 'letters' ? LTRS : FIGS);
      now = found.case;
      codes.push(found.code);
    }
  }
  return { codes, errors, state: { case: now } };
}

/** What one received code does to a printer: the character it prints (or null) and the case it leaves. */
export function printCode(
  code: number,
  state: CaseState,
  options: Ita2Options = {},
): { readonly char: string | null; readonly state: CaseState } {
  if (code === LTRS) return { char: null, state: { case: 'letters' } };
  if (code === FIGS) return { char: null, state: { case: 'figures' } };
  const char = faceOf(code, state.case ?? 'letters', options.figures ?? 'ITA2');
  const unshift = code === SPACE && options.unshiftOnSpace === true;
  return { char, state: unshift ? { case: 'letters' } : state };
}

/** Codes to text with the memory of case; an unknown case prints letters. CR, LF, bell and WRU stay in the text. */
export function decode(
  codes: readonly number[],
  options: Ita2Options = {},
  state: CaseState = { case: null },
): { readonly text: string; readonly state: CaseState } {
  let text = '';
  for (const code of codes) {
    const step = printCode(code, state, options);
    text += step.char ?? '';
    state = step.state;
  }
  return { text, state };
}
