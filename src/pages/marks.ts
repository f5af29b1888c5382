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
        ...d.measures.map((m) => h('span', { class: MARKS[stateOf(m)] })),
      ),
      h(
        'span',
        {},
        h('b', {}, `${met} of ${d.measures.length}`),
        `, ${Math.round(d.score)} points of 100, ${wantedFor(d)}`,
      ),
    ),
  );
}

/** What GO would have wanted: what must be met and was not, or else the points. */
function wantedFor(d: Debrief): string {
  const missed = d.measures.filter((m) => m.critical && !m.go).length;
  if (missed === 0) return `GO from ${d.pass}`;
  return missed === 1 ? '1 that must be met was not' : `${missed} that must be met were not`;
}

/** A verdict as a shape: a hole, a hole not punched, a stroke; and in words for those who do not see it. */
const MARKS = { met: 'hole hole--punched', 'not met': 'hole', 'not tried': 'hole hole--none' } as const;
type State = keyof typeof MARKS;
const stateOf = (m: Judged): State => (m.go ? 'met' : m.exercised ? 'not met' : 'not tried');

function row(m: Judged, d: Debrief, choose: (i: number) => void): HTMLElement {
  const finding = d.findings.findIndex((f) => f.measure === m.id);
  const title = finding >= 0 ? h('button', { type: 'button', onclick: () => choose(finding) }, m.title) : m.title;
  return h(
    'tr',
    { class: m.critical && 'must' },
    h('th', { scope: 'row' }, title, m.critical && h('span', { class: 'unseen' }, ', must be met')),
    h('td', { class: 'wanted' }, held(m.standard)),
    h('td', { class: 'yours' }, held(m.yours)),
    h(
      'td',
      { class: 'state' },
      h('span', { class: MARKS[stateOf(m)], 'aria-hidden': 'true' }),
      h('span', { class: 'unseen' }, stateOf(m)),
    ),
    h('td', { class: 'mono points' }, `${Math.round(m.points)}/${m.of}`),
  );
}

/** Every measure with its standard, what it was, and whether that met it; `choose` opens a finding. */
export function measures(d: Debrief, choose: (i: number) => void): HTMLElement {
  const head = ['Measures', 'standard', 'yours', 'met', 'points'].map((name) => h('th', { scope: 'col' }, name));
  const states = (Object.keys(MARKS) as State[]).filter((s) => s === 'met' || d.measures.some((m) => stateOf(m) === s));
  return h(
    'section',
    { class: 'debrief__measures', 'aria-label': 'Measures' },
    h(
      'table',
      { class: 'measures measures--debrief' },
      h('thead', {}, h('tr', {}, ...head)),
      h('tbody', {}, ...d.measures.map((m) => row(m, d, choose))),
    ),
    h(
      'p',
      { class: 'debrief__legend' },
      ...states.map((s) => h('span', {}, h('span', { class: MARKS[s] }), ` ${s}`)),
      h('span', {}, 'framed: must be met'),
    ),
  );
}
