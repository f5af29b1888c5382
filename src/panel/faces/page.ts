import type { Box } from '../kit/bounds.ts';
import { between } from '../kit/dice.ts';
import type { Face } from '../kit/face.ts';
import { MONO } from '../kit/metrics.ts';
import { FINE, LINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { ellipse, num, poly, rect } from '../kit/path.ts';

/** Paper that rises behind the printer and curls back at its top. x, y is the top left of the most that shows. */
export interface PageSpec {
  x: number;
  y: number;
  w: number;
  /** Down to the slab. */
  h: number;
  /** 19 on 29 alone, 14 on 18 over the printer; small views print strokes for words. */
  size: number;
  leading: number;
  /** Left margin; default 20. */
  margin?: number;
}

export interface PageValue {
  /** Lines from the oldest; a line is a string, or several for what was printed over itself. */
  lines: readonly (string | readonly string[])[];
  /** Part of a line's leading that the paper still has to rise, 0 to 1, while it moves. */
  rise?: number;
  /** Characters ringed by a pencil. */
  rings?: readonly { line: number; column: number }[];
}

/** Height at which the paper's curl begins, over the last printed line. */
function paperTop({ y, h, leading }: PageSpec, lines: number): number {
  return Math.max(y, y + h - lines * leading - 1.7 * leading - Math.min(19, 0.65 * leading));
}

function sheetOps({ x, w, h, y, leading }: PageSpec, top: number): Op[] {
  const foot = y + h;
  const r = Math.min(28, 0.06 * w + 6);
  const fold = Math.min(19, 0.65 * leading);
  const n = num;
  const body = `M${n(x)} ${n(foot)}L${n(x)} ${n(top + r)}C${n(x)} ${n(top + 0.35 * r)} ${n(x + 0.3 * r)} ${n(top)} ${n(x + 1.1 * r)} ${n(top)}L${n(x + w)} ${n(top + 0.5 * fold + 4)}L${n(x + w)} ${n(foot)}Z`;
  const x1 = x + 1.35 * r;
  const slope = (0.5 * fold + 4) / (w - 1.1 * r);
  const flap = `M${n(x + 1.1 * r)} ${n(top)}C${n(x + 0.75 * r)} ${n(top)} ${n(x + 0.7 * r)} ${n(top + 0.9 * fold)} ${n(x1)} ${n(top + fold)}L${n(x + w)} ${n(top + fold + 4 + slope * 40)}L${n(x + w)} ${n(top + 0.5 * fold + 8)}C${n(x + w)} ${n(top + 0.5 * fold + 5)} ${n(x + w - 3)} ${n(top + 0.5 * fold + 4)} ${n(x + w - 6)} ${n(top + 0.5 * fold + 4)}Z`;
  const cast = poly(
    [
      [x + w, top + 0.5 * fold + 12],
      [x + w + 6, top + 0.5 * fold + 18],
      [x + w + 6, foot],
      [x + w, foot],
    ],
    true,
  );
  return [solid(cast, 'shade'), shape(body, 'sheet', LINE), shape(flap, 'g1', FINE)];
}

/** Small type becomes a stroke a word, as an engraver would do it. */
function strokes(text: string, x: number, y: number, size: number): Op[] {
  let d = '';
  for (const m of text.matchAll(/\S+/g)) {
    const from = x + m.index * MONO * size;
    d += poly([
      [from, y - 0.3 * size],
      [from + (m[0].length - 0.3) * MONO * size, y - 0.3 * size],
    ]);
  }
  return d ? [line(d, Math.max(1.4, 0.36 * size), 'ink', { cap: 'butt' })] : [];
}

/** Each letter a little off its line, struck through a ribbon: twice, the second fainter. The same each time. */
function printLine(text: string, x: number, y: number, size: number, row: number): Op[] {
  if (size < 9) return strokes(text, x, y, size);
  return [...text].flatMap((c, i) => {
    if (c === ' ') return [];
    const px = x + i * MONO * size + between(-0.35, 0.35, row, i, 1);
    const py = y + between(-0.35, 0.35, row, i, 2);
    const o = between(0.9, 1, row, i, 3);
    return [words(c, px, py, { size, mono: true, o }), words(c, px + 0.42, py, { size, mono: true, o: o - 0.35 })];
  });
}

/** Baseline of a line, counted from the newest (0). */
const baseline = ({ y, h, leading, size }: PageSpec, back: number, rise: number): number =>
  y + h - 0.55 * leading - (back - rise) * leading + (size < 9 ? 2 : 0);

/** Where a character stands, for rings and for leaders to them. */
export function charBox(spec: PageSpec, value: PageValue, at: { line: number; column: number }): Box {
  const x = spec.x + (spec.margin ?? 20) + at.column * MONO * spec.size;
  const base = baseline(spec, value.lines.length - 1 - at.line, value.rise ?? 0);
  return { left: x, top: base - 0.78 * spec.size, right: x + MONO * spec.size, bottom: base };
}

function ring(spec: PageSpec, value: PageValue, at: { line: number; column: number }): Op {
  const b = charBox(spec, value, at);
  const [cx, cy] = [(b.left + b.right) / 2, (b.top + b.bottom) / 2];
  return line(ellipse(cx, cy, 0.5 * spec.size, 0.7 * spec.size), FINE + 0.3);
}

const liveOps = (spec: PageSpec, value: PageValue): Op[] => {
  const { lines, rise = 0 } = value;
  const top = paperTop(spec, Math.max(1, lines.length - rise));
  const shown = Math.floor((spec.y + spec.h - top - 1.2 * spec.leading) / spec.leading);
  const first = Math.max(0, lines.length - shown);
  const x = spec.x + (spec.margin ?? 20);
  const print = lines.slice(first).flatMap((l, i) => {
    const row = first + i;
    const y = baseline(spec, lines.length - 1 - row, rise);
    return (typeof l === 'string' ? [l] : l).flatMap((t) => printLine(t, x, y, spec.size, row));
  });
  const rings = (value.rings ?? []).filter((r) => r.line >= first).map((r) => ring(spec, value, r));
  const clip = rect(spec.x - 4, spec.y - 4, spec.w + 14, spec.h + 4);
  return within({ clip }, [...sheetOps(spec, top), ...print, ...rings]);
};

/** Value: what has been printed. Paint the printer's slab after it. */
export const page: Face<PageSpec, PageValue> = {
  natural: { w: 450, h: 290 },
  staticOps: () => [],
  liveOps,
  tileBox: ({ x, y, w, h }) => ({ left: x - 4, top: y - 4, right: x + w + 10, bottom: y + h }),
};
