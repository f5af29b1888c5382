/** How pages lead to each other. */
import type { Manner } from '../core/record/record.ts';

/** One page on the screen. */
export type Page = {
  el: HTMLElement;
  /** For the window's title. */
  title: string;
  /** What a plain key does here (letters small); undefined if nothing. Not asked while text is being entered. */
  key?(key: string): (() => void) | undefined;
  /** Leaves the page. */
  close?(): void;
};

/** Where one can go from a page. */
export interface Ways {
  /** The draw that the next drill begins with. */
  seed: number;
  first(): void;
  order(drill: string, manner: Manner): void;
  work(run: string): void;
  debrief(run: string): void;
  openRecord(): void;
}
