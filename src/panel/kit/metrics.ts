/**
 * Advance widths of B612 in twentieths of an em, from the registry package's latin subset (regular and bold are alike);
 * every B612 Mono glyph is 13/20. Order: ASCII 32 to 126.
 */
const SANS = [
  7, 7, 8, 17, 11, 18, 14, 4, 9, 9, 11, 12, 5, 9, 6, 11, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13, 6, 5, 13, 10, 13, 11,
  20, 13, 13, 12, 13, 12, 11, 13, 14, 6, 9, 12, 11, 18, 15, 16, 12, 16, 13, 11, 12, 14, 13, 19, 13, 12, 12, 9, 11, 10,
  15, 11, 11, 10.5, 12, 10, 12, 11, 8, 12, 12, 6, 6, 11, 7, 18, 12, 12, 12, 12, 8, 9, 8, 12, 11, 15, 11, 11, 10, 13, 4,
  12, 15,
];
const OTHER: Readonly<Record<string, number>> = {
  '°': 6,
  µ: 13,
  '−': 11,
  '–': 11,
  '·': 5,
  '…': 15,
  '\u2009': 4,
  é: 11,
};

/** Ascent, descent, capital and small-letter height over the baseline, in em. */
export const ASCENT = 0.965;
export const DESCENT = 0.266;
export const CAPITAL = 0.766;
export const SMALL = 0.563;
/** Advance of a mono glyph, in em. */
export const MONO = 0.65;

/** Width of a line of text in the unit of size. Unknown letters count as 0.65 em. */
export function textWidth(text: string, size: number, mono = false): number {
  if (mono) return [...text].length * MONO * size;
  let twentieths = 0;
  for (const c of text) twentieths += SANS[c.codePointAt(0)! - 32] ?? OTHER[c] ?? 13;
  return (twentieths / 20) * size;
}

/** Breaks text into lines no wider than width; a single longer word keeps its line. */
export function wrap(text: string, width: number, size: number, mono = false): string[] {
  const lines: string[] = [];
  let now = '';
  for (const word of text.split(' ')) {
    const longer = now ? `${now} ${word}` : word;
    if (now && textWidth(longer, size, mono) > width) {
      lines.push(now);
      now = word;
    } else now = longer;
  }
  return [...lines, now];
}

/** Text of at most so many characters: what is longer loses its last words to dots, or, all one word, its last letters. */
export function shortened(text: string, most: number): string {
  if (text.length <= most) return text;
  const end = text.lastIndexOf(' ', most - 2);
  return end > 0 ? `${text.slice(0, end)} …` : `${text.slice(0, most - 1)}…`;
}
