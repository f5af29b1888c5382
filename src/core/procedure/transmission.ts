/**
 * The grammar of a voice transmission: called station, THIS IS, calling station, what is said, one ending. Order of elements
 * and meaning of prowords follow ACP 125 (from memory), the spelling alphabet ITU Radio Regulations Appendix 14.
 */
import { charFor } from '../telegraphy/alphabet.ts';

/** What a transmission wants. */
export type Intent =
  | { kind: 'challenge'; row: string; column: string }
  | { kind: 'reply'; reply: string }
  | { kind: 'offer'; precedence: string; by: 'teleprinter' | 'voice' | 'morse' }
  | { kind: 'send' }
  | { kind: 'say-again' }
  | { kind: 'roger' }
  | { kind: 'wait' }
  | { kind: 'radio-check' };

/** What is wrong with its form. */
export type FormFault = 'no-called-station' | 'no-calling-station' | 'own-call-first' | 'no-ending' | 'over-and-out';

/** A transmission taken apart. */
export type Transmission = {
  /** Called and calling station, as far as they were said. */
  to: string | null;
  from: string | null;
  intents: Intent[];
  ending: 'OVER' | 'OUT' | 'both' | 'none';
  faults: FormFault[];
};

/** Most characters that a call sign has (Radio Regulations, Article 19, allows up to seven for most). */
const LONGEST_CALL = 7;
const PRECEDENCES = ['FLASH', 'IMMEDIATE', 'PRIORITY', 'ROUTINE'];

/** After these the single letter I is the speaker, not a letter spelled. */
const SPEAKER = '~I';
const VERBS = ['AUTHENTICATE', 'HAVE', 'SAY', 'SPELL', 'READ', 'VERIFY', 'AM', 'WILL'];

/** Words as tokens: spelling words become their letter or figure, written call signs are spelled out. */
function tokensOf(words: string): string[] {
  const all = words
    .toUpperCase()
    .split(/\s+/)
    .filter((w) => w !== '');
  return all.flatMap((w, i) => {
    if (w === 'I' && VERBS.includes(all[i + 1] ?? '')) return [SPEAKER];
    return /^(?=.*\d)(?=.*[A-Z])[A-Z0-9]+$/.test(w) ? Array.from(w) : [charFor(w) ?? w];
  });
}

/** A call sign that ends (going back) or begins (going on) at a token: single characters with a figure among them. */
function callAt(tokens: readonly string[], from: number, step: 1 | -1): string | null {
  let call = '';
  for (
    let i = from;
    i >= 0 && i < tokens.length && call.length < LONGEST_CALL && /^[A-Z0-9]$/.test(tokens[i] as string);
    i += step
  ) {
    call = step > 0 ? call + tokens[i] : tokens[i] + call;
  }
  // A lone figure or letter is not a call sign, and a reply of letters has no figure.
  return /^[A-Z]{1,3}\d[A-Z0-9]*$/.test(call) ? call : null;
}

function find(tokens: readonly string[], ...phrase: string[]): number {
  return tokens.findIndex((_, i) => phrase.every((word, n) => tokens[i + n] === word));
}

const single = (token: string | undefined): token is string => token !== undefined && /^[A-Z0-9]$/.test(token);

function intentsOf(t: readonly string[]): Intent[] {
  const intents: Intent[] = [];
  const auth = t.indexOf('AUTHENTICATE');
  const [a, b] = [t[auth + 1], t[auth + 2]];
  if (auth >= 0 && t[auth - 1] === SPEAKER)
    intents.push({ kind: 'reply', reply: (single(a) ? a : '') + (single(b) ? b : '') });
  else if (auth >= 0 && single(a) && single(b)) intents.push({ kind: 'challenge', row: a, column: b });
  const precedence = t.find((w) => PRECEDENCES.includes(w));
  if (find(t, SPEAKER, 'HAVE') >= 0 && precedence) {
    const by = t.includes('TELEPRINTER') ? 'teleprinter' : t.includes('MORSE') ? 'morse' : 'voice';
    intents.push({ kind: 'offer', precedence, by });
  }
  if (find(t, 'SAY', 'AGAIN') >= 0 && find(t, SPEAKER, 'SAY', 'AGAIN') < 0) intents.push({ kind: 'say-again' });
  if (find(t, 'RADIO', 'CHECK') >= 0) intents.push({ kind: 'radio-check' });
  if (t.includes('ROGER')) intents.push({ kind: 'roger' });
  if (t.includes('WAIT')) intents.push({ kind: 'wait' });
  if (t.includes('SEND')) intents.push({ kind: 'send' });
  return intents;
}

function endingOf(t: readonly string[]): Transmission['ending'] {
  const tail = t.slice(-3);
  if (tail.includes('OVER') && tail.includes('OUT')) return 'both';
  const last = t[t.length - 1];
  return last === 'OVER' || last === 'OUT' ? last : 'none';
}

/**
 * Take a transmission apart. `me` is the listener: a call in which the listener's sign stands after THIS IS and another
 * before it was made own sign first.
 */
export function parseTransmission(words: string, me?: string): Transmission {
  const t = tokensOf(words);
  const at = find(t, 'THIS', 'IS');
  const to = at > 0 ? callAt(t, at - 1, -1) : null;
  const from = at >= 0 ? callAt(t, at + 2, 1) : null;
  const ending = endingOf(t);
  const faults: FormFault[] = [];
  if (to === null) faults.push('no-called-station');
  if (from === null) faults.push('no-calling-station');
  if (me !== undefined && from === me && to !== me) faults.push('own-call-first');
  if (ending === 'none') faults.push('no-ending');
  if (ending === 'both') faults.push('over-and-out');
  return { to, from, intents: intentsOf(t), ending, faults };
}

/** Is a station's call sign among the words, spelled or written? */
export function mentions(words: string, call: string): boolean {
  return ` ${tokensOf(words).join(' ')} `.includes(` ${Array.from(call).join(' ')} `);
}
