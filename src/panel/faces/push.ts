import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { arc, circle, rrect } from '../kit/path.ts';

/** A push: a domed button in a plate. x, y is its centre; w 34 alone, 28 in a row. */
export interface PushSpec extends Labelled {
  x: number;
  y: number;
  w: number;
  /** Where the label stands; default under. */
  side?: 'under' | 'right' | 'left';
  labelDrop?: number;
}

const liveOps = ({ x, y, w }: PushSpec, down: boolean): Op[] => {
  const r = 0.3 * w;
  const lw = w > 30 ? LINE : 1.3;
  if (down)
    return [
      shape(circle(x, y, r), 'g2', lw),
      line(circle(x, y, 0.66 * r), FINE),
      line(arc(x, y, 1.22 * r, 290, 430), FINE),
    ];
  return [
    solid(circle(x + 2, y + 2.6, r), 'shade'),
    shape(circle(x, y, r), 'sheet', lw),
    line(arc(x, y, 0.62 * r, -85, -15), FINE + 0.2),
  ];
};

/** Value: down or up. */
export const push: Face<PushSpec, boolean> = {
  natural: { w: 40, h: 62 },
  staticOps: (spec) => {
    const { x, y, w, label, side = 'under' } = spec;
    const h = 0.84 * w;
    const plate = shape(rrect(x - w / 2, y - h / 2, w, h, 0.2 * w), 'g1', w > 30 ? LINE : 1.3, 'ink', { snap: true });
    const shade = solid(rrect(x - w / 2 + 4, y - h / 2 + 5, w - 2, h - 1, 0.2 * w), 'shade');
    const at =
      side === 'under'
        ? words(label ?? '', x, y + (spec.labelDrop ?? h / 2 + 18), { bold: true, anchor: 'middle' })
        : side === 'right'
          ? words(label ?? '', x + w / 2 + 8, y + 5)
          : words(label ?? '', x - w / 2 - 8, y + 5, { anchor: 'end' });
    return [shade, plate, ...(label ? [at] : [])];
  },
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, [false, true]),
};
