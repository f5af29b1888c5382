/** The words of a pattern over what is heard: `*`, `<name>`, or a word to be heard. One reading for those who check and those who listen. */

const NAME = /^<[A-Za-z][\w-]*>$/;

/** Is it `<name>`, which takes one word and remembers it? */
export const isHeardName = (word: string): boolean => NAME.test(word);

/** What was expected of one word of a pattern, a text without spaces; undefined when it is right. */
export function wordFault(word: string): string | undefined {
  if (word === '*' || word === '|' || isHeardName(word)) return undefined;
  if (/[<>]/.test(word)) return 'a <name> of letters, digits, - and _, beginning with a letter, with spaces around';
  return /[A-Za-z0-9{]/.test(word) ? undefined : 'a word of letters or figures, * or <name>';
}
