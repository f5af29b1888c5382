/** Stored runs that cannot be worked again: what is kept of them can be had as a file. */
import { ENGINE } from '../core/record/record.ts';
import { h } from './dom.ts';
import type { Faulty, Lent, RunHead } from './host.ts';
import { saveText } from './save.ts';
import { locatedNote } from './trouble.ts';

/** A button that saves all that the shelf holds of a run. */
export const saveJournal = (lent: Lent, id: string): HTMLElement =>
  h(
    'button',
    { type: 'button', class: 'push', onclick: () => saveText(`keydown-journal-${id}.txt`, lent.runs.raw(id)) },
    'Save the journal',
  );

/** A stored run whose drill this version does not take. Nothing of it is lost. */
export function refusedRun(lent: Lent, head: RunHead, errors: Faulty['errors'], ...more: HTMLElement[]): HTMLElement {
  const trouble = {
    what: 'This run’s drill has errors, so it cannot be worked again.',
    why: `It was begun with ${head.engine}; this is ${ENGINE}. The run is kept as it is.`,
    todo: 'Open it with the version that began it, or save its journal. The errors stand below.',
  };
  return locatedNote(trouble, errors, h('div', { class: 'slip__foot' }, saveJournal(lent, head.id), more));
}
