import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { circle, rect, rrect, seg } from '../kit/path.ts';

/** A breaker or an in/out switch. x, y is the centre of its base; w 43 alone, 24 in a row, 18 in the whole view. */
export interface PlungerSpec extends Labelled {
  x: number;
  y: number;
  w: number;
  /** The present word under it (or right of it), bold when tripped. */
  words?: { in: string; out: string; tripped?: string };
  /** Where label and word stand; default under. */
  side?: 'under' | 'right';
  labelDrop?: number;
}

export type PlungerState = 'in' | 'out' | 'tripped';

function flush({ x, y, w }: PlungerSpec): Op[] {
  const h = 0.8 * w;
  const lw = w > 30 ? LINE : 1.3;
  return [
    shape(rrect(x - w / 2, y - h / 2, w, h, 0.2 * w), 'g1', lw, 'ink', { snap: true }),
    shape(rrect(x - 0.34 * w, y - 0.25 * w, 0.68 * w, 0.5 * w, 0.13 * w), 'sheet', w > 30 ? LINE : FINE, 'ink', {
      snap: true,
    }),
    line(seg(x, y - 0.12 * w, x, y + 0.12 * w), 0.085 * w + 0.3, 'ink'),
  ];
}

/** Cap on a three-band stem; the cap of a tripped one has a dot. */
function raised({ x, y, w }: PlungerSpec, dot: boolean): Op[] {
  const h = 0.8 * w;
  const lw = w > 30 ? LINE : 1.3;
  const top = y - 0.8 * w;
  const [sx, sw] = [x - 0.23 * w, 0.46 * w];
  const stem = [0, 1, 2].map((i) => rect(sx, top + (0.09 + 0.27 * i) * w, sw, 0.13 * w)).join('');
  return [
    shape(rrect(x - w / 2, y - h / 2, w, h, 0.2 * w), 'g1', lw, 'ink', { snap: true }),
    shape(rect(sx, top, sw, 0.78 * w), 'sheet', lw, 'ink', { snap: true }),
    solid(stem, 'ink', { snap: true }),
    shape(rrect(x - 0.4 * w, top - 0.42 * w, 0.8 * w, 0.42 * w, 0.12 * w), 'sheet', lw, 'ink', { snap: true }),
    ...(dot ? [solid(circle(x, top - 0.21 * w, 0.085 * w), 'ink')] : []),
  ];
}

const liveOps = (spec: PlungerSpec, state: PlungerState): Op[] => {
  const { x, y, w, words: said } = spec;
  const text = said && (state === 'tripped' ? (said.tripped ?? said.out) : said[state]);
  const bold = state === 'tripped';
  const style = { bold, fill: bold ? 'ink' : 'ink2' } as const;
  const second = spec.label ? 17 : 0;
  const drop = spec.labelDrop ?? 0.4 * w + 18;
  const word = !text
    ? []
    : spec.side === 'right'
      ? [words(text, x + w / 2 + 8, y + 5 + second, style)]
      : [words(text, x, y + drop + second, { ...style, anchor: 'middle' })];
  return [...(state === 'in' ? flush(spec) : raised(spec, bold)), ...word];
};

/** Value: in, out, or tripped (the breaker let go by itself). */
export const plunger: Face<PlungerSpec, PlungerState> = {
  natural: { w: 50, h: 86 },
  staticOps(spec) {
    const { x, y, w, label } = spec;
    const shade = solid(rrect(x - w / 2 + 4, y - 0.4 * w + 5, w - 3, 0.8 * w - 1, 0.2 * w), 'shade');
    if (!label) return [shade];
    return [
      shade,
      spec.side === 'right'
        ? words(label, x + w / 2 + 8, y + 5)
        : words(label, x, y + (spec.labelDrop ?? 0.4 * w + 18), { bold: true, anchor: 'middle' }),
    ];
  },
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, ['in', 'out', 'tripped']),
};
