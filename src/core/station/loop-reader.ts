/** A start-stop reader on a loop whose plan may change: printer, cover adaptor and remote line have one each. */
import type { Edge } from '../signals.ts';
import { type ReadChar, type SelectorState, selectorAtRest, selectorRun } from '../telegraphy/selector.ts';
import type { Bench } from './box.ts';
import { markAt } from './wave.ts';

/** The reader's memory, when it next wants to be woken (null: not at all), and blanks in a row on a line at space. */
export type LoopReader = { selector: SelectorState; wake_us: number | null; open: number };

/** How the reader turns: bauds of its motor and place of its samples in a unit, percent (20..80). */
export type Turning = { baud: number; range: number };

/** A reader at rest on a line at mark. */
export const loopReader = (now_us: number): LoopReader => ({
  selector: selectorAtRest(now_us),
  wake_us: null,
  open: 0,
});

// A change at an instant already read (the operator patched just then) is seen one microsecond later.
function missed(r: LoopReader, wave: readonly Edge[]): Edge | undefined {
  const { t_us, mark } = r.selector;
  const stands = markAt(wave, t_us);
  return stands === mark ? undefined : { t_us: t_us + 1, mark: stands };
}

/** Characters that the reader finishes up to and including `now_us`. */
export function readTo(r: LoopReader, wave: readonly Edge[], now_us: number, turning: Turning): readonly ReadChar[] {
  const late = missed(r, wave);
  const edges = late ? [late, ...wave.filter((e) => e.t_us > r.selector.t_us)] : wave;
  const { state, chars } = selectorRun(r.selector, edges, now_us, turning);
  r.selector = state;
  for (const c of chars) r.open = c.code === 0 && !c.stopOk ? r.open + 1 : 0;
  return chars;
}

const LATCH_units = 6.25;

// The latch comes a fixed time after the trip, whatever the line does meanwhile (selector.ts).
function nextLatch_us(r: LoopReader, wave: readonly Edge[], t: Turning): number | null {
  const late = missed(r, wave);
  const { t_us, start_us, mark } = r.selector;
  let start = start_us ?? (late && !late.mark ? late.t_us : undefined);
  if (start === undefined && (late ? late.mark : mark)) start = wave.find((e) => e.t_us > t_us && !e.mark)?.t_us;
  return start === undefined ? null : start + Math.round(((LATCH_units + t.range / 100) * 1e6) / t.baud);
}

// A loop left open prints nothing but blanks: from the third on the ticks are often enough.
const OPEN_enough = 3;

/** Ask to be woken with `event` when the next character will print; null turning: the motor stands, forget it. */
export function keepWake(
  r: LoopReader,
  wave: readonly Edge[],
  turning: Turning | null,
  bench: Bench,
  event: string,
): void {
  let due = turning && nextLatch_us(r, wave, turning);
  if (due !== null && r.open >= OPEN_enough && !wave.some((e) => e.t_us > bench.now_us)) due = null;
  if (due === r.wake_us) return;
  if (r.wake_us !== null) bench.forget((e) => e === event);
  r.wake_us = due;
  if (due !== null) bench.after(Math.max(0, due - bench.now_us), event);
}
