/** The spelling alphabet of ITU Radio Regulations Appendix 14 (the same words in ICAO Annex 10), and the words for figures. */

/** Spelling words by letter. */
export const LETTER_WORDS: Readonly<Record<string, string>> = {
  A: 'ALFA',
  B: 'BRAVO',
  C: 'CHARLIE',
  D: 'DELTA',
  E: 'ECHO',
  F: 'FOXTROT',
  G: 'GOLF',
  H: 'HOTEL',
  I: 'INDIA',
  J: 'JULIETT',
  K: 'KILO',
  L: 'LIMA',
  M: 'MIKE',
  N: 'NOVEMBER',
  O: 'OSCAR',
  P: 'PAPA',
  Q: 'QUEBEC',
  R: 'ROMEO',
  S: 'SIERRA',
  T: 'TANGO',
  U: 'UNIFORM',
  V: 'VICTOR',
  W: 'WHISKEY',
  X: 'X-RAY',
  Y: 'YANKEE',
  Z: 'ZULU',
};

/** How the words for figures are chosen: the plain English ones, as they sound on the air (ICAO), or the ITU code words. */
export type FigureWords = 'plain' | 'sound' | 'ITU';

/** Words for figures 0 to 9 by set. Sounds: ICAO Annex 10. Code words: RR Appendix 14. */
export const FIGURE_WORDS: Readonly<Record<FigureWords, readonly string[]>> = {
  plain: ['ZERO', 'ONE', 'TWO', 'THREE', 'FOUR', 'FIVE', 'SIX', 'SEVEN', 'EIGHT', 'NINE'],
  sound: ['ZE-RO', 'WUN', 'TOO', 'TREE', 'FOW-ER', 'FIFE', 'SIX', 'SEV-EN', 'AIT', 'NIN-ER'],
  ITU: [
    'NADAZERO',
    'UNAONE',
    'BISSOTWO',
    'TERRATHREE',
    'KARTEFOUR',
    'PANTAFIVE',
    'SOXISIX',
    'SETTESEVEN',
    'OKTOEIGHT',
    'NOVENINE',
  ],
};

// Spellings that writers use for the same word, without the hyphen.
const ALSO: Readonly<Record<string, string>> = {
  ALPHA: 'A',
  JULIET: 'J',
  WHISKY: 'W',
  TOO: '2',
  FOWER: '4',
  NINER: '9',
};

const bare = (word: string): string => word.toUpperCase().replace(/[^A-Z0-9]/g, '');

function listen(): ReadonlyMap<string, string> {
  const heard = new Map<string, string>(Object.entries(ALSO));
  for (const [letter, word] of Object.entries(LETTER_WORDS)) heard.set(bare(word), letter);
  for (const words of Object.values(FIGURE_WORDS))
    for (const [n, word] of words.entries()) heard.set(bare(word), String(n));
  return heard;
}

const HEARD = listen();

/** The word for one letter or figure, or null if it has none. */
export function wordFor(char: string, figures: FigureWords = 'plain'): string | null {
  const upper = char.toUpperCase();
  if (/^[0-9]$/.test(upper)) return FIGURE_WORDS[figures][Number(upper)]!;
  return LETTER_WORDS[upper] ?? null;
}

/** The letter or figure a word stands for, or null; ALFA or ALPHA, JULIETT or JULIET, with or without hyphens, any set of figures. */
export const charFor = (word: string): string | null => HEARD.get(bare(word)) ?? null;

/** Spells letters and figures one word each: "QV4M" is QUEBEC VICTOR FOUR MIKE. Anything else is passed over. */
export const spell = (text: string, figures: FigureWords = 'plain'): string[] =>
  Array.from(text).flatMap((char) => wordFor(char, figures) ?? []);

/** The text that words spell, or null if one of them is not a spelling word. */
export function unspell(words: readonly string[]): string | null {
  const chars = words.map(charFor);
  return chars.includes(null) ? null : chars.join('');
}
