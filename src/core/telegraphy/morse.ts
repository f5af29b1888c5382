/**
 * International Morse code, ITU-R M.1677-1: signs, spacing and speed. A procedure sign that is sent run together is written
 * in angle brackets, "<AR>"; between words stands a space.
 */

/** A movement of a key: down at `t_us`, or up. */
export interface KeyEdge {
  /** Whole microseconds. */
  readonly t_us: number;
  readonly down: boolean;
}

/** Signs of M.1677-1 §1.1 by character. */
export const MORSE: Readonly<Record<string, string>> = {
  A: '.-',
  B: '-...',
  C: '-.-.',
  D: '-..',
  E: '.',
  F: '..-.',
  G: '--.',
  H: '....',
  I: '..',
  J: '.---',
  K: '-.-',
  L: '.-..',
  M: '--',
  N: '-.',
  O: '---',
  P: '.--.',
  Q: '--.-',
  R: '.-.',
  S: '...',
  T: '-',
  U: '..-',
  V: '...-',
  W: '.--',
  X: '-..-',
  Y: '-.--',
  Z: '--..',
  É: '..-..',
  '1': '.----',
  '2': '..---',
  '3': '...--',
  '4': '....-',
  '5': '.....',
  '6': '-....',
  '7': '--...',
  '8': '---..',
  '9': '----.',
  '0': '-----',
  '.': '.-.-.-',
  ',': '--..--',
  ':': '---...',
  '?': '..--..',
  "'": '.----.',
  '-': '-....-',
  '/': '-..-.',
  '(': '-.--.',
  ')': '-.--.-',
  '"': '.-..-.',
  '=': '-...-',
  '+': '.-.-.',
  '@': '.--.-.',
};

/** Procedure signs of M.1677-1 §1.1.3 that no character shares, by the letters they are made of. */
export const PROCEDURE_SIGNS: Readonly<Record<string, string>> = {
  '<SN>': '...-.',
  '<AS>': '.-...',
  '<SK>': '...-.-',
  '<CT>': '-.-.-',
  '<ERR>': '........',
};

/** What stands for a sign that is in no table. */
export const UNREADABLE = '*';

/** Lengths in dots that M.1677-1 Part I §2 sets: dash, gap inside a character, between characters, between words. */
export const MORSE_SPACING = { dash: 3, element: 1, letter: 3, word: 7 } as const;

const CHARS: ReadonlyMap<string, string> = new Map(
  Object.entries(PROCEDURE_SIGNS)
    .concat(Object.entries(MORSE))
    .map(([char, sign]) => [sign, char]),
);

/** The character or bracketed procedure sign that dots and dashes stand for; "*" if none. */
export const morseChar = (sign: string): string => CHARS.get(sign) ?? UNREADABLE;

/** The dots and dashes of one character or of a bracketed sign (its letters run together), or null if there are none. */
export function morseSign(symbol: string): string | null {
  const upper = symbol.toUpperCase();
  const known = MORSE[upper] ?? PROCEDURE_SIGNS[upper];
  if (known !== undefined) return known;
  const letters = /^<([A-Z0-9]+)>$/.exec(upper)?.[1];
  return letters === undefined ? null : Array.from(letters, (letter) => MORSE[letter]).join('');
}

/** Length of a dot at a speed, microseconds, not rounded: 1200 ms divided by words a minute (PARIS, 50 dots a word). */
export function dot_us(wpm: number): number {
  if (!(wpm > 0 && Number.isFinite(wpm))) throw new RangeError(`speed must be above 0 words a minute, got ${wpm}`);
  return 1.2e6 / wpm;
}

/** A character that Morse does not have. */
export interface MorseError {
  readonly code: 'no-such-character';
  /** Index in the text, from 0. */
  readonly at: number;
  readonly char: string;
}

/** A text as signs by word: each word a list of dots and dashes. */
export interface MorseText {
  readonly words: readonly (readonly string[])[];
  readonly errors: readonly MorseError[];
}

/** Text to signs. Line ends count as spaces; a character Morse lacks is left out and listed. */
export function morseText(text: string): MorseText {
  const words: string[][] = [[]];
  const errors: MorseError[] = [];
  for (const match of text.matchAll(/<[A-Za-z0-9]+>|\s+|./gsu)) {
    const symbol = match[0];
    if (/^\s/.test(symbol)) {
      words.push([]);
      continue;
    }
    const sign = morseSign(symbol);
    if (sign === null) errors.push({ code: 'no-such-character', at: match.index, char: symbol });
    else words.at(-1)!.push(sign);
  }
  return { words: words.filter((word) => word.length > 0), errors };
}

const signUnits = (sign: string): number =>
  Array.from(sign).reduce((n, e) => n + (e === '.' ? 1 : MORSE_SPACING.dash), 0) + sign.length - 1;

/** Length of a text in dots, from the first key-down to the last key-up; a word gap after it would add 7. */
export function morseUnits(text: string): number {
  const { words } = morseText(text);
  const inWords = words.map(
    (word) => word.reduce((n, s) => n + signUnits(s), 0) + (word.length - 1) * MORSE_SPACING.letter,
  );
  return inWords.reduce((a, b) => a + b, 0) + Math.max(0, words.length - 1) * MORSE_SPACING.word;
}

/** How a sender spaces, in dots; the figures of M.1677-1 unless told. */
export type MorseSpacing = { readonly [K in keyof typeof MORSE_SPACING]?: number };

/** Key movements of a text that begins at `t0_us`, and the instant of its last key-up. */
export function morseEdges(
  text: string,
  t0_us: number,
  wpm: number,
  spacing: MorseSpacing = {},
): { readonly edges: readonly KeyEdge[]; readonly end_us: number } {
  const { dash, element, letter, word } = { ...MORSE_SPACING, ...spacing };
  const dot = dot_us(wpm);
  const edges: KeyEdge[] = [];
  let at = 0;
  let end = 0;
  for (const signs of morseText(text).words) {
    for (const sign of signs) {
      for (const mark of sign) {
        edges.push({ t_us: t0_us + Math.round(at * dot), down: true });
        end = at + (mark === '.' ? 1 : dash);
        edges.push({ t_us: t0_us + Math.round(end * dot), down: false });
        at = end + element;
      }
      at = end + letter;
    }
    at = end + word;
  }
  return { edges, end_us: t0_us + Math.round(end * dot) };
}
