/** One clock and one queue for the whole drill. Plain data, so that a snapshot is a copy. */
import type { SimMicros } from '../quantity/quantity.ts';
import type { Json } from '../signals.ts';

/** Something due: `to` names who is told (`sender`, `far:QV7K`, `tick`), `event` is what. */
export type Due = { due_us: number; seq: number; to: string; event: Json };

/** Now, the next sequence number, and what is due, sorted by (due, seq). */
export type Queue = { now_us: number; seq: number; dues: Due[] };

/** An empty queue at time 0. */
export const newQueue = (): Queue => ({ now_us: 0, seq: 0, dues: [] });

/** Queue an event `delay_us` from now (rounded, at least 0); same instant: in the order they were set. */
export function schedule(q: Queue, delay_us: number, to: string, event: Json): void {
  if (!Number.isFinite(delay_us)) throw new RangeError(`a delay must be finite, got ${delay_us} for ${to}`);
  const due: Due = { due_us: q.now_us + Math.max(0, Math.round(delay_us)), seq: q.seq++, to, event };
  let i = q.dues.length;
  while (i > 0 && (q.dues[i - 1] as Due).due_us > due.due_us) i--;
  q.dues.splice(i, 0, due);
}

/** Forget everything queued for `to` whose event satisfies `which` (all of it by default). */
export function cancel(q: Queue, to: string, which: (event: Json) => boolean = () => true): void {
  q.dues = q.dues.filter((d) => d.to !== to || !which(d.event));
}

/** Take the first thing due at or before `until_us` and move the clock there; undefined moves the clock to `until_us`. */
export function takeDue(q: Queue, until_us: SimMicros): Due | undefined {
  const first = q.dues[0];
  if (first === undefined || first.due_us > until_us) {
    q.now_us = Math.max(q.now_us, until_us);
    return undefined;
  }
  q.dues.shift();
  q.now_us = first.due_us;
  return first;
}
