/** Call signs in a transmission: who is called, who calls, and in which order they were named. */
import { charFor } from '../telegraphy/alphabet.ts';
import { isCallSign } from '../telegraphy/speaking.ts';

/** Before these the single letter I is the speaker, not a letter spelled. */
const VERBS = ['AUTHENTICATE', 'HAVE', 'SAY', 'SPELL', 'READ', 'VERIFY', 'AM', 'WILL'];

const SINGLE = /^[A-Z0-9]$/;

/** Words as tokens: spelling words become their letter or figure, call signs are taken letter by letter, the speaker's I becomes `~I`. */
export function tokensOf(words: string): string[] {
  const all = words
    .toUpperCase()
    .split(/\s+/)
    .map((w) => (w === '...' ? w : w.replace(/[.,;:!?]+$/, '')))
    .filter((w) => w !== '');
  return all.flatMap((w, i) => {
    if (w === 'I' && VERBS.includes(all[i + 1] ?? '')) return ['~I'];
    return isCallSign(w) ? Array.from(w) : [charFor(w) ?? w];
  });
}

/** Who was named: `order` is right (called, THIS IS, caller), own-first, or missing when a part of it is; `end` is where the rest begins. */
export type CallRead = {
  to: string | null;
  from: string | null;
  order: 'right' | 'own-first' | 'missing';
  end: number;
};

// A call sign said twice in a row, as in poor conditions, is one call sign.
function once(run: string): string {
  const half = run.slice(0, run.length / 2);
  return run.length > 5 && half + half === run ? half : run;
}

/** The call signs in a run of single letters and figures; the listener's own is known wherever it stands. */
function callsIn(run: string, me: string | undefined): string[] {
  const at = me === undefined ? -1 : run.indexOf(me);
  if (me === undefined || at < 0) {
    const call = once(run);
    return isCallSign(call) ? [call] : [];
  }
  const after = callsIn(run.slice(at + me.length), me);
  return [...callsIn(run.slice(0, at), me), me, ...(after[0] === me ? after.slice(1) : after)];
}

// "THIS IS QV4M ONE PRIORITY": the figure counts messages.
function endOfRun(t: readonly string[], from: number): number {
  let end = from;
  while (end < t.length && SINGLE.test(t[end] as string)) end++;
  return /^(FLASH|IMMEDIATE|PRIORITY|ROUTINE|MESSAGES?)$/.test(t[end] ?? '') && /^\d$/.test(t[end - 1] ?? '')
    ? end - 1
    : end;
}

function startOfRun(t: readonly string[], end: number): number {
  let start = end;
  while (start > 0 && SINGLE.test(t[start - 1] as string)) start--;
  return start;
}

/** Read the call signs of a transmission in tokens. */
export function readCalls(t: readonly string[], me?: string): CallRead {
  const at = t.findIndex((w, i) => (w === 'THIS' && t[i + 1] === 'IS') || w === 'DE');
  if (at < 0) {
    const end = endOfRun(t, 0);
    const [to = null, from = null] = callsIn(t.slice(0, end).join(''), me);
    return { to, from, order: 'missing', end };
  }
  const second = at + (t[at] === 'DE' ? 1 : 2);
  const end = endOfRun(t, second);
  const left = callsIn(t.slice(startOfRun(t, at), at).join(''), me);
  const right = callsIn(t.slice(second, end).join(''), me);
  const [from = null, also = null] = right;
  const to = left.at(-1) ?? null;
  if (me !== undefined && to !== null && to !== me && from === me) return { to: me, from: to, order: 'own-first', end };
  if (to === null && also !== null) return { to: also, from, order: 'own-first', end };
  return { to, from, order: to !== null && from !== null ? 'right' : 'missing', end };
}
