/** What sound is lent: a drill to look at, never to act on, and word of when to look. */
import type { Drill } from '../core/drill.ts';

/** A drill being worked, as far as sound sees it. */
export interface SoundHost {
  readonly drill: Drill;
  /** After anything that may have changed something. Returns how to stop listening. */
  onChange(listener: () => void): () => void;
}

/** Sound at work. */
export interface Sound {
  close(): void;
  /** Nothing is heard; what would be heard is still told by `sounding`. */
  mute(on: boolean): void;
  /** Loudness of everything, 0 to 1. */
  volume(share: number): void;
  /** What sounds now, in words, the newest last: the same list whether or not it can be heard. */
  sounding(): readonly string[];
  /** Tells the list whenever it changes. Returns how to stop listening. */
  onSounding(listener: (words: readonly string[]) => void): () => void;
}
