/** The order, the papers that belong to it, and the start. */
import type { Manner } from '../core/record/record.ts';
import type { MeasureSpec, Scenario } from '../core/scenario/scenario.ts';
import { cap, h, refill } from './dom.ts';
import type { DrillInfo, Lent, Rooms } from './host.ts';
import { dayText, held } from './hours.ts';
import { drawChoice, mannerChoice } from './manner.ts';
import { callsTable, cardTable, frequencyTable, messageForm } from './papers.ts';
import { keysSlip } from './slip.ts';
import { locatedNote } from './trouble.ts';
import type { Page, Ways } from './ways.ts';

/** What the first page decided. */
export type Chosen = { drill: DrillInfo; manner: Manner; seed: number };

const CAUTIONS = [
  'The foot of a whip that radiates stands at more than a thousand volts. Guard on, nobody within reach, hands off.',
  'Never raise a whip under or near overhead lines. Look up first.',
  'Engine exhaust kills in a closed shelter. Fan on, hatch open, when the engine runs.',
  'High voltage stays inside a sender after it is switched off. Opening it is for those who are qualified.',
  'Lead-acid batteries give off gas that explodes, and their acid burns. No flame, no spark, no bare hand.',
];
const DEFER =
  'On real equipment the local codes, the equipment’s own manual and licensed or qualified people decide, not this trainer.';

function orderSheet({ title, order, world, own }: Scenario): HTMLElement {
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

function measures({ measures: all, pass }: Scenario): HTMLElement {
  return h(
    'section',
    { 'aria-labelledby': 'order-measures' },
    h(
      'div',
      { class: 'under' },
      h('h2', { id: 'order-measures' }, 'How it is marked'),
      h('span', {}, `GO from ${pass} of 100, with every framed one met`),
    ),
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
  );
}

function papers({ papers: p }: Scenario): HTMLElement {
  const fold = (title: string, inside: HTMLElement) =>
    h(
      'details',
      { class: 'fold' },
      h('summary', {}, title),
      h('div', { class: 'fold__in', tabindex: 0, role: 'group', 'aria-label': title }, inside),
    );
  return h(
    'section',
    { 'aria-labelledby': 'order-papers' },
    h(
      'div',
      { class: 'under' },
      h('h2', { id: 'order-papers' }, 'Papers on the desk'),
      h('span', {}, 'they lie there during the drill, too'),
    ),
    fold('Frequency chart', frequencyTable(p.frequencies)),
    fold('Call-sign card', callsTable(p.calls)),
    p.card && fold(`Recognition card “${p.card.name}”`, cardTable(p.card)),
    ...p.messages.map((m) => fold(`Message ${m.id.replace(/^NR/, 'NR ')}, ${m.precedence}`, messageForm(m))),
  );
}

const cautions = (): HTMLElement =>
  h(
    'section',
    { class: 'cautions', 'aria-labelledby': 'order-cautions' },
    h('h2', { id: 'order-cautions' }, h('span', { class: 'warns', 'aria-hidden': 'true' }), 'Cautions'),
    h('ul', { class: 'dashes' }, ...CAUTIONS.map((c) => h('li', {}, c))),
    h('p', {}, DEFER),
  );

/** Builds the page; its sheet arrives with the scenario. */
export function orderPage(lent: Lent, ways: Ways, chosen: Chosen): Page {
  const { drill } = chosen;
  let begin: (() => void) | undefined;
  const sheet = h('div', { class: 'order__main lies' }, h('p', { role: 'status' }, 'Fetching the order ...'));
  const side = h('div', { class: 'order__side lies' });
  const start = h(
    'button',
    { type: 'button', class: 'flag flag--first flag--go', disabled: true, onclick: () => begin?.() },
    h(
      'span',
      {},
      h('span', {}, h('strong', {}, 'Start'), h('span', { class: 'order__manner' }, says(chosen.manner))),
      cap('Enter'),
    ),
  );
  const how = h(
    'div',
    { class: 'how how--order' },
    mannerChoice(chosen.manner, (manner) => {
      chosen.manner = manner;
      lent.settings.keep({ ...lent.settings.read(), manner });
      refill(start.querySelector('.order__manner') as HTMLElement, says(manner));
    }),
    drawChoice(chosen.seed, (seed) => {
      ways.seed = seed;
      ways.order(drill.id, chosen.manner);
    }),
  );
  const show = (text: string, rooms: Rooms) => {
    const name = `${drill.id}.yaml`;
    const read = rooms.scenario(text, name, chosen.seed);
    if (!read.ok) {
      refill(
        sheet,
        locatedNote(
          'This drill’s file has errors.',
          'Nothing of it was loaded, so it cannot be worked.',
          'Mend the file at the places below.',
          read.errors,
        ),
      );
      return;
    }
    refill(sheet, orderSheet(read.scenario), papers(read.scenario), cautions());
    refill(side, start, how, measures(read.scenario));
    start.disabled = false;
    begin = () => {
      const { stretch } = lent.settings.read();
      const about = {
        name,
        scenario: text,
        seed: chosen.seed,
        manner: chosen.manner,
        stretch,
        engine: rooms.engine,
        title: read.scenario.title,
      };
      ways.work(lent.runs.begin(about).id);
    };
  };
  Promise.all([lent.text(drill.id), lent.rooms()]).then(([text, rooms]) => show(text, rooms));
  const keys = () =>
    keysSlip(
      [
        ['Enter', 'start the drill'],
        ['Esc', 'back to the drills'],
      ],
      'In the shelter, shortcuts sit behind Alt.',
    );
  const el = h(
    'div',
    { class: 'page page--order' },
    h('main', { class: 'order', id: 'main' }, sheet, side),
    h(
      'footer',
      { class: 'foot' },
      h('span', {}, h('b', {}, 'Keydown'), ' order'),
      h(
        'ul',
        {},
        h('li', {}, h('button', { type: 'button', onclick: () => ways.first() }, cap('Esc'), 'drills')),
        h('li', {}, h('button', { type: 'button', onclick: keys }, cap('?'), 'keys')),
      ),
    ),
  );
  const byKey: Record<string, () => void> = { Enter: () => begin?.(), escape: () => ways.first(), '?': keys };
  return { el, title: `${drill.title} - Keydown`, key: (key) => byKey[key] };
}

const says = (manner: Manner): string => `Manner: ${manner}.`;
