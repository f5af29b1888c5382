/**
 * Two-state lines as lists of edges. Edges alternate and are sorted; before the first edge the line stands in the other
 * state, and an empty list is steady mark. What lies before now is history; what lies after is a plan.
 */
import type { Edge } from '../signals.ts';

/** Is the line at mark at instant `t_us`? (An edge counts from its own instant on.) */
export function markAt(wave: readonly Edge[], t_us: number): boolean {
  for (let i = wave.length - 1; i >= 0; i--) {
    const edge = wave[i] as Edge;
    if (edge.t_us <= t_us) return edge.mark;
  }
  const first = wave[0];
  return first === undefined ? true : !first.mark;
}

/** Append a state at the end of a wave (ignored if the wave ends in it); `t_us` not before its last edge. */
export function put(wave: Edge[], t_us: number, mark: boolean): void {
  const last = wave[wave.length - 1];
  if (last === undefined ? mark : last.mark === mark) return;
  // Two changes at one instant cancel: the line never stood in the state between.
  if (last !== undefined && last.t_us >= t_us) {
    wave.pop();
    // Nothing left is steady mark; a line that was at space from the beginning says so at instant 0.
    if (wave.length === 0 && !mark) wave.push({ t_us: Math.min(0, t_us), mark });
    return;
  }
  wave.push({ t_us, mark });
}

/** Contacts in series: current flows only where every contact is at mark. Edges from `from_us` on; state before it kept. */
export function series(waves: readonly (readonly Edge[])[], from_us: number): Edge[] {
  const times = waves.flatMap((w) => w.filter((e) => e.t_us > from_us).map((e) => e.t_us)).sort((a, b) => a - b);
  const out: Edge[] = [];
  const at = (t: number) => waves.every((w) => markAt(w, t));
  out.push({ t_us: from_us, mark: at(from_us) });
  for (const t of times) put(out, t, at(t));
  return out;
}

/** Keep `history` before `now_us` and follow `plan` from there (its state at now, then its later edges). */
export function replan(history: readonly Edge[], now_us: number, plan: readonly Edge[]): Edge[] {
  const out = history.filter((e) => e.t_us < now_us);
  put(out, now_us, markAt(plan, now_us));
  for (const e of plan) if (e.t_us > now_us) put(out, e.t_us, e.mark);
  return out;
}

/** A steady line. */
export const steady = (mark: boolean, t_us: number): Edge[] => (mark ? [] : [{ t_us, mark: false }]);
