/** What the debrief rests on, to be opened: the drill in words, and each message as it arrived. */
import type { Debrief, Garble } from '../core/debrief/debrief.ts';
import { h } from './dom.ts';

const fold = (title: string, aside: string, inside: HTMLElement): HTMLElement =>
  h(
    'details',
    { class: 'fold' },
    h('summary', {}, title, h('span', { class: 'aside' }, aside)),
    h('div', { class: 'fold__in', tabindex: 0, role: 'group', 'aria-label': title }, inside),
  );

/** Everything said, logged, refused and answered, with its time. */
function inWords({ timeline }: Debrief): HTMLElement {
  const rows = timeline.map(({ utc, title }) =>
    h('li', {}, h('span', { class: 'mono aside' }, utc), h('span', {}, title)),
  );
  return fold('The drill in words', `${timeline.length} entries`, h('ol', { class: 'events' }, ...rows));
}

const HOW = {
  wrong: 'came as',
  missing: 'did not come',
  extra: 'came too many',
  case: 'came in the other case',
} as const;

function oneWrong(w: Garble['wrong'][number]): HTMLElement {
  const units = w.units.length > 0 && `, unit ${w.units.join(' and ')}`;
  const got = w.how === 'wrong' ? [' ', h('b', { class: 'mono' }, shown(w.got))] : [];
  return h('li', {}, h('b', { class: 'mono' }, shown(w.want || w.got)), ` ${HOW[w.how]}`, ...got, units);
}

const shown = (c: string): string => (c === ' ' ? 'space' : c);

/** The message with its wrong letters marked by a ring, and what became of each. At most forty are listed. */
function arrived(g: Garble): HTMLElement {
  const wrong = new Set(g.wrong.map(({ at }) => at));
  const text = Array.from(g.text).map((c, i) => (wrong.has(i) ? h('mark', {}, c) : c));
  const list = g.wrong.slice(0, 40).map(oneWrong);
  return fold(
    `${g.message.replace(/^NR/, 'NR ')} at ${g.at}`,
    g.errors === 0 ? 'no letter wrong' : `${g.errors} wrong`,
    h('div', {}, h('p', { class: 'arrived mono' }, ...text), h('ul', { class: 'wrongs' }, ...list)),
  );
}

/** All folds of a debrief. */
export const evidence = (d: Debrief): HTMLElement =>
  h('section', { class: 'evidence', 'aria-label': 'What it rests on' }, ...d.garbles.map(arrived), inWords(d));
