/**
 * A shore post: keeps watch on its channel, answers a correct call, proves the caller and is proved, copies a message by
 * teleprinter and receipts it. It hears and copies only what its own aerial brings; human delays are thrown by the seed.
 */
import * as v from 'valibot';
import { uniform } from '../../kernel/dice.ts';
import { firstMode } from '../../kernel/machine.ts';
import type { Correspondent } from '../correspondent.ts';
import { noteCover } from '../cover.ts';
import { listen, newHearing } from '../hearing.ts';
import { beginCopy, copy, receipt } from '../post/copying.ts';
import { BUSY_US, send, sent, type Wake } from '../post/sending.ts';
import { close, machine, type Params, type PostState, schema, type Then, told, tuned_Hz } from '../post/state.ts';
import { hear, late } from '../post/talking.ts';
import { forgetPast, isSending, radiated_W, silence } from '../transmitter.ts';

/** Its receiver is netted to the channel within this, Hz. */
const TUNING_HZ = 15;

/** Its notes in words. `why` of a doubt is "late", "wrong", "silent" or "no reply". */
const TELLS = {
  called: 'was called[ by {by}]',
  challenged: 'challenged[: row {row}, column {column}]',
  doubted: 'doubted the reply[: {why}]',
  refused: 'refused[: {why}]',
  accepted: 'took the reply as right',
  answered: 'answered the challenge[: row {row}, column {column}]',
  offered: 'was offered traffic[: {count} {precedence}]',
  copying: 'began to copy',
  asked: 'asked for a repeat[: {for}]',
  receipting: 'began its receipt[ for {message}]',
  receipted: 'gave its receipt[ for {message}]',
  puzzled: 'could not follow[: {faults}]',
  closed: 'ended the contact',
  covered: 'was talked over[ by {by}]',
};

/** A shore post. */
export const post: Correspondent<PostState, Params> = {
  id: 'post',
  about:
    'A shore post that answers a correct call, challenges, is challenged, copies a message by teleprinter and receipts it.',
  schema,
  told,
  tells: TELLS,
  leaves: ['spoke', 'print'],
  needsCard: ({ challenges }) => challenges ?? true,
  start(call, params, bench) {
    const given = v.parse(schema, params);
    return {
      call,
      radiation: silence(call),
      mode: firstMode(machine).mode,
      with: given,
      off_Hz: Math.round((uniform(bench.seed, `tuning ${call}`, 0) - 0.5) * 2 * TUNING_HZ),
      radiated_W: radiated_W(given.kHz, given.power_W),
      hearing: newHearing(bench.now_us),
      partner: '',
      voice: '',
      challenge: null,
      challenged: 0,
      answered: 0,
      deadline_us: null,
      copier: null,
      printed: '',
      message: '',
      copied: null,
      outgoing: null,
      said: null,
      turns: 0,
    };
  },
  receiver: (s) => ({ tuned_Hz: s.copier?.tuned_Hz ?? tuned_Hz(s), shift_Hz: s.with.shift_Hz }),
  stirred(s, bench) {
    const { now_us, seed, ear } = bench;
    forgetPast(s.radiation, now_us);
    const who = { seed, call: s.call, tuned_Hz: tuned_Hz(s) };
    for (const u of listen(s.hearing, ear, now_us, who, isSending(s.radiation, now_us))) hear(s, bench, u);
    beginCopy(s, bench);
    noteCover(s, bench, tuned_Hz(s));
  },
  woken(s, event, bench) {
    if (event === 'block') return copy(s, bench);
    if (event === 'late') return late(s, bench);
    if (event === 'patient') return close(s, bench);
    if (event === 'unanswered') return s.copier ? bench.after(BUSY_US, event) : receipt(s, bench, true);
    const wake = event as { sent?: Then } & Wake;
    if (wake.sent !== undefined) return sent(s, bench, wake.sent);
    if (wake.after !== undefined) return send(s, bench, wake);
  },
  tell(s, what) {
    Object.assign(s.with, what);
  },
};
