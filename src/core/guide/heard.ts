/** Patterns over what is heard: `*` stands for any words of one utterance, `<name>` takes one word and remembers it. */
import { isHeardName } from '../procedure/heard-pattern.ts';
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

/** A pattern as a program: names by the number of their group. */
type Compiled = { re: RegExp; names: readonly string[] };

function compile(pattern: string): Compiled {
  const names: string[] = [];
  const parts = pattern.split(/\s+/).filter((p, i, all) => p !== '' && !(p === '*' && all[i - 1] === '*'));
  const source = parts.map((p) => {
    if (p === '*') return '(?:[^ |]+ )*?';
    if (!isHeardName(p)) return `${tokens(p).replace(/[.*+?^${}()|[\]\\]/g, '\\$&')} `;
    // A name that comes again stands for the same word again.
    const before = names.indexOf(p.slice(1, -1));
    if (before >= 0) return `(?:\\${before + 1}) `;
    names.push(p.slice(1, -1));
    return '([A-Z0-9]+) ';
  });
  return { re: new RegExp(`(?<=^| )${source.join('')}`), names };
}

const compiled = new Map<string, Compiled>();

/** Find `pattern` in `words`; its named words, or undefined if it is not there. */
export function findWords(pattern: string, words: string): Record<string, string> | undefined {
  let program = compiled.get(pattern);
  if (!program) {
    program = compile(pattern);
    compiled.set(pattern, program);
  }
  const m = program.re.exec(`${tokens(words)} `);
  return m ? Object.fromEntries(program.names.map((name, i) => [name, m[i + 1] as string])) : undefined;
}
