/**
 * One drill being worked in the browser. It keeps the drill's clock, stores everything that is done to the drill before
 * it takes effect, and so can go on after any reload, to the event.
 */
import type { Drill } from '../core/drill.ts';
import type { NextStep } from '../core/guide/guide.ts';
import type { Manner } from '../core/record/record.ts';
import type { ControlValue } from '../core/signals.ts';
import { type Clock, WallClock } from './clock.ts';
import type { Entry, RunHead, RunShelf, Workbench } from './host.ts';

/** Longer than this between two looks at the clock and the machine was asleep, ms. */
const ASLEEP_MS = 5000;
/** The clock is stored at least so often, drill time in us. */
const KEEP_US = 1_000_000;
/** Boxes integrate at this period, us: between two of them needles do not move by themselves. */
const TICK_US = 250_000;
/** After this long without news the loop slows down, ms. */
const CALM_MS = 1500;
/** How often it then looks, ms. */
const CALM_LOOK_MS = 50;

/** What a session stands on. */
export type Footing = { runs: RunShelf; clock?: Clock; wall_ms?: () => number };

/** A drill at work, its clock and its journal. */
export class Session implements Workbench {
  private readonly clock: Clock;
  private readonly wall_ms: () => number;
  private readonly base_us: number;
  private readonly guide: { next(view: Drill): NextStep | null };
  private readonly listeners = new Set<() => void>();
  private step: NextStep | null = null;
  private asked = false;
  private kept_us = 0;
  private seenLines = 0;
  private seenTick = 0;
  private news_ms = 0;
  private looked_ms = 0;
  private away: { since_ms: number; why: string } | undefined;
  private running = false;
  private unwait: (() => void) | undefined;
  private frame: number | undefined;

  constructor(
    private readonly footing: Footing,
    readonly head: RunHead,
    readonly drill: Drill,
    guide: { next(view: Drill): NextStep | null },
  ) {
    this.clock = footing.clock ?? new WallClock();
    this.wall_ms = footing.wall_ms ?? Date.now;
    this.guide = guide;
    this.base_us = drill.now_us - Math.round(this.clock.now() * 1000);
    this.kept_us = drill.now_us;
  }

  get manner(): Manner {
    return this.head.manner;
  }

  get title(): string {
    return this.head.title;
  }

  /** Whether the clock stands: hidden, paused, or not begun. */
  get standing(): boolean {
    return !this.running;
  }

  /** Sets the clock going; what happened while it stood is written down if it was `away`. */
  go(): void {
    if (this.drill.ended) return;
    if (this.away) this.back(this.away);
    this.away = undefined;
    this.clock.start();
    this.looked_ms = this.clock.now();
    this.news_ms = this.looked_ms;
    this.loop();
    this.letGo();
    this.changed();
  }

  /** Stops the clock: the page is hidden or closed, or the trainee pauses. No drill time passes until `go`. */
  stop(why: string): void {
    if (this.drill.ended || this.away) return;
    this.look();
    this.letGo();
    if (this.drill.ended) return;
    this.away = { since_ms: this.wall_ms(), why };
    this.clock.stop();
    this.unloop();
    this.keep();
    this.tell();
  }

  /** A stored run is taken up again, once, before `go`: the clock had last been kept at `since_ms` by the wall. */
  resumed(since_ms: number, step: NextStep | null): void {
    this.away = { since_ms, why: 'closed' };
    this.step = step;
  }

  act(control: string, value: ControlValue, stamp_ms?: number): string | undefined {
    if (this.drill.ended) return 'the drill is over';
    if (this.standing) return 'the clock stands';
    const t = Math.max(this.drill.now_us, this.wholeMs(this.clock.at(stamp_ms)));
    this.store({ t, control, value });
    this.drill.advance(t);
    const why = this.drill.act(control, value);
    this.news_ms = this.clock.now();
    this.changed();
    if (this.running) this.loop();
    return why;
  }

  help(what: string): void {
    if (this.drill.ended || this.manner === 'unaided' || this.manner === 'assessed') return;
    const t = this.drill.now_us;
    this.store({ t, help: what });
    this.drill.remark({ k: 'help', what });
  }

  /** Asked in *prompted*: the step that is due, which stays shown until it is done. */
  askHelp(): NextStep | null {
    if (this.manner !== 'prompted') return this.guideStep();
    this.look();
    this.step = this.guide.next(this.drill);
    if (this.step && !this.asked) this.help(this.step.step.id);
    this.asked = true;
    this.tell();
    return this.step;
  }

  guideStep(): NextStep | null {
    return this.manner === 'shown' || (this.manner === 'prompted' && this.asked) ? this.step : null;
  }

  /** Ends the drill from outside it. */
  end(why: string): void {
    if (this.drill.ended) return;
    this.look();
    this.store({ t: this.drill.now_us, end: why });
    this.drill.end(why);
    this.changed();
  }

  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Lets the drill come up to the clock now. The loop calls it; a test with a clock of its own may. */
  look(): void {
    if (this.drill.ended || this.away) return;
    const now = this.clock.now();
    if (this.clock.sleeps && now - this.looked_ms > ASLEEP_MS) {
      this.slept(now - this.looked_ms);
      return;
    }
    this.looked_ms = now;
    this.drill.advance(Math.max(this.drill.now_us, this.wholeMs(now)));
    this.changed();
  }

  /** Leaves the drill as it is on the shelf. */
  close(): void {
    this.stop('closed');
    this.unloop();
    this.listeners.clear();
  }

  /**
   * No finger holds a push while the clock stands: what a dialog or a hidden page takes from the hand is let go before it,
   * and what a killed page held is let go when the run goes on.
   */
  private letGo(): void {
    for (const control of heldPushes(this.drill)) this.act(control, false);
  }

  private wholeMs(clock_ms: number): number {
    return Math.round((this.base_us + clock_ms * 1000) / 1000) * 1000;
  }

  private store(entry: Entry): void {
    this.footing.runs.append(this.head.id, entry);
  }

  private keep(): void {
    this.kept_us = this.drill.now_us;
    this.footing.runs.keepClock(this.head.id, this.kept_us, this.outcome());
  }

  private outcome(): string | undefined {
    if (!this.drill.ended) return undefined;
    const last = this.drill.record.lines.at(-1);
    return last?.k === 'end' ? last.why : 'ended';
  }

  private back({ since_ms, why }: { since_ms: number; why: string }): void {
    const away_ms = Math.max(0, Math.round(this.wall_ms() - since_ms));
    const t = this.drill.now_us;
    this.store({ t, away_ms, why });
    this.drill.remark({ k: 'interruption', wall_ms: away_ms, why });
  }

  /** The computer slept while the page could be seen: the gap is an interruption, not drill time. */
  private slept(gap_ms: number): void {
    this.clock.skip(gap_ms);
    this.back({ since_ms: this.wall_ms() - gap_ms, why: 'asleep' });
  }

  private changed(): void {
    const { drill } = this;
    const tick = Math.floor(drill.now_us / TICK_US);
    const grown = drill.record.lines.length !== this.seenLines;
    if (grown) this.news_ms = this.clock.now();
    if (!grown && tick === this.seenTick && this.calm()) return;
    this.seenTick = tick;
    this.follow();
    this.seenLines = drill.record.lines.length;
    if (drill.ended) this.unloop();
    if (drill.ended || drill.now_us - this.kept_us >= KEEP_US) this.keep();
    this.tell();
  }

  private follow(): void {
    if (this.manner !== 'shown' && this.manner !== 'prompted') return;
    const before = this.step?.index;
    this.step = this.guide.next(this.drill);
    if (this.step?.index === before) return;
    this.asked = false;
    if (this.manner === 'shown' && this.step) this.help(this.step.step.id);
  }

  /** Looks every frame while there is news, and every 50 ms when there is none. Calling it again hurries it up. */
  private loop(): void {
    this.unloop();
    this.running = true;
    if (!this.clock.sleeps) return;
    const look = () => {
      this.look();
      if (this.running) this.loop();
    };
    if (this.calm()) {
      const timer = setTimeout(look, CALM_LOOK_MS);
      this.unwait = () => clearTimeout(timer);
    } else {
      const frame = requestAnimationFrame(look);
      this.unwait = () => cancelAnimationFrame(frame);
    }
  }

  private unloop(): void {
    this.unwait?.();
    this.unwait = undefined;
    this.running = false;
  }

  private calm(): boolean {
    return this.clock.now() - this.news_ms > CALM_MS;
  }

  /** At most once a frame; when calm the looks themselves are rarer than frames, and a frame asked for would cost more. */
  private tell(): void {
    if (this.frame !== undefined) return;
    if (typeof requestAnimationFrame === 'undefined' || this.calm()) return this.tellNow();
    this.frame = requestAnimationFrame(() => this.tellNow());
  }

  private tellNow(): void {
    this.frame = undefined;
    for (const listener of this.listeners) listener();
  }
}

/** Pushes that stand pressed, in the order in which they were first used. */
function heldPushes(drill: Drill): string[] {
  const used = new Set(drill.record.lines.flatMap((l) => (l.k === 'do' ? [l.control] : [])));
  const isHeld = (name: string) => drill.control(name)?.range.kind === 'press' && drill.standing(name) === true;
  return [...used].filter(isHeld);
}
