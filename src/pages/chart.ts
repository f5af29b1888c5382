/** The chart strip: expected above, happened below, what was on the air, and numbered flags at what went wrong. */
import type { Debrief, Moment, Span } from '../core/debrief/debrief.ts';
import { drawFlags, FLAG_ROW, placeFlags } from './chart-flags.ts';
import { stroke, type } from './chart-ink.ts';
import { LABEL_ROW, labels, placeLabels } from './chart-labels.ts';
import { CHART, outOfTurn, type Scale, scaleOf } from './chart-scale.ts';
import { h, s } from './dom.ts';
import { utcText } from './hours.ts';

/** Heights on the strip; it grows with the rows that its labels and flags need. */
type Rows = { expected: number; happened: number; air: number; flags: number; hours: number; h: number };

function rowsFor(labelRows: number, flagRows: number): Rows {
  const expected = 34 + LABEL_ROW * labelRows;
  const happened = expected + 82;
  const flags = happened + 33;
  const hours = flags + FLAG_ROW * flagRows + (flagRows > 0 ? 14 : 20);
  return { expected, happened, air: happened + 14, flags, hours, h: hours + 21 };
}

function paper(tall: number): SVGElement[] {
  const { w } = CHART;
  const edge = [
    [1226, 1],
    [1234, 27],
    [1225, 52],
    [1232, 83],
    [1224, 112],
    [1234, 150],
    [1226, 182],
    [1231, tall - 30],
    [1225, tall - 1],
  ];
  const torn = edge.map(([x, y]) => `L${x} ${y}`).join('');
  const d = `M1 1${torn}L1 ${tall - 1}Z`;
  const feed = Array.from({ length: 68 }, (_, i) => 15 + i * 18).filter((x) => x < w - 18);
  const holes = [10, tall - 10].flatMap((cy) => feed.map((cx) => s('circle', { cx, cy, r: 2.5, fill: 'var(--ink)' })));
  return [
    s('path', { d, fill: 'url(#hatch)', transform: 'translate(6 7)', class: 'shade' }),
    s('path', { d, fill: 'var(--sheet)' }),
    stroke(d, 2.4),
    ...holes,
  ];
}

function axis(y: number, x: Scale, last_us: number): SVGElement[] {
  const minutes = Math.floor(last_us / 60e6);
  const big = minutes > 45 ? 10 : minutes > 20 ? 5 : 2;
  let small = '';
  let large = '';
  for (let m = 0; m <= minutes; m++) {
    const at = x(m * 60e6).toFixed(1);
    if (m % big === 0) large += `M${at} ${y - 8}V${y + 8}`;
    else small += `M${at} ${y - 4}V${y + 4}`;
  }
  return [stroke(`M${CHART.left} ${y}H${CHART.right}`, 2.4), stroke(small, 1.1), stroke(large, 1.6)];
}

function hoursRow(x: Scale, last_us: number, utc0: string, y: number): SVGElement[] {
  const minutes = Math.floor(last_us / 60e6);
  const big = minutes > 45 ? 10 : minutes > 20 ? 5 : 2;
  const at = Array.from({ length: Math.floor(minutes / big) + 1 }, (_, i) => i * big * 60e6);
  const shown = at.filter((t) => x(t) < CHART.right - 20);
  return [
    type('UTC', 16, y, { fill: 'var(--ink2)' }),
    ...shown.map((t) =>
      type(utcText(utc0, t).slice(0, 5), x(t), y, { class: 'mono', 'text-anchor': 'middle', fill: 'var(--ink2)' }),
    ),
  ];
}

const edge = { stroke: 'var(--ink)', style: 'stroke-width:calc(2.2px * var(--weight))' };

/** Expected: open, with a gap to the next, since one thing follows on another. */
function planned({ from_us, to_us }: Span, y: number, x: Scale): SVGElement {
  const [a, b] = [x(from_us), x(to_us) - 4];
  if (b - a < 13) return s('circle', { cx: a, cy: y, r: 6, fill: 'var(--sheet)', ...edge });
  return s('rect', { x: a - 6, y: y - 6, width: b - a + 6, height: 12, rx: 6, fill: 'var(--sheet)', ...edge });
}

/** Happened: a solid dot where it began and a bar as long as it took. Bars may lie over each other, dots stay on top. */
function bar({ from_us, to_us }: Span, y: number, x: Scale): SVGElement | false {
  const [a, b] = [x(from_us), x(to_us)];
  return b - a > 8 && s('rect', { x: a, y: y - 4, width: b - a, height: 8, rx: 4, fill: 'var(--sheet)', ...edge });
}

const dot = ({ from_us }: Span, y: number, x: Scale): SVGElement =>
  s('circle', { cx: x(from_us), cy: y, r: 6.4, fill: 'var(--ink)', stroke: 'var(--sheet)', 'stroke-width': 1.2 });

function thread(m: Moment, x: Scale, heavy: boolean, at: Rows): SVGElement | false {
  if (!m.happened) return false;
  const [a, b] = [x(m.expected.from_us), x(m.happened.from_us)];
  const mid = (at.expected + at.happened) / 2;
  const d = `M${a} ${at.expected + 9}C${a} ${mid + 8} ${b} ${mid - 8} ${b} ${at.happened - 9}`;
  return stroke(d, heavy ? 2.6 : 1.1);
}

/** Time on the air: persimmon with teeth, so that it is told from a bar by shape as well. */
function onAir(span: Span, x: Scale, y: number): SVGElement {
  const [a, b] = [x(span.from_us), Math.max(x(span.to_us), x(span.from_us) + 4)];
  let d = `M${a} ${y}H${b}V${y + 8}H${a}Z`;
  for (let at = a + 1; at <= b - 1.5; at += 7) d += `M${at} ${y + 7}h2v5h-2Z`;
  return s('path', { d, fill: 'var(--persimmon)' });
}

/** What the strip says, for those who cannot see it. */
function inWords({ moments, utc0 }: Debrief): string {
  const each = moments.map(
    (m) =>
      `${m.label}: expected ${utcText(utc0, m.expected.from_us)}, ${m.happened ? utcText(utc0, m.happened.from_us) : 'never happened'}`,
  );
  return `Expected and happened. ${each.join('; ')}.`;
}

/** The whole strip. `chosen` is the index of the finding whose card is open. */
export function chartStrip(d: Debrief, chosen: number, choose: (i: number) => void): HTMLElement {
  const { x, last_us } = scaleOf(d);
  const placed = placeLabels(d.moments, x);
  const { flags, more } = placeFlags(d, x);
  const at = rowsFor(
    1 + Math.max(0, ...placed.map(({ row }) => row)),
    // What is said of the others takes a second row.
    1 + Math.max(more > 0 ? 1 : -1, ...flags.map(({ row }) => row)),
  );
  const svg = s(
    'svg',
    { viewBox: `0 0 ${CHART.w + 8} ${at.h + 8}`, role: 'img', 'aria-label': inWords(d), class: 'chart__strip' },
    ...paper(at.h),
    type('Expected', 16, at.expected + 5, { 'font-weight': 700, 'font-size': 16 }),
    type('Happened', 16, at.happened + 5, { 'font-weight': 700, 'font-size': 16 }),
    type('on the air', 16, at.air + 13, { fill: 'var(--ink2)' }),
    ...(flags.length > 0 ? [type('not met', 16, at.flags + 16, { fill: 'var(--ink2)' })] : []),
    ...(more > 0 ? [type(`and ${more} more`, 16, at.flags + 34, { fill: 'var(--ink2)' })] : []),
    ...axis(at.expected, x, last_us),
    ...axis(at.happened, x, last_us),
    ...hoursRow(x, last_us, d.utc0, at.hours),
    ...labels(d.moments, placed, at.expected),
    ...d.moments.flatMap((m, i) => thread(m, x, outOfTurn(d.moments, i), at) || []),
    ...d.moments.map((m) => planned(m.expected, at.expected, x)),
    ...d.moments.flatMap((m) => (m.happened && bar(m.happened, at.happened, x)) || []),
    ...d.moments.flatMap((m) => (m.happened ? [dot(m.happened, at.happened, x)] : [])),
    ...d.air.map((span) => onAir(span, x, at.air)),
    ...drawFlags(flags, at.happened + 8, at.flags, chosen, choose),
  );
  return h(
    'div',
    {},
    h('div', { class: 'chart', tabindex: 0, role: 'group', 'aria-label': 'Chart of the drill' }, svg),
    h('p', { class: 'chart__more aside', 'aria-hidden': 'true' }, 'The strip goes on to the right: push it along.'),
  );
}
