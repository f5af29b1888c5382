/** Labels of the chart strip: what was expected, each by its place and clear of its neighbours. */
import type { Moment } from '../core/debrief/debrief.ts';
import { stroke, type } from './chart-ink.ts';
import { CHART, inRows, LETTER, type Scale, type Stemmed } from './chart-scale.ts';

/** Height from one row of labels to the next. */
export const LABEL_ROW = 17;
/** A label: its middle over what it names, or beside its stem as a flag is on its pole. */
export type Placed = Stemmed & { row: number; beside: 'none' | 'right' | 'left' };
/** Rows that labels may take, how far they keep from the stem of another and from their own, px. */
const [LABEL_ROWS, STEM_CLEAR, BESIDE] = [5, 5, 6];

/** What a label names is under its middle. */
const middleOf = ({ expected }: Moment, x: Scale): number => {
  const [a, b] = [x(expected.from_us), x(expected.to_us)];
  return b - a < 17 ? a : (a + b) / 2 - 5;
};

function labelBox({ label }: Moment, at: number, others: readonly number[]): Omit<Placed, 'row'> {
  const w = label.length * LETTER;
  const middle = Math.min(Math.max(at, CHART.left + w / 2 - 10), CHART.right - w / 2 + 10);
  const over = { at, from: middle - w / 2, to: middle + w / 2 };
  const alone = others.every((other) => other < over.from - STEM_CLEAR || other > over.to + STEM_CLEAR);
  if (alone) return { ...over, beside: 'none' };
  if (at + BESIDE + w > CHART.right + 16) return { at, from: at - BESIDE - w, to: at, beside: 'left' };
  return { at, from: at, to: at + BESIDE + w, beside: 'right' };
}

/** Places for the labels of all moments. */
export function placeLabels(moments: readonly Moment[], x: Scale): Placed[] {
  const middles = moments.map((m) => middleOf(m, x));
  const boxes = moments.map((m, i) => labelBox(m, middles[i] as number, middles.toSpliced(i, 1)));
  // From the right: the stem of a label beside its stem then has to pass none of those placed before.
  const order = boxes.map((_, i) => i).sort((a, b) => (middles[b] as number) - (middles[a] as number));
  const rows = inRows(
    order.map((i) => boxes[i] as Stemmed),
    LABEL_ROWS,
    STEM_CLEAR,
  );
  return boxes.map((box, i) => ({ ...box, row: rows[order.indexOf(i)] ?? 0 }));
}

/** The labels, with stems where they need one. */
export function labels(moments: readonly Moment[], placed: readonly Placed[], expected: number): SVGElement[] {
  return moments.flatMap((m, i) => {
    const { at, from, to, row, beside } = placed[i] as Placed;
    const y = expected - 15 - row * LABEL_ROW;
    if (beside === 'none') {
      const said = type(m.label, (from + to) / 2, y, { 'text-anchor': 'middle' });
      return row > 0 ? [stroke(`M${at} ${y + 5}V${expected - 9}`, 1.1), said] : [said];
    }
    const anchor = beside === 'right' ? 'start' : 'end';
    const said = type(m.label, beside === 'right' ? at + BESIDE : at - BESIDE, y, { 'text-anchor': anchor });
    return [stroke(`M${at} ${y - 10}V${expected - 9}`, 1.1), said];
  });
}
