/** Words for what sounds now: what goes on, what the receiver brings, and strikes for a moment after they fell. */
import { STRIKES, type Strike } from './cues.ts';
import type { Running } from './shelter.ts';

/** A strike is told for so long, ms. */
const LASTS_MS = 1500;

/** The list of words, newest last. */
export class Captions {
  private readonly struck = new Map<Strike, number>();
  private list: readonly string[] = [];
  private readonly listeners = new Set<(words: readonly string[]) => void>();

  get words(): readonly string[] {
    return this.list;
  }

  onChange(listener: (words: readonly string[]) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** What goes on and what struck at `now_ms` of any steady clock. */
  tell(now_ms: number, running: Iterable<Running>, received: string | null, strikes: readonly Strike[]): void {
    for (const strike of strikes) {
      this.struck.delete(strike);
      this.struck.set(strike, now_ms);
    }
    for (const [strike, at_ms] of this.struck) if (now_ms - at_ms > LASTS_MS) this.struck.delete(strike);
    const words = [...running].map((r) => r.words);
    if (received) words.push(received);
    for (const strike of this.struck.keys()) words.push(STRIKES[strike].words);
    if (words.length === this.list.length && words.every((w, i) => w === this.list[i])) return;
    this.list = words;
    for (const listener of this.listeners) listener(words);
  }
}
