/** Which letter is looked at: the one on its way, or, held, any of the last ones in a copy of the drill. */
import { Drill, type Inside, type LinkName, type Snapshot } from '../../core/drill.ts';
import type { PanelDrill } from '../host.ts';

const LETTER_US = 150_000;
const STEP_US = 10_000;

/** The eye on a drill. Holding takes a copy of it, so that nothing of the drill itself is ever touched or stopped. */
export class Follow {
  private copy: Drill | null = null;
  private start_us: number | null = null;
  private acts = 0;

  constructor(private readonly drill: PanelDrill) {}

  get isHeld(): boolean {
    return this.copy !== null;
  }

  look(link: LinkName): Inside {
    return (this.copy ?? this.drill).inside(link, this.start_us);
  }

  /** Hold the instant, or let it go. */
  hold(on: boolean): void {
    const { scenario, setting, recordings } = this.drill;
    this.copy = on ? new Drill(scenario, setting, JSON.parse(this.drill.save()) as Snapshot, recordings) : null;
    this.start_us = null;
    this.acts = this.deeds();
  }

  private deeds(): number {
    const { lines } = this.drill.record;
    let n = 0;
    for (let i = lines.length - 1; i >= 0 && n === 0; i--) if (lines[i]!.k === 'do') n = i + 1;
    return n;
  }

  /** One letter back or on; holds first. False where there is none. */
  step(link: LinkName, by: -1 | 1): boolean {
    if (!this.copy) this.hold(true);
    const { window } = this.look(link);
    const starts = window.earlier;
    const now = window.letter?.start_us ?? null;
    const at = now === null ? starts.length : starts.findIndex((s) => Math.abs(s - now) < STEP_US);
    const next = starts[at + by];
    if (next !== undefined) {
      this.start_us = next;
      return true;
    }
    return by > 0 && this.onward(link, now);
  }

  /** The copy catches up with the drill by a letter, as long as no hand has moved meanwhile. */
  private onward(link: LinkName, after_us: number | null): boolean {
    const copy = this.copy!;
    const until = this.drill.now_us;
    if (this.deeds() !== this.acts) return false;
    while (copy.now_us < until) {
      copy.advance(Math.min(until, copy.now_us + LETTER_US / 3));
      const next = copy.inside(link).window.earlier.find((s) => s > (after_us ?? copy.now_us - LETTER_US) + STEP_US);
      if (next === undefined || copy.now_us < next + LETTER_US) continue;
      this.start_us = next;
      return true;
    }
    return false;
  }
}
