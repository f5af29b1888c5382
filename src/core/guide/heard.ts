/** Patterns over what is heard: `*` stands for any words of one utterance, `<name>` takes one word and remembers it. */
import { charFor } from '../telegraphy/alphabet.ts';

const isCall = (token: string): boolean => /^(?=.*\d)[A-Z0-9]{2,}$/.test(token);

/** Words as one line of tokens: spelling words become their letter or figure, call signs are spelled out. */
export function tokens(words: string): string {
  const each = words
    .toUpperCase()
    .split(/\s+/)
    .filter((w) => w !== '')
    .flatMap((w) => (isCall(w) ? Array.from(w) : [charFor(w) ?? w.replace(/[^A-Z0-9|.-]/g, '')]));
  return each.join(' ');
}

function compile(pattern: string): RegExp {
  const parts = pattern.split(/\s+/).filter((p) => p !== '');
  const source = parts.map((p) => {
    if (p === '*') return '(?:[^ |]+ )*?';
    const named = /^<([a-z]\w*)>$/i.exec(p);
    if (named) return `(?<${named[1]}>[A-Z0-9]+) `;
    return `${tokens(p).replace(/[.*+?^${}()|[\]\\]/g, '\\$&')} `;
  });
  return new RegExp(`(?<=^| )${source.join('')}`);
}

const compiled = new Map<string, RegExp>();

/** Find `pattern` in `words`; its named words, or undefined if it is not there. */
export function findWords(pattern: string, words: string): Record<string, string> | undefined {
  let re = compiled.get(pattern);
  if (!re) {
    re = compile(pattern);
    compiled.set(pattern, re);
  }
  const m = re.exec(`${tokens(words)} `);
  return m ? { ...m.groups } : undefined;
}
