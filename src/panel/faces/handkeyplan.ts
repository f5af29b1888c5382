import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { arc, circle, rect, rrect } from '../kit/path.ts';

/** The hand key seen from above, as it lies on the desk. x, y is the top left of its plate; 52 x 84. */
export interface HandKeyPlanSpec extends Labelled {
  x: number;
  y: number;
  h: number;
}

const liveOps = ({ x, y, h }: HandKeyPlanSpec, down: boolean): Op[] => {
  const k = h / 84;
  const [cx, cy, r] = [x + 26 * k, y + 66 * k, (down ? 11.4 : 12.6) * k];
  return [
    shape(rect(cx - 5.5 * k, y + 6 * k, 11 * k, 58 * k), 'g2', FINE + 0.2, 'ink', { snap: true }),
    solid(circle(cx, y + 12 * k, 3 * k), 'ink'),
    shape(rrect(cx - 17.5 * k, y + 22 * k, 35 * k, 9 * k, 3 * k), 'sheet', LINE, 'ink', { snap: true }),
    ...(down ? [] : [solid(circle(cx + 2.5, cy + 3, r), 'shade')]),
    solid(circle(cx, cy, r), 'ink'),
    line(down ? circle(cx, cy, r * 0.62) : arc(cx, cy, r * 0.62, -75, -15), LINE, 'onCut'),
  ];
};

/** Value: down or up. */
export const handKeyPlan: Face<HandKeyPlanSpec, boolean> = {
  natural: { w: 52, h: 84 },
  staticOps: ({ x, y, h, label }) => {
    const k = h / 84;
    const screws = [
      [8, 8],
      [44, 8],
      [8, 76],
      [44, 76],
    ] as const;
    return [
      solid(rrect(x + 4, y + 5, 52 * k, h, 5 * k), 'shade'),
      shape(rrect(x, y, 52 * k, h, 5 * k), 'sheet', LINE + 0.2, 'ink', { snap: true }),
      line(screws.map(([dx, dy]) => circle(x + dx * k, y + dy * k, 2.6 * k)).join(''), FINE),
      ...(label ? [words(label, x + 26 * k, y + h + 20, { bold: true, anchor: 'middle' })] : []),
    ];
  },
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, [true, false]),
};
