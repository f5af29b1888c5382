/** The title: a piece of tape with the program's name in it, in the alphabet of ITU-T S.1. */
import { codeOf, unitsOf } from '../core/telegraphy/ita2.ts';
import { h, s } from './dom.ts';

const NAME = 'Keydown';
/** Columns of empty tape before the name. */
const LEAD = 2;
/** Feed holes enough for the widest page. */
const FEED = 110;
const ROW_OF_UNIT = [0, 1, 3, 4, 5] as const;
const TORN = 'M0 1.2H16.6L21 12L14.4 26L19.6 44L15.8 58L20.2 74L17.4 104.8H0';

const hole = (col: number, row: number, feed = false): SVGElement =>
  s('circle', { style: `--col:${col};--row:${row}`, class: feed && 'feed' });

function holes(): SVGElement {
  const code = [...NAME].flatMap((letter, i) =>
    unitsOf(codeOf(letter, 'letters') ?? 0).flatMap((is, unit) => (is ? hole(LEAD + i, ROW_OF_UNIT[unit] ?? 0) : [])),
  );
  const feed = Array.from({ length: FEED }, (_, col) => hole(col, 2, true));
  return s('svg', { class: 'strip__holes', 'aria-hidden': 'true' }, ...feed, ...code);
}

const torn = (): SVGElement =>
  s(
    'svg',
    { class: 'strip__torn', viewBox: '0 0 24 106', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    s('path', { d: `${TORN}Z`, fill: 'var(--sheet)' }),
    s('path', {
      d: TORN,
      fill: 'none',
      stroke: 'var(--ink)',
      style: 'stroke-width:var(--edge)',
      'stroke-linejoin': 'round',
    }),
  );

/** The strip with the name, what it is, and the one promise. */
export const titleStrip = (): HTMLElement =>
  h(
    'header',
    { class: 'strip' },
    holes(),
    torn(),
    h(
      'div',
      { class: 'strip__name' },
      h('h1', {}, NAME),
      h('p', {}, 'a trainer for the operator of a radio-teleprinter station'),
    ),
    h(
      'p',
      { class: 'strip__note' },
      h('span', {}, 'Those holes are the name, in the five-unit alphabet you are about to meet.'),
      h('span', {}, 'nothing here goes on the air'),
    ),
  );
