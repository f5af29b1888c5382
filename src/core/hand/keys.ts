/** Text as keys of the printer's keyboard: one key a code, shifts put in where the case changes. */
import { encode, nameOf } from '../telegraphy/ita2.ts';

/** A practised typist's gap between keys; longer than one character at 50 Bd, so the keyboard is never still locked. */
export const KEY_GAP_MS = 180;

/** The keys that print `text`, beginning with a case shift. Throws RangeError for characters that ITA2 lacks. */
export function keysFor(text: string): string[] {
  const { codes, errors } = encode(text);
  const [bad] = errors;
  if (bad) throw new RangeError(`no key for ${JSON.stringify(bad.char)} in ${JSON.stringify(text)}`);
  return codes.map((code) => nameOf(code, 'letters'));
}
