/** The stored runs: go on with one, see its debrief, or remove it. */
import { ENGINE } from '../core/record/record.ts';
import { h } from './dom.ts';
import { otherEngine } from './engine.ts';
import type { Lent, RunClock, RunHead } from './host.ts';
import { lasting, sinceText } from './hours.ts';
import { ask, openSlip } from './slip.ts';
import type { Ways } from './ways.ts';

/** A run as the shelf lists it. */
export type Stored = { head: RunHead; clock: RunClock };

function about({ head, clock }: Stored): string {
  const other = otherEngine(head);
  const said = `${lasting(clock.t)}, ${clock.outcome ?? 'not finished'}, ${sinceText(clock.wall_ms)}`;
  return other === undefined ? said : `${said}, begun with ${other} (this is ${ENGINE})`;
}

/** Opens the list; closing it builds the first page anew, unless a run was chosen. */
export function storedSlip(lent: Lent, ways: Ways): void {
  const row = ({ head, clock }: Stored): HTMLElement => {
    const done = clock.outcome !== undefined;
    const item = h(
      'li',
      {},
      h('span', {}, h('b', {}, head.title), `, ${head.manner}, draw ${head.seed}`),
      h(
        'span',
        { class: 'stored__do' },
        h(
          'button',
          {
            type: 'button',
            class: 'push',
            onclick: () => {
              // A slip tells that it is shut only later: then, and not now, one goes on.
              next = () => (done ? ways.debrief(head.id) : ways.work(head.id));
              slip.close();
            },
          },
          done ? 'Debrief' : 'Go on',
        ),
        h('button', { type: 'button', class: 'push', onclick: () => remove(head, item) }, 'Remove'),
      ),
      h('span', { class: 'aside' }, about({ head, clock })),
    );
    return item;
  };
  const remove = (head: RunHead, item: HTMLElement) =>
    ask(
      {
        title: 'Remove this run?',
        text: `${head.title}, draw ${head.seed}. Its record cannot be had back.`,
        yes: 'Remove it',
        no: 'Keep it',
      },
      () => {
        lent.runs.remove(head.id);
        item.remove();
      },
    );
  const runs = lent.runs.list();
  let next = () => ways.first();
  const slip = openSlip(
    'Stored runs',
    () =>
      runs.length > 0
        ? h('ul', { class: 'stored' }, ...runs.map(row))
        : h('p', {}, 'None yet. Every drill you begin is kept here.'),
    () => next(),
  );
}
