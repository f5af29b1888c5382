/** What a post sends: after a human's delay, never over anybody, and what follows when it is out. */
import type { Json } from '../../signals.ts';
import { spell } from '../../telegraphy/alphabet.ts';
import type { FarBench } from '../correspondent.ts';
import { isSending, planPrint, planVoice } from '../transmitter.ts';
import { delay_us, note, type PostState, type Then, tuned_Hz } from './state.ts';

/** Words or print that wait to be sent. */
export type Wake = { words?: string; print?: string; then: Then };

/** A carrier this near holds it back; it looks again after so long. */
const BUSY_HZ = 3000;
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
export function answer(s: PostState, bench: FarBench, words: string, then: Then = null, to = s.partner): void {
  if (words !== SAY_AGAIN) s.said = { words, then };
  bench.forget((e) => (e as Wake | null)?.words !== undefined);
  const whole = `${opening(to)} THIS IS ${spell(s.call).join(' ')} ${words}`;
  bench.after(delay_us(s, bench), { words: whole, then } satisfies Wake as Json);
}

/** Print something. */
export function print(s: PostState, bench: FarBench, text: string, then: Then): void {
  bench.after(delay_us(s, bench), { print: `\n${text}\n`, then } satisfies Wake as Json);
}

/** Send what waits, as soon as the channel is free. */
export function send(s: PostState, bench: FarBench, wake: Wake): void {
  const { now_us } = bench;
  const isBusy =
    isSending(s.radiation, now_us) || bench.ear.arrivals(now_us).some((a) => Math.abs(a.f_Hz - tuned_Hz(s)) < BUSY_HZ);
  if (isBusy) return bench.after(BUSY_US, wake as Json);
  const f_Hz = s.with.kHz * 1000;
  const end_us =
    wake.words !== undefined
      ? planVoice(s.radiation, wake.words, f_Hz, s.radiated_W, now_us)
      : planPrint(s.radiation, wake.print ?? '', f_Hz, s.with.shift_Hz, s.radiated_W, now_us);
  if (wake.then && 'receipted' in wake.then) note(s, bench, 'receipting', { message: wake.then.receipted });
  bench.after(end_us - now_us, { sent: wake.then } as Json);
}

/** From now on a reply is awaited. */
function awaitReply(s: PostState, bench: FarBench): void {
  const limit_us = s.with.limit_s * bench.stretch * 1e6;
  s.deadline_us = bench.now_us + limit_us;
  bench.forget((e) => e === 'late');
  bench.after(limit_us + NOTICED_US, 'late');
}

/** The last word or letter is out. */
export function sent(s: PostState, bench: FarBench, then: Then): void {
  if (!then) return;
  if ('challenged' in then) note(s, bench, 'challenged', then.challenged);
  if ('challenged' in then || 'waiting' in then) awaitReply(s, bench);
  if ('answered' in then) note(s, bench, 'answered', then.answered);
  if ('offered' in then) note(s, bench, 'offered', { by: s.partner, ...then.offered });
  if ('asked' in then) note(s, bench, 'asked', { for: then.asked });
  if (!('receipted' in then)) return;
  note(s, bench, 'receipted', { message: then.receipted });
  if (!then.again) bench.after(UNANSWERED_US * bench.stretch, 'unanswered');
}
