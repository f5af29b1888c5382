/** What a post makes of what it hears: recognition by challenge and reply (common practice), and the rest of a contact. */
import { die } from '../../kernel/dice.ts';
import { reportOf } from '../../procedure/prowords.ts';
import { challengeFrom, replyFor } from '../../procedure/recognition.ts';
import {
  type FormFault,
  type Intent,
  mentions,
  parseTransmission,
  type Transmission,
} from '../../procedure/transmission.ts';
import { spell } from '../../telegraphy/alphabet.ts';
import type { FarBench } from '../correspondent.ts';
import type { Utterance } from '../hearing.ts';
import { answer, BUSY_US, SAY_AGAIN } from './sending.ts';
import { close, fire, note, type PostState, type Then } from './state.ts';

/** It challenges at most so often. */
const CHALLENGES = 2;
/** Having refused, it keeps silent for so long. */
const REFUSING_US = 60_000_000;
/** Faults that it forgives in contact, when abbreviated procedure is in use. */
const CALLS_MISSING: readonly FormFault[] = ['no-called-station', 'no-calling-station'];
const LOST: readonly FormFault[] = ['unreadable'];

type Kind = Intent['kind'];
const intent = <K extends Kind>(t: Transmission, kind: K) =>
  t.intents.find((i): i is Extract<Intent, { kind: K }> => i.kind === kind);

function challenge(s: PostState, bench: FarBench): void {
  const { card } = bench.papers;
  const isOnly = card !== null && card.rows.length * card.columns.length === 1;
  const before = isOnly ? null : s.challenge;
  const thrown = () => challengeFrom(card, (n) => die(bench.seed, `challenge ${s.call}`, s.turns++, n));
  let next = thrown();
  while (next.row === before?.row && next.column === before.column) next = thrown();
  s.challenge = next;
  s.challenged += 1;
  const { row, column } = next;
  answer(s, bench, `AUTHENTICATE ${spell(row + column).join(' ')} OVER`, { challenged: { row, column } });
}

function rest(s: PostState, bench: FarBench): void {
  s.deadline_us = null;
  bench.forget((e) => e === 'late');
}

function doubt(s: PostState, bench: FarBench, why: string): void {
  rest(s, bench);
  if (s.challenged < CHALLENGES) {
    note(s, bench, 'doubted', { why });
    return challenge(s, bench);
  }
  note(s, bench, 'refused', { why });
  fire(s, 'REFUSED');
  bench.after(REFUSING_US, 'patient');
  answer(s, bench, 'OUT');
}

/** Time is up. Whoever speaks is let to his end; when he began decides. */
export function late(s: PostState, bench: FarBench): void {
  if (s.deadline_us === null) return;
  if (s.hearing.open.length > 0) bench.after(BUSY_US, 'late');
  else doubt(s, bench, 'silent');
}

type Reply = { words: string; after: Then };

/** The reply to their challenge, or null when the card does not have it. */
function ownReply(s: PostState, bench: FarBench, row: string, column: string): Reply | null {
  const cell = replyFor(bench.papers.card, row, column);
  if (cell === null) return null;
  const isWrong = s.with.answers === 'wrong' || (s.with.answers === 'wrong-first' && s.answered === 0);
  s.answered += 1;
  // A stranger guesses: the letters of the right cell the wrong way round, or others when they are alike.
  const [a = 'A', b = 'B'] = Array.from(cell);
  const given = isWrong ? (a === b ? `${a}${a === 'Z' ? 'A' : 'Z'}` : b + a) : cell;
  return {
    words: `I AUTHENTICATE ${spell(given).join(' ')} OVER`,
    after: { answered: { row, column, right: !isWrong } },
  };
}

function judge(s: PostState, bench: FarBench, t: Transmission, reply: string, began_us: number): void {
  const c = s.challenge;
  if (!c || s.deadline_us === null) return;
  if (reply !== replyFor(bench.papers.card, c.row, c.column)) return doubt(s, bench, 'wrong');
  if (began_us > s.deadline_us) return doubt(s, bench, 'late');
  rest(s, bench);
  fire(s, 'PROVED');
  note(s, bench, 'accepted', { by: s.partner });
  const theirs = intent(t, 'challenge');
  const own = theirs && ownReply(s, bench, theirs.row, theirs.column);
  answer(s, bench, `ROGER ${own?.words ?? 'OVER'}`, own?.after ?? null);
}

/** What was said last, once more; a challenge said again gives its time anew. */
function sayAgain(s: PostState, bench: FarBench): void {
  rest(s, bench);
  const { words, after } = s.said ?? { words: 'OVER', after: null };
  answer(s, bench, words.startsWith('I SAY AGAIN') ? words : `I SAY AGAIN ${words}`, after);
}

/** A first call. */
function called(s: PostState, bench: FarBench, t: Transmission, u: Utterance): void {
  if (intent(t, 'radio-check')) return answer(s, bench, `${reportOf(u.snr_dB)} OVER`);
  note(s, bench, 'called', { by: s.partner });
  if (s.with.challenges) {
    fire(s, 'CALLED');
    s.challenged = 0;
    return challenge(s, bench);
  }
  fire(s, 'PROVED');
  answer(s, bench, 'OVER');
}

/** While a reply is owed. */
function owed(s: PostState, bench: FarBench, t: Transmission, u: Utterance): void {
  const reply = intent(t, 'reply');
  if (reply) return judge(s, bench, t, reply.reply, u.from_us);
  if (t.ending === 'OUT') return close(s, bench);
  if (intent(t, 'say-again') || t.intents.length === 0) return sayAgain(s, bench);
  doubt(s, bench, 'no reply');
}

/** In contact. */
function inContact(s: PostState, bench: FarBench, t: Transmission, u: Utterance): void {
  if (intent(t, 'say-again') && s.said) return sayAgain(s, bench);
  if (t.ending === 'OUT') return intent(t, 'wait') ? undefined : close(s, bench);
  const theirs = intent(t, 'challenge');
  if (theirs) {
    const own = ownReply(s, bench, theirs.row, theirs.column);
    return own ? answer(s, bench, own.words, own.after) : answer(s, bench, SAY_AGAIN);
  }
  const offer = intent(t, 'offer');
  if (offer?.by === 'teleprinter') {
    fire(s, 'OFFERED');
    Object.assign(s, { printed: '', message: '', copied: null });
    const { precedence, count } = offer;
    return answer(s, bench, 'SEND OVER', { offered: { precedence, count } });
  }
  if (intent(t, 'radio-check')) return answer(s, bench, `${reportOf(u.snr_dB)} OVER`);
  answer(s, bench, 'ROGER OVER');
}

function puzzled(s: PostState, bench: FarBench, u: Utterance, t: Transmission, faults: FormFault[]): void {
  note(s, bench, 'puzzled', { faults, words: u.words });
  const isOwed = s.mode === 'challenging' && s.deadline_us !== null;
  if (isOwed) rest(s, bench);
  answer(s, bench, SAY_AGAIN, isOwed ? { waiting: true } : null, s.partner || (t.from ?? ''));
}

/** Somebody has said something on the channel. */
export function hear(s: PostState, bench: FarBench, u: Utterance): void {
  if (s.mode === 'refusing') return;
  const t = parseTransmission(u.words, s.call);
  const isShort = s.with.abbreviated && u.station === s.voice && t.to === null && t.from === null;
  if (!isShort && !mentions(u.words, s.call)) return;
  // Named, but as the one who calls: somebody speaks of it, not to it.
  if (t.to !== null && t.to !== s.call) return;
  const caller = isShort ? s.partner : (t.from ?? '');
  const { serves } = s.with;
  if (caller !== '' && serves && !serves.includes(caller)) return;
  if (s.partner !== '' && caller !== '' && caller !== s.partner && s.mode !== 'watching') return;
  // OUT asks for nothing: out of contact it passes, and in contact a lost word more or less does not matter.
  if (s.mode === 'watching' && t.ending === 'OUT') return;
  const forgiven: readonly FormFault[] = [...(isShort ? CALLS_MISSING : []), ...(t.ending === 'OUT' ? LOST : [])];
  const faults = t.faults.filter((f) => !forgiven.includes(f));
  if (faults.length > 0) return puzzled(s, bench, u, t, faults);
  Object.assign(s, { partner: caller, voice: u.station });
  if (s.mode === 'watching') called(s, bench, t, u);
  else if (s.mode === 'challenging') owed(s, bench, t, u);
  else inContact(s, bench, t, u);
}
