/** What a post sends: after a human's delay, never over anybody, and what follows when it is out. */
import type { Json } from '../../signals.ts';
import { spell } from '../../telegraphy/alphabet.ts';
import type { FarBench } from '../correspondent.ts';
import { beginOutgoing, othersOn } from '../cover.ts';
import { isSending, planPrint, planVoice } from '../transmitter.ts';
import { delay_us, note, type PostState, type Then, tuned_Hz } from './state.ts';

/** Words or print that wait to be sent. */
export type Wake = { words?: string; print?: string; after: Then };

/** Others on its channel hold it back; it looks again after so long. */
export const BUSY_US = 500_000;
/** A word that began just in time is noticed so much later. */
const NOTICED_US = 1_000_000;
/** A receipt that is not acknowledged is sent once more. */
const UNANSWERED_US = 60_000_000;
/** What it says when it did not understand. */
export const SAY_AGAIN = 'SAY AGAIN OVER';

/** Call sign spelled, or STATION CALLING for one that it did not make out. */
const opening = (to: string): string => (to === '' ? 'STATION CALLING' : spell(to).join(' '));

/** Say something to the partner (or to another). What it meant to say before is dropped. */
export function answer(s: PostState, bench: FarBench, words: string, after: Then = null, to = s.partner): void {
  if (words !== SAY_AGAIN) s.said = { words, after };
  bench.forget((e) => (e as Wake | null)?.words !== undefined);
  const whole = `${opening(to)} THIS IS ${spell(s.call).join(' ')} ${words}`;
  bench.after(delay_us(s, bench), { words: whole, after } satisfies Wake as Json);
}

/** Print something. */
export function print(s: PostState, bench: FarBench, text: string, after: Then): void {
  bench.after(delay_us(s, bench), { print: `\n${text}\n`, after } satisfies Wake as Json);
}

/** Send what waits, as soon as the channel is free. */
export function send(s: PostState, bench: FarBench, wake: Wake): void {
  const { now_us } = bench;
  const isBusy = isSending(s.radiation, now_us) || othersOn(bench, tuned_Hz(s), now_us).length > 0;
  if (isBusy) return bench.after(BUSY_US, wake as Json);
  const f_Hz = s.with.kHz * 1000;
  const end_us =
    wake.words !== undefined
      ? planVoice(s.radiation, wake.words, f_Hz, s.radiated_W, now_us)
      : planPrint(s.radiation, wake.print ?? '', f_Hz, s.with.shift_Hz, s.radiated_W, now_us);
  beginOutgoing(s, bench, tuned_Hz(s));
  if (wake.after && 'receipted' in wake.after) note(s, bench, 'receipting', { message: wake.after.receipted });
  bench.after(end_us - now_us, { sent: wake.after } as Json);
}

/** From now on a reply is awaited. */
function awaitReply(s: PostState, bench: FarBench): void {
  const limit_us = s.with.limit_s * bench.stretch * 1e6;
  s.deadline_us = bench.now_us + limit_us;
  bench.forget((e) => e === 'late');
  bench.after(limit_us + NOTICED_US, 'late');
}

/** The last word or letter is out. */
export function sent(s: PostState, bench: FarBench, after: Then): void {
  if (!after) return;
  if ('challenged' in after) note(s, bench, 'challenged', after.challenged);
  if ('challenged' in after || 'waiting' in after) awaitReply(s, bench);
  if ('answered' in after) note(s, bench, 'answered', after.answered);
  if ('offered' in after) note(s, bench, 'offered', { by: s.partner, ...after.offered });
  if ('asked' in after) note(s, bench, 'asked', { for: after.asked });
  if (!('receipted' in after)) return;
  note(s, bench, 'receipted', { message: after.receipted });
  if (!after.again) bench.after(UNANSWERED_US * bench.stretch, 'unanswered');
}
