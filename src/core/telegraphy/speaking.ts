/** Words as they are said over radio: how many a text makes, and how long each takes. */
import { spell } from './alphabet.ts';

/** One spoken word, or one spelled letter or figure, takes this long, us (common practice: about 150 words a minute, clear and slow). */
export const WORD_US = 400_000;

// A call sign has a letter and a figure (Radio Regulations, Article 19), and here 3 to 8 of both together.
const CALL = /^(?=.*\d)(?=.*[A-Z])[A-Z0-9]{3,8}$/;

/** Has a word, in capitals, the shape of a call sign? */
export const isCallSign = (word: string): boolean => CALL.test(word);

/** The words of a text as they are said, in capitals: a call sign letter by letter, and nothing that has no letter or figure in it. */
export function spokenWords(text: string): string[] {
  const words = text.toUpperCase().split(/\s+/);
  return words
    .filter((w) => /[A-Z0-9]/.test(w))
    .flatMap((w) => {
      const bare = w.replace(/[.,;:!?]+$/, '');
      return isCallSign(bare) ? spell(bare) : [w];
    });
}
