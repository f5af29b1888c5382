/** How pages lead to each other. */
import type { Manner } from '../core/record/record.ts';
import type { How } from './manner.ts';

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
  /** Whether a person gave that draw: then an assessed drill takes it too. */
  given: boolean;
  first(): void;
  order(drill: string, manner: Manner): void;
  /** Puts into the address what the order's page has come to show, without leaving that page. */
  ordered(drill: string, how: How): void;
  work(run: string): void;
  debrief(run: string): void;
  openRecord(): void;
}
