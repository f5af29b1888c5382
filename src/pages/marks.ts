/** The outcome and the table of measures. */
import type { Debrief, Judged } from '../core/debrief/debrief.ts';
import { h } from './dom.ts';
import { held } from './hours.ts';

/** GO or NO-GO, a hole for every measure that was met, and the points. */
export function verdict(d: Debrief): HTMLElement {
  const met = d.measures.filter((m) => m.go).length;
  return h(
    'div',
    { class: 'verdict' },
    h('strong', { class: 'verdict__word' }, d.verdict),
    h(
      'span',
      { class: 'verdict__tape' },
      h(
        'span',
        { class: 'verdict__holes', 'aria-hidden': 'true' },
        ...d.measures.map((m) => h('span', { class: m.go ? 'hole hole--punched' : 'hole' })),
      ),
      h(
        'span',
        {},
        h('b', {}, `${met} of ${d.measures.length}`),
        `, ${Math.round(d.score)} points of 100, GO from ${d.pass}`,
      ),
    ),
  );
}

const state = (m: Judged): string => (m.go ? 'met' : m.exercised ? 'not met' : 'not tried');

function row(m: Judged, d: Debrief, choose: (i: number) => void): HTMLElement {
  const finding = d.findings.findIndex((f) => f.measure === m.id);
  const title = finding >= 0 ? h('button', { type: 'button', onclick: () => choose(finding) }, m.title) : m.title;
  return h(
    'tr',
    { class: m.critical && 'must' },
    h('th', { scope: 'row' }, title, m.critical && h('span', { class: 'unseen' }, ', must be met')),
    h('td', {}, held(m.standard)),
    h('td', { class: 'yours' }, held(m.yours)),
    h(
      'td',
      { class: 'state' },
      h('span', { class: m.go ? 'hole hole--punched' : 'hole', 'aria-hidden': 'true' }),
      ` ${state(m)}`,
    ),
    h('td', { class: 'mono' }, `${Math.round(m.points)}/${m.of}`),
  );
}

/** Every measure with its standard, what it was, and whether that met it; `choose` opens a finding. */
export function measures(d: Debrief, choose: (i: number) => void): HTMLElement {
  const head = ['Measures', 'standard', 'yours', '', 'points'].map((name) =>
    h('th', { scope: 'col' }, name || h('span', { class: 'unseen' }, 'met')),
  );
  return h(
    'section',
    { class: 'debrief__measures', 'aria-label': 'Measures' },
    h(
      'table',
      { class: 'measures' },
      h('thead', {}, h('tr', {}, ...head)),
      h('tbody', {}, ...d.measures.map((m) => row(m, d, choose))),
    ),
    h(
      'p',
      { class: 'debrief__legend' },
      h('span', {}, h('span', { class: 'hole hole--punched' }), ' met'),
      h('span', {}, h('span', { class: 'hole' }), ' not met'),
      h('span', {}, 'framed: must be met'),
    ),
  );
}
