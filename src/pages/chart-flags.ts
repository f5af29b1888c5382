/** Numbered flags of the chart strip: what went wrong, and when. */
import type { Debrief, Finding } from '../core/debrief/debrief.ts';
import { stroke } from './chart-ink.ts';
import { CHART, inRows, LETTER, type Scale } from './chart-scale.ts';
import { s } from './dom.ts';

/** Height from one row of flags to the next. */
export const FLAG_ROW = 26;
/** More flags than this would hide the strip. */
const MOST_FLAGS = 9;

/** A stem may run along the edge of another flag, px. */
const ALONG = -1;

/** A flag in its place: it points right unless the edge of the paper is near. `n` is the finding's index. */
export type Flag = { f: Finding; n: number; at: number; w: number; left: boolean; row: number };

/**
 * The flags of a debrief, in rows so that they do not lie on each other, and how `more` faults have none. What was never
 * tried has no moment and so no flag.
 */
export function placeFlags(d: Debrief, x: Scale): { flags: Flag[]; more: number } {
  const faults = d.findings.flatMap((f, n) => (f.exercised ? [{ f, n }] : []));
  const flags = faults.slice(0, MOST_FLAGS).map(({ f, n }) => {
    const at = x(f.at_us);
    const w = (f.flag.length + String(n + 1).length + 1) * LETTER + 26;
    return { f, n, at, w, left: at + w > CHART.right + 16, row: 0 };
  });
  // The last first: a flag's stem then never has to pass one that was placed before it.
  flags.sort((a, b) => Number(a.left) - Number(b.left) || (a.left ? a.at - b.at : b.at - a.at));
  const boxes = flags.map(({ at, w, left }) => ({ at, from: left ? at - w : at, to: left ? at : at + w }));
  const rows = inRows(boxes, MOST_FLAGS, ALONG);
  return {
    flags: flags.map((flag, i) => ({ ...flag, row: rows[i] ?? 0 })),
    more: faults.length - flags.length,
  };
}

function body({ f, n, at, w, left }: Flag, y: number, chosen: boolean, choose: (i: number) => void): SVGElement {
  const turn = left ? -1 : 1;
  const d = `M${at} ${y}H${at + turn * (w - 8)}L${at + turn * w} ${y + 11}L${at + turn * (w - 8)} ${y + 22}H${at}Z`;
  const face = {
    d,
    fill: chosen ? 'var(--cut)' : 'var(--paper)',
    stroke: 'var(--ink)',
    style: 'stroke-width:calc(1.8px * var(--weight))',
    'stroke-linejoin': 'round',
  };
  const words = {
    x: left ? at - w + 16 : at + 9,
    y: y + 16,
    'font-size': 14,
    fill: chosen ? 'var(--onCut)' : 'var(--ink)',
    'font-weight': chosen ? 700 : 400,
  };
  return s(
    'g',
    { class: 'chart__flag', onclick: () => choose(n), 'aria-hidden': 'true' },
    s('title', {}, f.head),
    s('path', face),
    s('text', words, s('tspan', { 'font-weight': 700 }, `${n + 1} `), f.flag),
  );
}

/** Stems first, so that none crosses a flag; the chosen flag on top. */
export function drawFlags(
  flags: readonly Flag[],
  from: number,
  top: number,
  chosen: number,
  choose: (i: number) => void,
): SVGElement[] {
  const yOf = (flag: Flag) => top + flag.row * FLAG_ROW;
  const order = [...flags].sort((a, b) => Number(a.n === chosen) - Number(b.n === chosen));
  return [
    ...flags.map((flag) => stroke(`M${flag.at} ${from}V${yOf(flag) + 22}`, 1.6)),
    ...order.map((flag) => body(flag, yOf(flag), flag.n === chosen, choose)),
  ];
}
