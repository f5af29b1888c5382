/** Rows of things that each hold from an instant until the next: edges of a line, steps of a carrier. In order of time. */

/** Holds from `t_us` on. */
type Dated = { t_us: number };

/** The one in force at an instant: the last that began by then, or undefined before the first. */
export function inForce<T extends Dated>(history: readonly T[], t_us: number): T | undefined {
  let from = 0;
  let to = history.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((history[middle] as T).t_us <= t_us) from = middle + 1;
    else to = middle;
  }
  return history[from - 1];
}

/** Forget what began before `before_us`, keeping the last of it as the state there. */
export function prune(history: Dated[], before_us: number): void {
  let keep = 0;
  while (keep + 1 < history.length && (history[keep + 1] as Dated).t_us <= before_us) keep++;
  if (keep > 0) history.splice(0, keep);
}
