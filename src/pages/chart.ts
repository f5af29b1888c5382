/** The chart strip: expected above, happened below, what was on the air, and numbered flags at what went wrong. */
import type { Debrief, Finding, Moment, Span } from '../core/debrief/debrief.ts';
import { h, s } from './dom.ts';
import { utcText } from './hours.ts';

/** The strip is drawn at this size and scaled as one drawing. */
export const CHART = { w: 1232, left: 126, right: 1202 } as const;
const ROW = 17;
const FLAG_ROW = 26;
/** A letter of 14 px type is about this wide. */
const LETTER = 7.9;

/** Heights on the strip; it grows with the rows that its labels and flags need. */
type Rows = { expected: number; happened: number; air: number; flags: number; hours: number; h: number };

function rowsFor(labelRows: number, flagRows: number): Rows {
  const expected = 34 + ROW * labelRows;
  const happened = expected + 82;
  const flags = happened + 33;
  const hours = flags + FLAG_ROW * Math.max(1, flagRows) + 14;
  return { expected, happened, air: happened + 14, flags, hours, h: hours + 21 };
}

/** Where an instant stands on the strip. */
export type Scale = (t_us: number) => number;

/** A scale from 0 to just past the last thing that was expected or happened. */
export function scaleOf({ end_us, moments }: Pick<Debrief, 'end_us' | 'moments'>): { x: Scale; last_us: number } {
  const last_us = Math.max(end_us, ...moments.map((m) => m.expected.to_us), 60e6) * 1.02;
  return { x: (t) => CHART.left + (Math.min(Math.max(t, 0), last_us) / last_us) * (CHART.right - CHART.left), last_us };
}

/** Places for labels of given middles and widths in one of three rows, so that none overlaps its neighbour: row 0 is lowest. */
export function inRows(labels: readonly { x: number; width: number }[], rows: number): number[] {
  const ends: number[] = new Array(rows).fill(-Infinity);
  return labels.map(({ x, width }) => {
    const free = ends.findIndex((end) => x - width / 2 > end + 8);
    const row = free >= 0 ? free : ends.indexOf(Math.min(...ends));
    ends[row] = x + width / 2;
    return row;
  });
}

/** Whether a moment came out of turn: something that was to come after it had happened before. */
export function outOfTurn(moments: readonly Moment[], i: number): boolean {
  const me = moments[i]?.happened;
  return (
    me !== null &&
    me !== undefined &&
    moments.slice(i + 1).some((m) => m.happened !== null && m.happened.from_us < me.from_us)
  );
}

const stroke = (d: string, w: number, more = {}) =>
  s('path', {
    d,
    fill: 'none',
    stroke: 'var(--ink)',
    style: `stroke-width:calc(${w}px * var(--weight))`,
    'stroke-linecap': 'round',
    'stroke-linejoin': 'round',
    ...more,
  });
const type = (text: string, x: number, y: number, more = {}) =>
  s('text', { x, y, 'font-size': 14, fill: 'var(--ink)', ...more }, text);

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

type Placed = { x: number; row: number };

function placeLabels(moments: readonly Moment[], x: Scale): Placed[] {
  const boxes = moments.map((m) => {
    const width = m.label.length * LETTER;
    return {
      x: Math.min(Math.max(x(m.expected.from_us), CHART.left + width / 2 - 10), CHART.right - width / 2 + 10),
      width,
    };
  });
  const rows = inRows(boxes, 3);
  return boxes.map((box, i) => ({ x: box.x, row: rows[i] ?? 0 }));
}

function labels(moments: readonly Moment[], placed: readonly Placed[], x: Scale, expected: number): SVGElement[] {
  return moments.flatMap((m, i) => {
    const { x: middle, row } = placed[i] as Placed;
    const y = expected - 15 - row * ROW;
    const at = x(m.expected.from_us);
    const said = type(m.label, middle, y, { 'text-anchor': 'middle' });
    return row ? [stroke(`M${at} ${y + 5}V${expected - 9}`, 1.1), said] : [said];
  });
}

/** Time on the air: persimmon with teeth, so that it is told from a bar by shape as well. */
function onAir(span: Span, x: Scale, y: number): SVGElement {
  const [a, b] = [x(span.from_us), Math.max(x(span.to_us), x(span.from_us) + 4)];
  let d = `M${a} ${y}H${b}V${y + 8}H${a}Z`;
  for (let at = a + 1; at <= b - 1.5; at += 7) d += `M${at} ${y + 7}h2v5h-2Z`;
  return s('path', { d, fill: 'var(--persimmon)' });
}

/** Where a flag stands: it points right unless the edge of the paper is near. */
function flagBox(f: Finding, x: Scale): { at: number; w: number; left: boolean } {
  const at = x(f.at_us);
  const w = (f.flag.length + 2) * LETTER + 26;
  return { at, w, left: at + w > CHART.right + 16 };
}

function flag(
  f: Finding,
  n: number,
  box: ReturnType<typeof flagBox>,
  y: number,
  from: number,
  chosen: boolean,
  choose: (i: number) => void,
): SVGElement {
  const { at, w, left } = box;
  const turn = left ? -1 : 1;
  const d = `M${at} ${y}H${at + turn * (w - 8)}L${at + turn * w} ${y + 11}L${at + turn * (w - 8)} ${y + 22}H${at}Z`;
  const ink = chosen ? 'var(--onCut)' : 'var(--ink)';
  return s(
    'g',
    { class: 'chart__flag', onclick: () => choose(n - 1), 'aria-hidden': 'true' },
    stroke(`M${at} ${from}V${y + 22}`, 1.6),
    s('path', {
      d,
      fill: chosen ? 'var(--cut)' : 'var(--paper)',
      stroke: 'var(--ink)',
      style: 'stroke-width:calc(1.8px * var(--weight))',
      'stroke-linejoin': 'round',
    }),
    s(
      'text',
      { x: left ? at - w + 16 : at + 9, y: y + 16, 'font-size': 14, fill: ink, 'font-weight': chosen ? 700 : 400 },
      s('tspan', { 'font-weight': 700 }, `${n} `),
      f.flag,
    ),
  );
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
  const flags = d.findings.slice(0, 9);
  const boxes = flags.map((f) => flagBox(f, x));
  const flagRows = inRows(
    boxes.map(({ at, w, left }) => ({ x: left ? at - w / 2 : at + w / 2, width: w })),
    3,
  );
  const at = rowsFor(1 + Math.max(0, ...placed.map(({ row }) => row)), 1 + Math.max(0, ...flagRows));
  const svg = s(
    'svg',
    { viewBox: `0 0 ${CHART.w + 8} ${at.h + 8}`, role: 'img', 'aria-label': inWords(d), class: 'chart__strip' },
    ...paper(at.h),
    type('Expected', 16, at.expected + 5, { 'font-weight': 700, 'font-size': 16 }),
    type('Happened', 16, at.happened + 5, { 'font-weight': 700, 'font-size': 16 }),
    type('on the air', 16, at.air + 13, { fill: 'var(--ink2)' }),
    ...axis(at.expected, x, last_us),
    ...axis(at.happened, x, last_us),
    ...hoursRow(x, last_us, d.utc0, at.hours),
    ...labels(d.moments, placed, x, at.expected),
    ...d.moments.flatMap((m, i) => thread(m, x, outOfTurn(d.moments, i), at) || []),
    ...d.moments.map((m) => planned(m.expected, at.expected, x)),
    ...d.moments.flatMap((m) => (m.happened && bar(m.happened, at.happened, x)) || []),
    ...d.moments.flatMap((m) => (m.happened ? [dot(m.happened, at.happened, x)] : [])),
    ...d.air.map((span) => onAir(span, x, at.air)),
    ...flags.map((f, i) => {
      const y = at.flags + (flagRows[i] ?? 0) * FLAG_ROW;
      return flag(f, i + 1, boxes[i] as (typeof boxes)[0], y, at.happened + 8, i === chosen, choose);
    }),
  );
  return h('div', { class: 'chart', tabindex: 0, role: 'group', 'aria-label': 'Chart of the drill' }, svg);
}
