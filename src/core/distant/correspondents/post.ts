/**
 * A shore post: keeps watch on its channel, answers a correct call, proves the caller and is proved, copies a message by
 * teleprinter and receipts it. Human delays are thrown by the seed.
 */
import * as v from 'valibot';
import { setup } from 'xstate';
import { die, uniform } from '../../kernel/dice.ts';
import { move } from '../../kernel/machine.ts';
import { askFor, gotWords, wordsOf } from '../../procedure/copying.ts';
import { type Challenge, challengeFrom, replyFor } from '../../procedure/recognition.ts';
import { mentions, parseTransmission, type Transmission } from '../../procedure/transmission.ts';
import type { Json } from '../../signals.ts';
import { spell } from '../../telegraphy/alphabet.ts';
import type { Correspondent, FarBench, FarState } from '../correspondent.ts';
import { type Hearing, listen, newHearing, type Utterance } from '../hearing.ts';
import { carrierThere, newPrintReader, type PrintReader, readPrint } from '../print-reader.ts';
import { forgetPast, isSending, planPrint, planVoice, radiated_W, silence } from '../transmitter.ts';

const schema = v.strictObject({
  kHz: v.pipe(v.number(), v.minValue(1800), v.maxValue(17_000)),
  /** Whom it serves; every caller if left out. */
  serves: v.optional(v.array(v.string())),
  /** Messages it may be sent, by id. */
  expects: v.optional(v.array(v.string()), []),
  shift_Hz: v.optional(v.picklist([200, 400, 850]), 400),
  /** Output before the whip, W. */
  power_W: v.optional(v.pipe(v.number(), v.minValue(1), v.maxValue(500)), 120),
  /** A reply must begin within so many seconds of the challenge's end. */
  limit_s: v.optional(v.pipe(v.number(), v.minValue(3), v.maxValue(120)), 20),
  /** How it answers when it is challenged: a stranger answers wrong. */
  answers: v.optional(v.picklist(['right', 'wrong-first', 'wrong']), 'right'),
});
type Params = v.InferOutput<typeof schema>;

type Said = { words: string; then: Then };

type PostState = FarState & {
  mode: string;
  with: Params;
  /** Its receiver stands this far off the channel, Hz. */
  off_Hz: number;
  radiated_W: number;
  hearing: Hearing;
  /** With whom it is in contact, and the challenge that stands. */
  partner: string;
  challenge: Challenge | null;
  challenged: number;
  answered: number;
  deadline_us: number | null;
  reader: PrintReader | null;
  /** When a carrier was last there while copying. */
  there_us: number;
  /** Text printed in this transmission; words of the message got so far. */
  copied: string;
  got: boolean[];
  message: string;
  /** What it said last. */
  said: Said | null;
  turns: number;
};

const machine = setup({
  types: { events: {} as { type: 'CALLED' | 'PROVED' | 'OFFERED' | 'COPIED' | 'ASKED' | 'REFUSED' | 'CLOSED' } },
}).createMachine({
  id: 'post',
  initial: 'watching',
  states: {
    watching: { on: { CALLED: 'challenging' } },
    challenging: { on: { CALLED: 'challenging', PROVED: 'proved', REFUSED: 'refusing', CLOSED: 'watching' } },
    proved: { on: { OFFERED: 'copying', CLOSED: 'watching', CALLED: 'proved' } },
    copying: { on: { COPIED: 'receipted', ASKED: 'copying', OFFERED: 'copying', CLOSED: 'watching' } },
    receipted: { on: { OFFERED: 'copying', CLOSED: 'watching', COPIED: 'receipted' } },
    refusing: { after: { 60000: 'watching' } },
  },
});

const BLOCK_US = 100_000;
/** A carrier that has been gone this long has ended. */
const GONE_US = 3_000_000;
/** Fewer printed characters than this are no message. */
const LEAST_CHARS = 8;
/** A receipt that is not acknowledged is sent once more. */
const UNANSWERED_US = 60_000_000;
/** It answers within 2 to 4 seconds. */
const DELAY_MIN_US = 2_000_000;
const DELAY_SPAN_US = 2_000_000;
const SAY_AGAIN = 'SAY AGAIN OVER';
const REFUSING_US = 60_000_000;
/** A carrier this near holds its answer back; it looks again after so long. */
const BUSY_HZ = 3000;
const BUSY_US = 500_000;
/** Its receiver is netted to the channel within this, Hz. */
const TUNING_HZ = 15;

const spelled = (call: string): string => spell(call).join(' ');

function fire(s: PostState, event: string): void {
  s.mode = move(machine, s.mode, event).mode;
}

function note(s: PostState, bench: FarBench, what: string, detail: { [key: string]: Json } = {}): void {
  bench.note({ k: 'far', station: s.call, what, detail });
}

/** Say something after a human's delay. What is `then` happens when the last word is out. */
function answer(s: PostState, bench: FarBench, words: string, then: Then = null): void {
  if (words !== SAY_AGAIN) s.said = { words, then };
  const delay = DELAY_MIN_US + Math.round(DELAY_SPAN_US * uniform(bench.seed, `delay ${s.call}`, s.turns++));
  bench.forget((e) => (e as { say?: string } | null)?.say !== undefined);
  bench.after(delay, { say: `${spelled(s.partner)} THIS IS ${spelled(s.call)} ${words}`, then } as Json);
}

function challenge(s: PostState, bench: FarBench): void {
  const before = s.challenge;
  do {
    s.challenge = challengeFrom(bench.papers.card, (n) => die(bench.seed, `challenge ${s.call}`, s.turns++, n));
  } while (before && s.challenge.row === before.row && s.challenge.column === before.column);
  s.challenged += 1;
  const { row, column } = s.challenge;
  answer(s, bench, `AUTHENTICATE ${spelled(row)} ${spelled(column)} OVER`, { challenged: { row, column } });
}

function doubt(s: PostState, bench: FarBench, why: string): void {
  s.deadline_us = null;
  bench.forget((e) => e === 'late');
  if (s.challenged < 2) {
    note(s, bench, 'doubted', { why });
    return challenge(s, bench);
  }
  note(s, bench, 'refused', { why });
  fire(s, 'REFUSED');
  s.challenge = null;
  bench.after(REFUSING_US, 'patient');
  answer(s, bench, 'OUT');
}

function judge(s: PostState, bench: FarBench, reply: string, began_us: number): void {
  const c = s.challenge;
  if (!c || s.deadline_us === null) return;
  const right = reply === replyFor(bench.papers.card, c.row, c.column);
  const inTime = began_us <= s.deadline_us;
  if (!right || !inTime) return doubt(s, bench, right ? 'late' : 'wrong');
  s.deadline_us = null;
  bench.forget((e) => e === 'late');
  fire(s, 'PROVED');
  note(s, bench, 'accepted', { by: s.partner });
  answer(s, bench, 'ROGER OVER');
}

function reply(s: PostState, bench: FarBench, row: string, column: string): void {
  const cell = replyFor(bench.papers.card, row, column);
  if (cell === null) return answer(s, bench, SAY_AGAIN);
  const wrong = s.with.answers === 'wrong' || (s.with.answers === 'wrong-first' && s.answered === 0);
  s.answered += 1;
  // A stranger guesses: the letters of the right cell the wrong way round, or others when they are alike.
  const [a = 'A', b = 'B'] = Array.from(cell);
  const given = wrong ? (a === b ? `${a}${a === 'Z' ? 'A' : 'Z'}` : b + a) : cell;
  answer(s, bench, `I AUTHENTICATE ${spelled(given)} OVER`, { answered: { row, column, right: !wrong } });
}

function close(s: PostState, bench: FarBench): void {
  note(s, bench, 'closed', { by: s.partner });
  fire(s, 'CLOSED');
  Object.assign(s, { partner: '', challenge: null, challenged: 0, deadline_us: null, reader: null });
  bench.forget(() => true);
}

/** What was said last, once more; a challenge said again gives its time anew. */
function sayAgain(s: PostState, bench: FarBench, { words, then }: Said): void {
  s.deadline_us = null;
  bench.forget((e) => e === 'late');
  answer(s, bench, words.startsWith('I SAY AGAIN') ? words : `I SAY AGAIN ${words}`, then);
}

/** One transmission that is meant for this station and has the right form. */
function take(s: PostState, bench: FarBench, t: Transmission, u: Utterance): void {
  const has = <K extends Transmission['intents'][number]['kind']>(kind: K) =>
    t.intents.find((i): i is Extract<Transmission['intents'][number], { kind: K }> => i.kind === kind);
  const theirReply = has('reply');
  const theirChallenge = has('challenge');
  if (has('say-again') && s.said) return sayAgain(s, bench, s.said);
  if (s.mode === 'challenging' && theirReply) return judge(s, bench, theirReply.reply, u.from_us);
  if (t.ending === 'OUT') return close(s, bench);
  if (s.mode === 'watching' || s.mode === 'challenging') {
    note(s, bench, 'called', { by: s.partner });
    if (s.mode === 'watching') s.challenged = 0;
    fire(s, 'CALLED');
    return challenge(s, bench);
  }
  if (theirChallenge) return reply(s, bench, theirChallenge.row, theirChallenge.column);
  if (has('offer')?.by === 'teleprinter') {
    fire(s, 'OFFERED');
    Object.assign(s, { got: [], copied: '', message: '' });
    return answer(s, bench, 'SEND OVER', { offered: true });
  }
  if (has('radio-check')) return answer(s, bench, 'LOUD AND CLEAR OVER');
  answer(s, bench, 'ROGER OVER');
}

function hear(s: PostState, bench: FarBench, u: Utterance): void {
  if (s.mode === 'refusing' || !mentions(u.words, s.call)) return;
  const t = parseTransmission(u.words, s.call);
  const { serves } = s.with;
  const theirs = t.from ?? '';
  if (theirs === s.call || t.to !== s.call || t.faults.length > 0) {
    // Called in a wrong form: ask again, as far as it is clear who it was.
    const who = t.to !== null && t.to !== s.call ? t.to : theirs !== s.call ? theirs : '';
    if (serves && !serves.includes(who) && who !== '') return;
    note(s, bench, 'puzzled', { faults: t.faults, words: u.words });
    if (s.partner === '') s.partner = who;
    if (s.partner !== '') answer(s, bench, SAY_AGAIN);
    return;
  }
  if (serves && !serves.includes(theirs)) return;
  if (s.partner !== '' && s.partner !== theirs && s.mode !== 'watching') return;
  s.partner = theirs;
  take(s, bench, t, u);
}

function expected(s: PostState, bench: FarBench) {
  return bench.papers.messages.filter((m) => s.with.expects.includes(m.id));
}

/** The carrier is gone: is the message whole? The best match among the expected ones counts, pieces of repeats together. */
function takeStock(s: PostState, bench: FarBench): void {
  const printed = s.copied;
  s.copied = '';
  s.reader = null;
  if (printed.trim().length < LEAST_CHARS) return;
  const got = wordsOf(printed);
  const ranked = expected(s, bench)
    .map((m) => ({ id: m.id, wanted: wordsOf(m.lines.join(' ')) }))
    .map((m) => ({ ...m, has: gotWords(m.wanted, got) }))
    .sort((a, b) => share(b.has) - share(a.has));
  const best = s.message ? (ranked.find((m) => m.id === s.message) ?? ranked[0]) : ranked[0];
  if (!best) return ask(s, bench, 'ALL');
  s.message = best.id;
  s.got = best.has.map((has, i) => has || s.got[i] === true);
  const wish = askFor(best.wanted, s.got);
  if (wish === null) receipt(s, bench);
  else ask(s, bench, wish);
}

const share = (has: readonly boolean[]): number => has.filter(Boolean).length / Math.max(1, has.length);

function ask(s: PostState, bench: FarBench, wish: string): void {
  fire(s, 'ASKED');
  print(s, bench, `${s.partner} DE ${s.call} SAY AGAIN ${wish} K`, { asked: wish });
}

/** `NR14` as it is spoken of: `NR 14`. */
const numberOf = (id: string): string => id.replace(/^([A-Z]+)(\d+)$/, '$1 $2');

const receiptText = (s: PostState): string => `${s.partner} DE ${s.call} R ${numberOf(s.message)} K`;

function receipt(s: PostState, bench: FarBench): void {
  fire(s, 'COPIED');
  print(s, bench, receiptText(s), { receipted: s.message });
}

function print(s: PostState, bench: FarBench, text: string, then: Then): void {
  const delay = DELAY_MIN_US + Math.round(DELAY_SPAN_US * uniform(bench.seed, `delay ${s.call}`, s.turns++));
  bench.after(delay, { print: `\n${text}\n`, then } as Json);
}

/** Copying: a block every tenth of a second while a carrier is there, and until it has been gone for long enough. */
function copy(s: PostState, bench: FarBench): void {
  const { now_us, ear } = bench;
  if (carrierThere(ear, tuned(s), now_us)) s.there_us = now_us;
  if (now_us - s.there_us > GONE_US) return takeStock(s, bench);
  s.reader ??= newPrintReader(now_us);
  for (const { code, c } of readPrint(s.reader, ear, tuned(s), s.with.shift_Hz, now_us)) {
    bench.note({ k: 'print', at: s.call, code, c });
    s.copied += c.replace('\r', '');
  }
  bench.after(BLOCK_US - (now_us % BLOCK_US), 'block');
}

function beginCopy(s: PostState, bench: FarBench): void {
  if (s.mode !== 'copying' || s.reader || isSending(s.radiation, bench.now_us)) return;
  if (!carrierThere(bench.ear, tuned(s), bench.now_us)) return;
  note(s, bench, 'copying');
  s.there_us = bench.now_us;
  s.reader = newPrintReader(bench.now_us);
  bench.after(BLOCK_US - (bench.now_us % BLOCK_US), 'block');
}

const tuned = (s: PostState): number => s.with.kHz * 1000 + s.off_Hz;

/** What happens once the last word or letter is out. */
type Then = {
  challenged?: Challenge;
  answered?: { row: string; column: string; right: boolean };
  offered?: boolean;
  asked?: string;
  receipted?: string;
  again?: boolean;
} | null;
type Wake = { say?: string; print?: string; then?: Then; sent?: Then };

function send(s: PostState, bench: FarBench, wake: Wake): void {
  const { now_us } = bench;
  // Not over its own words, and not over somebody else's.
  const busy =
    isSending(s.radiation, now_us) || bench.ear.arrivals(now_us).some((a) => Math.abs(a.f_Hz - tuned(s)) < BUSY_HZ);
  if (busy) return bench.after(BUSY_US, wake as Json);
  const f_Hz = s.with.kHz * 1000;
  const end_us =
    wake.say !== undefined
      ? planVoice(s.radiation, wake.say, f_Hz, s.radiated_W, now_us)
      : planPrint(s.radiation, wake.print ?? '', f_Hz, s.with.shift_Hz, s.radiated_W, now_us);
  if (wake.then?.receipted) note(s, bench, 'receipting', { message: wake.then.receipted });
  bench.after(end_us - now_us, { sent: wake.then ?? null } as Json);
}

function sent(s: PostState, bench: FarBench, then: Then): void {
  if (!then) return;
  if (then.challenged) {
    note(s, bench, 'challenged', then.challenged);
    const limit_us = s.with.limit_s * bench.stretch * 1e6;
    s.deadline_us = bench.now_us + limit_us;
    bench.after(limit_us + BUSY_US, 'late');
  }
  if (then.answered) note(s, bench, 'answered', then.answered);
  if (then.offered) note(s, bench, 'offered', { by: s.partner });
  if (then.asked) note(s, bench, 'asked', { for: then.asked });
  if (then.receipted) {
    note(s, bench, 'receipted', { message: then.receipted });
    if (!then.again) bench.after(UNANSWERED_US * bench.stretch, 'unanswered');
  }
}

/** Words that began in time are let to their end before the reply counts as late. */
function late(s: PostState, bench: FarBench): void {
  if (s.deadline_us === null) return;
  const speaking = s.hearing.words.length > 0 && s.hearing.from_us <= s.deadline_us;
  if (speaking) bench.after(BUSY_US, 'late');
  else doubt(s, bench, 'silent');
}

/** A shore post. */
export const post: Correspondent<PostState, Params> = {
  id: 'post',
  about:
    'A shore post that answers a correct call, challenges, is challenged, copies a message by teleprinter and receipts it.',
  schema,
  start(call, params, bench) {
    const given = v.parse(schema, params);
    return {
      call,
      radiation: silence(call),
      mode: 'watching',
      with: given,
      off_Hz: Math.round((uniform(bench.seed, `tuning ${call}`, 0) - 0.5) * 2 * TUNING_HZ),
      radiated_W: radiated_W(given.kHz, given.power_W),
      hearing: newHearing(bench.now_us),
      partner: '',
      challenge: null,
      challenged: 0,
      answered: 0,
      deadline_us: null,
      reader: null,
      there_us: 0,
      copied: '',
      got: [],
      message: '',
      said: null,
      turns: 0,
    };
  },
  stirred(s, bench) {
    forgetPast(s.radiation, bench.now_us);
    const isDeaf = isSending(s.radiation, bench.now_us);
    for (const u of listen(s.hearing, bench.ear, bench.now_us, tuned(s), bench.seed, s.call, isDeaf)) hear(s, bench, u);
    beginCopy(s, bench);
  },
  woken(s, event, bench) {
    if (event === 'block') return s.reader ? copy(s, bench) : undefined;
    if (event === 'late') return late(s, bench);
    if (event === 'patient') return close(s, bench);
    if (event === 'unanswered') return print(s, bench, receiptText(s), { receipted: s.message, again: true });
    const wake = event as Wake;
    if ('sent' in wake) return sent(s, bench, wake.sent ?? null);
    send(s, bench, wake);
  },
};
