/** What the order's page shows of a scenario, and the cautions. */
import type { MeasureSpec, Scenario } from '../core/scenario/scenario.ts';
import { h } from './dom.ts';
import { dayText, held } from './hours.ts';
import { callsTable, cardTable, frequencyTable, messageForm } from './papers.ts';

const CAUTIONS = [
  'The foot of a whip that radiates stands at more than a thousand volts. Guard on, nobody within reach, hands off.',
  'Never raise a whip under or near overhead lines. Look up first.',
  'Engine exhaust kills in a closed shelter. Fan on, hatch open, when the engine runs.',
  'High voltage stays inside a sender after it is switched off. Opening it is for those who are qualified.',
  'Lead-acid batteries give off gas that explodes, and their acid burns. No flame, no spark, no bare hand.',
];
const DEFER =
  'On real equipment the local codes, the equipment’s own manual and licensed or qualified people decide, not this trainer.';

/** The order: who, when, what, under which conditions, by which standards. */
export function orderSheet({ title, order, world, own }: Scenario): HTMLElement {
  return h(
    'article',
    { class: 'order__sheet sheet', 'aria-labelledby': 'order-title' },
    h(
      'p',
      { class: 'order__head mono' },
      h('span', {}, `to ${own.call}`),
      h('span', {}, `${dayText(world.date)}, ${world.utc.slice(0, 5).replace(':', ' ')} UTC`),
    ),
    h('h1', { id: 'order-title' }, title),
    h('h2', {}, 'Task'),
    h('p', {}, held(order.task)),
    h('h2', {}, 'Conditions'),
    h('ul', { class: 'dashes' }, ...order.conditions.map((c) => h('li', {}, held(c)))),
    h('h2', {}, 'Standards'),
    h('ul', { class: 'dashes' }, ...order.standards.map((c) => h('li', {}, held(c)))),
  );
}

function measureRow(m: MeasureSpec): HTMLElement {
  return h(
    'tr',
    { class: m.critical && 'must' },
    h('th', { scope: 'row' }, m.title, m.critical && h('span', { class: 'unseen' }, ', must be met')),
    h('td', {}, held(m.standard)),
    h('td', { class: 'mono' }, m.weight),
  );
}

/** Every measure with its standard and its points; folded up on a phone. */
export function measures({ measures: all, pass }: Scenario): HTMLElement {
  return h(
    'section',
    { class: 'order__marks', 'aria-labelledby': 'order-measures' },
    h(
      'div',
      { class: 'under' },
      h('h2', { id: 'order-measures' }, 'How it is marked'),
      h('span', {}, `GO from ${pass} of 100, with every framed one met`),
    ),
    h(
      'details',
      { class: 'fold order__all', open: !matchMedia('(max-width: 47.5em)').matches },
      h('summary', {}, 'Every measure', h('span', { class: 'aside' }, `${all.length} in all`)),
      h(
        'table',
        { class: 'measures measures--order' },
        h(
          'thead',
          {},
          h(
            'tr',
            {},
            h('th', { scope: 'col' }, 'Measure'),
            h('th', { scope: 'col' }, 'Standard'),
            h('th', { scope: 'col' }, 'Points'),
          ),
        ),
        h('tbody', {}, ...all.map(measureRow)),
      ),
    ),
  );
}

/** The papers of the desk: open where they have a column of their own (order.css), else folded up. */
export function papers({ papers: p }: Scenario): HTMLElement {
  const open = !matchMedia('(max-width: 68em)').matches;
  const fold = (title: string, inside: HTMLElement) =>
    h(
      'details',
      { class: 'fold', open },
      h('summary', {}, title),
      h('div', { class: 'fold__in', tabindex: 0, role: 'group', 'aria-label': title }, inside),
    );
  return h(
    'section',
    { class: 'order__papers', 'aria-labelledby': 'order-papers' },
    h(
      'div',
      { class: 'under' },
      h('h2', { id: 'order-papers' }, 'Papers on the desk'),
      h('span', {}, 'they lie there during the drill, too'),
    ),
    h(
      'div',
      { class: 'order__folds' },
      fold('Frequency chart', frequencyTable(p.frequencies)),
      fold('Call-sign card', callsTable(p.calls)),
      p.card && fold(`Recognition card “${p.card.name}”`, cardTable(p.card)),
      ...p.messages.map((m) => fold(`Message ${m.id.replace(/^NR/, 'NR ')}, ${m.precedence}`, messageForm(m))),
    ),
  );
}

/** What can hurt where the real work is done, and who decides there. It stands before the start. */
export const cautions = (): HTMLElement =>
  h(
    'section',
    { class: 'cautions', 'aria-labelledby': 'order-cautions' },
    h('h2', { id: 'order-cautions' }, h('span', { class: 'warns', 'aria-hidden': 'true' }), 'Cautions'),
    h('ul', { class: 'dashes' }, ...CAUTIONS.map((c) => h('li', {}, c))),
    h('p', {}, DEFER),
  );
