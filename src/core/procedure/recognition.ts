/**
 * Recognition by challenge and reply: a card valid for a time, a challenge of a row and a column, the reply from their cell.
 * The method (random challenge, reply within a limit, a second and last challenge, both ways) is common practice; ours is the card.
 */
import { charFor } from '../telegraphy/alphabet.ts';

/** A card: `cells[row][column]` holds the reply. */
export type RecognitionCard = { rows: string; columns: string; cells: readonly (readonly string[])[] };
/** A challenge: one letter each. */
export type Challenge = { row: string; column: string };

/** A letter as it was said or spelled: "KILO" and "K" are K. */
const letter = (word: string): string => charFor(word) ?? word.toUpperCase();

/** The reply to a challenge (letters, or their spelling words), or null when the card has no such row or column. */
export function replyFor(card: RecognitionCard | null, row: string, column: string): string | null {
  if (!card) return null;
  // By letter, not by indexOf: that finds '' and 'AB' in 'ABC' too.
  const r = Array.from(card.rows).indexOf(letter(row));
  const c = Array.from(card.columns).indexOf(letter(column));
  return card.cells[r]?.[c] ?? null;
}

/** A challenge by two throws: `die(n)` gives a whole number from 0 to n - 1. Throws RangeError for a card without cells. */
export function challengeFrom(card: RecognitionCard | null, die: (n: number) => number): Challenge {
  if (!card || card.rows === '' || card.columns === '')
    throw new RangeError('a challenge needs a card with rows and columns');
  return { row: card.rows[die(card.rows.length)] as string, column: card.columns[die(card.columns.length)] as string };
}
