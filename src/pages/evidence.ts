/** What the debrief rests on, to be opened: the drill in words, and each message as it arrived. */
import type { Debrief, Garble } from '../core/debrief/debrief.ts';
import { h } from './dom.ts';

const fold = (title: string, aside: string, inside: HTMLElement, open: boolean): HTMLElement =>
  h(
    'details',
    { class: 'fold', open },
    h('summary', {}, title, h('span', { class: 'aside' }, aside)),
    h('div', { class: 'fold__in', tabindex: 0, role: 'group', 'aria-label': title }, inside),
  );

/** Everything said, logged, refused and answered, with its time. */
function inWords({ timeline }: Debrief, open: boolean): HTMLElement {
  const rows = timeline.map(({ utc, title }) =>
    h('li', {}, h('span', { class: 'mono aside' }, utc), h('span', {}, title)),
  );
  return fold('The drill in words', `${timeline.length} entries`, h('ol', { class: 'events' }, ...rows), open);
}

const HOW = {
  wrong: 'came as',
  missing: 'did not come',
  extra: 'came too many',
  case: 'came in the other case',
} as const;

function oneWrong(w: Garble['wrong'][number]): HTMLElement {
  const units = w.units.length > 0 && `, unit${w.units.length > 1 ? 's' : ''} ${w.units.join(', ')}`;
  const got = w.how === 'wrong' ? [' ', h('b', { class: 'mono' }, shown(w.got))] : [];
  return h('li', {}, h('b', { class: 'mono' }, shown(w.want || w.got)), ` ${HOW[w.how]}`, ...got, units);
}

const shown = (c: string): string => (c === ' ' ? 'space' : c);

/** Letters that are wrong wear a ring; a letter that did not come is a hollow place. */
const ringed = (c: string): HTMLElement => h('mark', {}, c === '' || c === ' ' ? '\u00b7' : c);

/** The message as it was sent, with rings where letters went wrong; and as it was printed, if that differs. */
function texts(g: Garble): HTMLElement[] {
  const letters = Array.from(g.text);
  const lost = (i: number) => g.wrong.find((w) => w.at === i && w.want !== '');
  const sent = letters.map((c, i) => (lost(i) ? ringed(c) : c));
  const printed = [...letters, ''].flatMap((c, i) => {
    const extra = g.wrong.filter((w) => w.at === i && w.want === '').map((w) => ringed(w.got));
    const own = lost(i);
    return [...extra, own ? ringed(own.got) : c];
  });
  const text = (says: string, inside: (string | Node)[]) =>
    h('div', {}, h('h3', {}, says), h('p', { class: 'arrived mono' }, ...inside));
  return g.errors === 0
    ? [text('as sent and as printed there', letters)]
    : [text('as sent', sent), text('as printed there', printed)];
}

/** A message where it was received, and what became of each wrong letter. At most forty are listed. */
function arrived(g: Garble, open: boolean): HTMLElement {
  const list = g.wrong.slice(0, 40).map(oneWrong);
  return fold(
    `${g.message.replace(/^NR/, 'NR ')} at ${g.at}`,
    g.errors === 0 ? 'no letter wrong' : `${g.errors} wrong`,
    h('div', { class: 'copied' }, ...texts(g), list.length > 0 && h('ul', { class: 'wrongs' }, ...list)),
    open,
  );
}

/** All folds of a debrief. On a wide page a message stands open, and the words too where there is room for them. */
export function evidence(d: Debrief): HTMLElement {
  const clear = d.garbles.every((g) => g.errors === 0);
  const wide = matchMedia('(min-width: 68.01em)').matches;
  return h(
    'section',
    { class: 'evidence', 'aria-label': 'What it rests on' },
    ...d.garbles.map((g) => arrived(g, wide)),
    inWords(d, wide && clear && (d.findings.length === 0 || d.garbles.length === 0)),
  );
}
