import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, words } from '../kit/ops.ts';
import { rrect, seg } from '../kit/path.ts';

/** A vibrating-reed frequency meter: the reed nearest the frequency swings widest. x, y is the top left of its window. */
export interface ReedsSpec extends Labelled {
  x: number;
  y: number;
  /** 130 x 62 close up, 69 x 34 in the whole view. */
  w: number;
  h: number;
  /** Frequencies of the first and last reed, and the step between reeds, Hz. */
  from: number;
  to: number;
  step: number;
  /** Print the numbers of the first, middle and last reed. */
  numbers?: boolean;
}

const reedCount = ({ from, to, step }: ReedsSpec): number => Math.round((to - from) / step) + 1;

/** Swing of a reed, 0 to 1: the resonance curve of a lightly damped reed, half at a quarter of a step off. */
const swing = (off: number): number => 1 / Math.sqrt(1 + 12 * off * off);

const liveOps = (spec: ReedsSpec, hertz: number | null): Op[] => {
  const { x, y, w, h, from, step } = spec;
  const n = reedCount(spec);
  const middle = y + (spec.numbers ? 0.34 : 0.5) * h;
  const weight = Math.min(5, (0.38 * w) / (n + 1));
  return Array.from({ length: n }, (_, i) => {
    const cx = x + (w * (i + 1)) / (n + 1);
    const a = hertz === null ? 0 : swing((hertz - from - i * step) / step);
    const reach = Math.max(0.5, a * (spec.numbers ? 0.27 : 0.33) * h);
    return line(seg(cx, middle - reach, cx, middle + reach), weight);
  });
};

/** Value: frequency in hertz, null when nothing swings. */
export const reeds: Face<ReedsSpec, number | null> = {
  natural: { w: 130, h: 62 },
  staticOps: (spec) => {
    const { x, y, w, h, from, to } = spec;
    const cx = x + w / 2;
    const marks = seg(cx, y - 5, cx, y + 3) + seg(cx, y + h - 3, cx, y + h + 5);
    const numbers: [number, number][] = spec.numbers
      ? [
          [from, x + w / (reedCount(spec) + 1)],
          [(from + to) / 2, cx],
          [to, x + w - w / (reedCount(spec) + 1)],
        ]
      : [];
    return [
      shape(rrect(x, y, w, h, 5), 'sheet', LINE, 'ink', { snap: true }),
      line(marks, FINE + 0.2, 'ink', { snap: true }),
      ...numbers.map(([v, px]) => words(String(v), px, y + h - 7, { anchor: 'middle' })),
      ...(spec.label ? [words(spec.label, cx, y + h + 22, { bold: true, anchor: 'middle' })] : []),
    ];
  },
  liveOps,
  tileBox: (spec) => {
    const all = Array.from({ length: reedCount(spec) }, (_, i) => spec.from + i * spec.step);
    return boxOver<ReedsSpec, number | null>(liveOps, spec, [null, ...all]);
  },
};
