/** One finding as a card: what happened, why it matters, what to do next time. */
import type { Debrief, Finding } from '../core/debrief/debrief.ts';
import { h } from './dom.ts';
import { held, utcText } from './hours.ts';

function turner(i: number, of: number, choose: (i: number) => void): HTMLElement | false {
  const turn = (to: number, says: string) =>
    h(
      'button',
      { type: 'button', class: 'push', disabled: to < 0 || to >= of, onclick: () => choose(to), 'data-turn': says },
      says,
    );
  return (
    of > 1 &&
    h(
      'div',
      { class: 'finding__turn' },
      turn(i - 1, 'Before'),
      h('span', { class: 'aside' }, `${i + 1} of ${of}`),
      turn(i + 1, 'Next'),
    )
  );
}

/** The card of finding `i`; `choose` turns to another. */
export function card(f: Finding, i: number, d: Debrief, choose: (i: number) => void): HTMLElement {
  return h(
    'article',
    { class: 'finding sheet', 'aria-labelledby': 'finding-title' },
    h(
      'header',
      { class: 'finding__head' },
      h('span', { class: 'finding__n' }, i + 1),
      h(
        'div',
        {},
        h('h2', { id: 'finding-title' }, f.head),
        f.exercised && h('p', { class: 'mono' }, utcText(d.utc0, f.at_us)),
        f.critical && h('p', { class: 'finding__must' }, 'This must be met.'),
      ),
    ),
    h('h3', {}, 'What happened'),
    h('p', {}, held(f.told)),
    h('h3', {}, 'Why it matters'),
    h('p', {}, held(f.why)),
    h('h3', {}, 'Next time'),
    h('p', {}, held(f.next)),
    turner(i, d.findings.length, choose),
  );
}

/** The card when there is nothing to say. */
export const clean = (): HTMLElement =>
  h(
    'article',
    { class: 'finding sheet' },
    h('header', { class: 'finding__head' }, h('h2', {}, 'Nothing to mend')),
    h(
      'p',
      {},
      'Every measure was met. Another draw of the same drill changes the dial, the filter, the challenge and the text.',
    ),
  );
