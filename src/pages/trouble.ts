/** What is said when something went wrong: what happened, why it matters, what to do. */
import type { Located } from '../core/scenario/scenario.ts';
import { h, type Inside } from './dom.ts';
import type { Trouble } from './host.ts';

/** A note on the page; screen readers are told at once. */
export const troubleNote = (t: Trouble, ...more: Inside[]): HTMLElement =>
  h(
    'div',
    { class: 'trouble lies', role: 'alert' },
    h('strong', {}, t.what),
    h('p', {}, t.why),
    h('p', {}, t.todo),
    more,
  );

/** Errors that have a place in a text: file, line, column, the line itself and a caret. At most five are shown. */
export function locatedNote({ what, why, todo }: Trouble, errors: readonly Located[], ...more: Inside[]): HTMLElement {
  const said = errors
    .slice(0, 5)
    .map((e) => `${e.file}:${e.line}:${e.col}: ${e.code} expected ${e.expected}\n${cut(e.source)}\n${cut(e.caret)}`);
  const rest = errors.length > 5 && h('p', { class: 'aside' }, `and ${errors.length - 5} more`);
  return troubleNote(
    { what, why, todo },
    h('pre', { tabindex: 0, 'aria-label': 'Where the errors are' }, said.join('\n\n')),
    rest,
    more,
  );
}

/** A line of a hostile file may be megabytes long. */
const cut = (line: string): string => (line.length > 160 ? `${line.slice(0, 160)} ...` : line);
