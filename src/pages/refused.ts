/** Stored runs that cannot be worked again: what is kept of them can be had as a file. */
import { type Header, notTaken, writerOf } from '../core/record/record.ts';
import { h } from './dom.ts';
import type { Faulty, Lent, RunHead, Trouble } from './host.ts';
import { saveText } from './save.ts';
import { locatedNote } from './trouble.ts';

/** A button that saves all that the shelf holds of a run. */
export const saveJournal = (lent: Lent, id: string): HTMLElement =>
  h(
    'button',
    { type: 'button', class: 'push', onclick: () => saveText(`keydown-journal-${id}.txt`, lent.runs.raw(id)) },
    'Save the journal',
  );

const FAULTY_RUN: Trouble = {
  what: 'This run’s drill has errors, so it cannot be worked again.',
  why: 'What is kept of it was changed outside the trainer. The run stays as it is.',
  todo: 'Save its journal if you want to look into it. The errors stand below.',
};
const FAULTY_RECORD: Trouble = {
  what: 'This record cannot be read.',
  why: 'A mark is made from the record alone, so there is none without it.',
  todo: 'Take the file as the trainer saved it; the first fault is shown below.',
};

/** A record from a file that cannot be read, or whose drill this version does not take. */
export function refusedRecord(errors: Faulty['errors'], header?: Header): HTMLElement {
  const why = header && notTaken(header, 'record');
  if (header === undefined || why === undefined) return locatedNote(FAULTY_RECORD, errors);
  const what = 'This version cannot mark this record.';
  const todo = `Mark it with ${writerOf(header)}. What is not taken stands below.`;
  return locatedNote({ what, why: `${why}.`, todo }, errors);
}

/** A stored run whose drill this version does not take. Nothing of it is lost. */
export function refusedRun(lent: Lent, head: RunHead, errors: Faulty['errors'], ...more: HTMLElement[]): HTMLElement {
  const why = notTaken(head, 'journal');
  const trouble =
    why === undefined
      ? FAULTY_RUN
      : {
          what: 'This version cannot work this run again.',
          why: `${why}. The run is kept as it is.`,
          todo: `Open it with ${writerOf(head)}, or save its journal. What is not taken stands below.`,
        };
  return locatedNote(trouble, errors, h('div', { class: 'slip__foot' }, saveJournal(lent, head.id), more));
}
