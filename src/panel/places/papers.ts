/** Papers on the desk: order, frequency chart, call-sign card, recognition card, message forms, station log. */
import type { Hand } from '../controls/control.ts';
import { el, tell } from '../controls/dom.ts';
import { type LogLine, logLine } from '../controls/log.ts';
import type { PanelDrill, Sight } from '../host.ts';

type Papers = PanelDrill['scenario']['papers'];

const row = (cell: 'td' | 'th', texts: readonly string[], mono: readonly number[] = []): HTMLElement =>
  el(
    'tr',
    {},
    ...texts.map((t, i) =>
      el(cell, { ...(mono.includes(i) ? { class: 'mono' } : {}), ...(cell === 'th' ? { scope: 'col' } : {}) }, t),
    ),
  );

/** Whole hours stand alone: 18, but 18 30. */
const hours = (clock: string): string => clock.replace(/:00$/, '').replace(':', ' ');

const sheet = (name: string, cls: string, ...inside: (Node | string)[]): HTMLElement =>
  el('section', { class: `paper ${cls}`, 'aria-label': name, tabindex: 0 }, ...inside);

/** Which frequency serves when, and which stored setting holds it. */
export function frequencyChart(rows: Papers['frequencies'], ...more: HTMLElement[]): HTMLElement {
  return sheet(
    'Frequency chart',
    'paper--chart',
    el('div', { class: 'paper__head' }, el('h2', {}, 'Frequency chart'), ...more),
    el(
      'table',
      {},
      el('thead', {}, row('th', ['name', 'kHz', 'set', 'UTC', 'use'])),
      el(
        'tbody',
        {},
        ...rows.map((r) =>
          row(
            'td',
            [r.name, String(r.kHz), String(r.setting ?? '–'), `${hours(r.from)}–${hours(r.to)}`, r.use],
            [1, 2, 3],
          ),
        ),
      ),
    ),
  );
}

/** Who is who. */
export const callCard = (rows: Papers['calls']): HTMLElement =>
  sheet(
    'Call signs',
    'paper--calls',
    el('h2', {}, 'Call signs'),
    el('table', {}, el('tbody', {}, ...rows.map((r) => row('td', [r.call, r.place, r.who], [0])))),
  );

/** The recognition card, while it is out: the reply stands where row and column cross. */
export function recognitionCard(card: NonNullable<Papers['card']>): Paper {
  const table = el(
    'table',
    { class: 'mono' },
    el(
      'caption',
      { class: 'unseen' },
      `Valid on ${card.valid}. Challenge: row, then column. Reply: the two letters where they cross.`,
    ),
    el('thead', {}, el('tr', {}, el('td', {}), ...[...card.columns].map((c) => el('th', { scope: 'col' }, c)))),
    el(
      'tbody',
      {},
      ...[...card.rows].map((r, i) =>
        el('tr', {}, el('th', { scope: 'row' }, r), ...(card.cells[i] ?? []).map((c) => el('td', {}, c))),
      ),
    ),
  );
  const locked = el('p', { class: 'quiet paper__locked' }, 'Locked away.');
  const note = el('span', { class: 'quiet' }, `valid ${card.valid}`);
  const node = sheet('Recognition card', 'paper--card', el('h2', {}, 'Recognition card'), note, table, locked);
  return {
    el: node,
    update: (s) => {
      const away = s.see('desk.cardsState') === 'locked';
      table.hidden = away;
      locked.hidden = !away;
    },
  };
}

/** The order: sealed until it is read. */
export function orderSlip(): Paper {
  const text = el('p', {});
  const node = el('section', { class: 'paper paper--order', 'aria-label': 'Order' }, el('h2', {}, 'Order'), text);
  return {
    el: node,
    update: (s) => {
      const order = String(s.see('desk.orderText'));
      const read = order !== 'not read';
      node.classList.toggle('paper--sealed', !read);
      tell(text, read ? order : 'Folded. Press to open and read it.');
    },
  };
}

/** A line is a block of its own, so that one too long for a phone goes on under a hanging indent. */
const rowsOf = (lines: readonly string[]): HTMLElement[] => lines.map((l) => el('span', { class: 'row' }, `${l}\n`));

/** Messages as they must go out. */
export const messageForm = (m: Papers['messages'][number]): HTMLElement =>
  el(
    'section',
    { class: 'form', 'aria-label': `Message ${m.id}` },
    el('p', { class: 'quiet' }, `${m.id}, ${m.precedence}, to ${m.to}. As it must go out, line by line.`),
    el('pre', { class: 'mono', tabindex: 0 }, ...rowsOf(m.lines)),
  );

/** A paper that follows the drill. */
export type Paper = { el: HTMLElement; update(s: Sight): void };

/** What hangs on under the log; the slip lies on a form while one is up. */
export type Under = { slip: HTMLElement; card: HTMLElement };

/** Station log and message forms share one place, a tab each. */
export function logAndForms(
  hand: Hand,
  messages: Papers['messages'],
  max: number,
  under?: Under,
): Paper & { line: LogLine } {
  const line = logLine(hand, 'desk.log', max);
  const list = el('div', { class: 'log__lines', role: 'log', 'aria-label': 'Station log', tabindex: 0 });
  const log = el('section', { class: 'log', 'aria-label': 'Log' }, list, line.pad, line.el);
  const panes: [string, HTMLElement][] = [
    ['Station log', log],
    ...messages.map((m): [string, HTMLElement] => [`Message ${m.id}`, messageForm(m)]),
  ];
  const bar = el('div', { role: 'tablist', class: 'tabs', 'aria-label': 'Log and forms' });
  const choose = (n: number) => {
    if (n > 0) line.close();
    panes.forEach(([, pane], i) => {
      pane.hidden = i !== n;
    });
    tabs.forEach((t, i) => {
      t.setAttribute('aria-selected', String(i === n));
      t.tabIndex = i === n ? 0 : -1;
    });
    if (under) n === 0 ? node.after(under.slip) : panes[n]![1].prepend(under.slip);
  };
  const tabs = panes.map(([name, pane], i) => {
    pane.id = `paper-${i}`;
    pane.setAttribute('role', 'tabpanel');
    pane.setAttribute('aria-label', name);
    const tab = el('button', { type: 'button', role: 'tab', class: 'tab', 'aria-controls': pane.id }, name);
    tab.addEventListener('click', () => choose(i));
    tab.addEventListener('keydown', (e) => {
      const by = e.key === 'ArrowRight' ? 1 : e.key === 'ArrowLeft' ? -1 : 0;
      if (!by) return;
      const next = (i + by + panes.length) % panes.length;
      choose(next);
      tabs[next]!.focus();
    });
    return tab;
  });
  bar.append(...tabs);
  const node = el('div', { class: 'paper paper--log' }, bar, ...panes.map(([, p]) => p));
  const stack = el('div', { class: 'stack' }, node, ...(under ? [under.slip, under.card] : []));
  choose(0);
  const toLast = () => {
    list.scrollTop = list.scrollHeight;
  };
  new ResizeObserver(toLast).observe(list);
  let shown = -1;
  return {
    el: under ? stack : node,
    line,
    update: (s) => {
      const lines = (s.see('desk.logLines') as string[] | null) ?? [];
      if (lines.length === shown) return;
      shown = lines.length;
      list.replaceChildren(
        ...lines.map((l) =>
          el('p', {}, el('span', { class: 'mono' }, l.slice(0, 8)), el('span', {}, l.slice(8).trim())),
        ),
      );
      toLast();
    },
  };
}

/** The page as text, for a screen too narrow for its lines. */
export function pageText(): Paper {
  const text = el('pre', { class: 'mono', tabindex: 0 });
  let shown = '';
  return {
    el: el('section', { class: 'paper paper--page', 'aria-label': 'Printed page' }, el('h2', {}, 'Page'), text),
    update: (s) => {
      const lines = (s.see('printer.page') as string[] | null) ?? [];
      if (lines.join('\n') === shown) return;
      shown = lines.join('\n');
      text.replaceChildren(...rowsOf(lines));
      text.scrollTop = text.scrollHeight;
    },
  };
}
