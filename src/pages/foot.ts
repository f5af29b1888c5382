/** The foot of a page: where one is, and the page's keys, each of which is a button as well. */
import { cap, h } from './dom.ts';

/** A key of a page: its name on the cap, what it does in words, and the doing. */
export type Key = readonly [key: string, does: string, go: () => void];

/** The foot. */
export const foot = (says: string, keys: readonly Key[]): HTMLElement =>
  h(
    'footer',
    { class: 'foot' },
    h('span', {}, h('b', {}, 'Keydown'), ` ${says}`),
    h(
      'ul',
      {},
      ...keys.map(([key, does, go]) => h('li', {}, h('button', { type: 'button', onclick: go }, cap(key), does))),
    ),
  );

/** What the key named so does; `key` is as a page is asked, letters small. */
export const keyed = (keys: readonly Key[], key: string): (() => void) | undefined =>
  keys.find(([name]) => name.toLowerCase() === (key === 'escape' ? 'esc' : key))?.[2];
