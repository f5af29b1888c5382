import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { circle, poly, rect, rrect, seg } from '../kit/path.ts';

/** A glass fuse in its clips, or a spare in its hole. x, y is its centre; w 64 close up, 28 in the whole view. */
export interface FuseSpec extends Labelled {
  x: number;
  y: number;
  w: number;
  /** Under it: the present word. */
  words?: { whole: string; blown: string; none: string };
}

export type FuseState = 'whole' | 'blown' | 'none';

function tube({ x, y, w }: FuseSpec, blown: boolean): Op[] {
  const h = 0.3 * w;
  const end = 0.2 * w;
  const lw = w > 40 ? LINE : FINE;
  const l = x - w / 2;
  const wire = blown
    ? [
        line(
          `${seg(l + end, y, l + 0.38 * w, y + 0.04 * w)}${seg(l + 0.6 * w, y - 0.05 * w, l + w - end, y)}`,
          FINE + 0.2,
        ),
        solid(circle(l + 0.5 * w, y + 0.03 * w, 0.035 * w), 'ink'),
        solid(rect(l + 0.36 * w, y - h / 2, 0.26 * w, h), 'hatch'),
      ]
    : [
        line(
          poly([
            [l + end, y],
            [l + 0.42 * w, y],
            [l + 0.5 * w, y - 0.03 * w],
            [l + 0.58 * w, y],
            [l + w - end, y],
          ]),
          FINE + 0.3,
        ),
      ];
  return [
    shape(rect(l + end / 2, y - h / 2, w - end, h), 'sheet', lw, 'ink', { snap: true }),
    ...wire,
    solid(
      rrect(l, y - h / 2 - 1, end, h + 2, 0.05 * w) + rrect(l + w - end, y - h / 2 - 1, end, h + 2, 0.05 * w),
      'ink',
      { snap: true },
    ),
  ];
}

const liveOps = (spec: FuseSpec, state: FuseState): Op[] => {
  const word = spec.words
    ? [
        words(spec.words[state], spec.x, spec.y + 0.15 * spec.w + (spec.label ? 40 : 22), {
          anchor: 'middle',
          bold: state === 'blown',
          fill: state === 'blown' ? 'ink' : 'ink2',
        }),
      ]
    : [];
  return [...(state === 'none' ? [] : tube(spec, state === 'blown')), ...word];
};

/** Value: whole, blown, or none in the clips. */
export const fuse: Face<FuseSpec, FuseState> = {
  natural: { w: 74, h: 30 },
  staticOps: (spec) => {
    const { x, y, w, label } = spec;
    const clip = (cx: number): string => rrect(cx - 0.1 * w, y - 0.23 * w, 0.2 * w, 0.46 * w, 0.04 * w);
    return [
      solid(rrect(x - 0.54 * w + 3, y - 0.23 * w + 4, 1.08 * w, 0.46 * w, 0.05 * w), 'shade'),
      shape(rrect(x - 0.56 * w, y - 0.25 * w, 1.12 * w, 0.5 * w, 0.08 * w), 'g1', w > 40 ? LINE : FINE, 'ink', {
        snap: true,
      }),
      line(clip(x - 0.4 * w) + clip(x + 0.4 * w), FINE, 'ink', { snap: true }),
      ...(label ? [words(label, x, y + 0.25 * w + 18, { bold: true, anchor: 'middle' })] : []),
    ];
  },
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, ['whole', 'blown', 'none']),
};
