/** One wave made to follow another from now on, at no cost while it already does. */
import type { Edge } from '../signals.ts';
import { markAt, replan, series } from './wave.ts';

/** Do two waves stand and go on alike from `now_us` on? */
export function alike(a: readonly Edge[], b: readonly Edge[], now_us: number): boolean {
  let i = a.length - 1;
  let j = b.length - 1;
  for (; ; i--, j--) {
    const x = a[i];
    const y = b[j];
    const isMore = x !== undefined && x.t_us > now_us;
    if (isMore !== (y !== undefined && y.t_us > now_us)) return false;
    if (!isMore) return markAt(a, now_us) === markAt(b, now_us);
    if (x.t_us !== y!.t_us || x.mark !== y!.mark) return false;
  }
}

/** `wave` itself if it follows `plan` from `now_us` on, else its history and the plan. */
export const follow = (wave: Edge[], now_us: number, plan: readonly Edge[]): Edge[] =>
  alike(wave, plan, now_us) ? wave : replan(wave, now_us, plan);

const hasPlan = (wave: readonly Edge[], now_us: number): boolean => (wave[wave.length - 1]?.t_us ?? now_us) > now_us;

const MARK: readonly Edge[] = [];
const SPACE: readonly Edge[] = [{ t_us: 0, mark: false }];

/** A line that stands still. */
export const standing = (mark: boolean): readonly Edge[] => (mark ? MARK : SPACE);

/** What contacts in series do from `now_us` on: the one that moves while the others stand at mark is the whole of it. */
export function inSeries(waves: readonly (readonly Edge[])[], now_us: number): readonly Edge[] {
  let moving: readonly Edge[] | undefined;
  for (const w of waves) {
    if (hasPlan(w, now_us)) {
      if (moving) return series(waves, now_us);
      moving = w;
    } else if (!markAt(w, now_us)) return standing(false);
  }
  return moving ?? standing(true);
}

/** Share of the last `span_us` that a wave stood at mark, 0..1: what a slow needle shows. */
export function markShare(wave: readonly Edge[], now_us: number, span_us: number): number {
  const from = now_us - span_us;
  let mark = 0;
  let end = now_us;
  for (let i = wave.length - 1; i >= 0 && end > from; i--) {
    const edge = wave[i] as Edge;
    if (edge.t_us >= now_us) continue;
    const begin = Math.max(edge.t_us, from);
    if (edge.mark) mark += end - begin;
    end = begin;
  }
  if (end > from && markAt(wave, from)) mark += end - from;
  return mark / span_us;
}
