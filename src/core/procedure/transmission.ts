/**
 * The grammar of a voice transmission: called station, THIS IS, calling station, what is said, one ending. Order of elements
 * and meaning of prowords follow ACP 125 (from memory), the spelling alphabet ITU Radio Regulations Appendix 14.
 */
import { type CallRead, readCalls, tokensOf } from './calls.ts';
import { PROWORDS } from './prowords.ts';

/** What a transmission wants. */
export type Intent =
  | { kind: 'challenge'; row: string; column: string }
  | { kind: 'reply'; reply: string }
  | { kind: 'offer'; precedence: Precedence; count: number; by: 'teleprinter' | 'voice' | 'morse' }
  | { kind: 'send' }
  | { kind: 'say-again' }
  | { kind: 'roger' }
  | { kind: 'wait' }
  | { kind: 'radio-check' };

/** Order of handling, most urgent first. */
export type Precedence = 'FLASH' | 'IMMEDIATE' | 'PRIORITY' | 'ROUTINE';
const PRECEDENCES: readonly Precedence[] = ['FLASH', 'IMMEDIATE', 'PRIORITY', 'ROUTINE'];

/** What can be wrong with the form, in words. */
export const FORM_FAULTS = {
  'no-called-station': 'the called station was not named',
  'no-calling-station': 'the calling station did not name itself',
  'no-this-is': 'THIS IS is missing between the call signs',
  'own-call-first': 'the own call sign came first; the called station comes first',
  'no-ending': 'neither OVER nor OUT at the end',
  'over-and-out': 'OVER and OUT together; one of them ends a transmission',
  'ended-twice': 'OVER or OUT before the end',
  'roger-and-wilco': 'ROGER and WILCO together; WILCO says both',
  'challenge-unclear': 'AUTHENTICATE without a row and a column',
  unreadable: 'words were lost on the way',
} as const;
/** What is wrong with its form. */
export type FormFault = keyof typeof FORM_FAULTS;

/** A transmission taken apart. */
export type Transmission = {
  /** Called and calling station, as far as they were said. */
  to: string | null;
  from: string | null;
  order: CallRead['order'];
  /** Prowords in the order said. */
  prowords: string[];
  intents: Intent[];
  ending: 'OVER' | 'OUT' | 'both' | 'none';
  faults: FormFault[];
};

function find(tokens: readonly string[], ...phrase: string[]): number {
  return tokens.findIndex((_, i) => phrase.every((word, n) => tokens[i + n] === word));
}

const single = (token: string | undefined): token is string => token !== undefined && /^[A-Z0-9]$/.test(token);

// "ALFA BRAVO", "A B" or "AB".
function letters(t: readonly string[], from: number): string {
  let out = '';
  for (let i = from; single(t[i]); i++) out += t[i];
  return out === '' && /^[A-Z0-9]{2}$/.test(t[from] ?? '') ? (t[from] as string) : out;
}

const COUNTS: Readonly<Record<string, number>> = { A: 1, AN: 1, SEVERAL: 2 };

function offerOf(t: readonly string[]): Intent | null {
  const at = t.findIndex((w) => (PRECEDENCES as readonly string[]).includes(w));
  const means = t.includes('TELEPRINTER') ? 'teleprinter' : t.includes('MORSE') ? 'morse' : 'voice';
  if (at < 0 || (find(t, '~I', 'HAVE') < 0 && !t.includes('MESSAGE') && means === 'voice')) return null;
  const said = t[at - 1] ?? '';
  const count = /^\d$/.test(said) ? Number(said) : (COUNTS[said] ?? 1);
  return { kind: 'offer', precedence: t[at] as Precedence, count, by: means };
}

function recognition(t: readonly string[]): Intent[] {
  return t.flatMap((w, i): Intent[] => {
    if (w !== 'AUTHENTICATE') return [];
    const said = letters(t, i + 1);
    if (t[i - 1] === '~I') return [{ kind: 'reply', reply: said }];
    return said.length === 2 ? [{ kind: 'challenge', row: said[0] as string, column: said[1] as string }] : [];
  });
}

function intentsOf(t: readonly string[]): Intent[] {
  const intents = recognition(t);
  const offer = offerOf(t);
  if (offer) intents.push(offer);
  if (find(t, 'SAY', 'AGAIN') >= 0 && find(t, '~I', 'SAY', 'AGAIN') < 0) intents.push({ kind: 'say-again' });
  if (find(t, 'RADIO', 'CHECK') >= 0) intents.push({ kind: 'radio-check' });
  if (t.includes('ROGER') || t.includes('WILCO')) intents.push({ kind: 'roger' });
  if (t.includes('WAIT')) intents.push({ kind: 'wait' });
  if (t.includes('SEND')) intents.push({ kind: 'send' });
  return intents;
}

function prowordsIn(t: readonly string[]): string[] {
  const out: string[] = [];
  for (let i = 0; i < t.length; ) {
    const found = PROWORDS.map((p) => p.words.split(' ')).find((words) =>
      words.every((w, n) => t[i + n] === w || (n === 0 && w === 'I' && t[i] === '~I')),
    );
    if (found) out.push(found.join(' '));
    i += found?.length ?? 1;
  }
  return out;
}

function endingOf(t: readonly string[]): Transmission['ending'] {
  const tail = t.slice(-3);
  if (tail.includes('OVER') && tail.includes('OUT')) return 'both';
  const last = t[t.length - 1];
  return last === 'OVER' || last === 'OUT' ? last : 'none';
}

function formFaults(t: readonly string[], read: CallRead, ending: Transmission['ending']): FormFault[] {
  const faults: FormFault[] = [];
  if (read.to === null) faults.push('no-called-station');
  if (read.from === null) faults.push('no-calling-station');
  if (read.order === 'missing' && read.to !== null && read.from !== null) faults.push('no-this-is');
  if (read.order === 'own-first') faults.push('own-call-first');
  if (ending === 'none') faults.push('no-ending');
  if (ending === 'both') faults.push('over-and-out');
  const ends = t.slice(0, -1).filter((w) => w === 'OVER' || w === 'OUT').length;
  if (ends > 0 && ending !== 'both') faults.push('ended-twice');
  if (t.includes('ROGER') && t.includes('WILCO')) faults.push('roger-and-wilco');
  const asked = t.filter((w, i) => w === 'AUTHENTICATE' && t[i - 1] !== '~I').length;
  if (asked > recognition(t).filter((i) => i.kind === 'challenge').length) faults.push('challenge-unclear');
  if (t.includes('...')) faults.push('unreadable');
  return faults;
}

/**
 * Take a transmission apart: words as spoken (spelling words) or as written. '...' is a word that was lost. `me` is the
 * listener, who knows the own call sign when it is said: a call with it after THIS IS was made own sign first.
 */
export function parseTransmission(words: string, me?: string): Transmission {
  const t = tokensOf(words);
  const read = readCalls(t, me);
  const ending = endingOf(t);
  const { to, from, order } = read;
  const body = t.slice(read.end);
  return {
    to,
    from,
    order,
    prowords: prowordsIn(t),
    intents: intentsOf(body),
    ending,
    faults: formFaults(t, read, ending),
  };
}

/** Is a station's call sign among the words, spelled or written? */
export function mentions(words: string, call: string): boolean {
  return ` ${tokensOf(words).join(' ')} `.includes(` ${Array.from(call).join(' ')} `);
}
