import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { arc, circle, curve, rrect } from '../kit/path.ts';

/** A persimmon push under a wire cage. x, y is its centre; r is the collar: 30 alone, 22 in a row, 11 in the whole view. */
export interface CageSpec extends Labelled {
  x: number;
  y: number;
  r: number;
  words?: { guarded: string; open: string; pressed: string };
  labelDrop?: number;
}

export type CageState = 'guarded' | 'open' | 'pressed';

function mushroom({ x, y, r }: CageSpec, down: boolean): Op[] {
  const head = (down ? 0.58 : 0.66) * r;
  const w = r > 16 ? LINE : FINE;
  return [
    shape(circle(x, y, r), 'sheet', w),
    ...(down ? [line(circle(x, y, 0.78 * r), w)] : []),
    shape(circle(x, y, head), 'persimmon', w),
    ...(down ? [] : [line(arc(x, y, 0.44 * r, -85, -25), 0.08 * r, 'onCut')]),
  ];
}

function wires({ x, y, r }: CageSpec): Op[] {
  const side = (k: number): string =>
    curve(
      [x + k * 0.72 * r, y - 1.12 * r],
      [x + k * 0.98 * r, y - 0.5 * r],
      [x + k * 1.0 * r, y + 0.35 * r],
      [x + k * 0.6 * r, y + 1.14 * r],
    );
  const bow = curve(
    [x - 0.6 * r, y + 1.14 * r],
    [x - 0.25 * r, y + 1.32 * r],
    [x + 0.25 * r, y + 1.32 * r],
    [x + 0.6 * r, y + 1.14 * r],
  );
  const w = 0.05 * r + 0.9;
  return [line(side(-1) + side(1), w + 2.6, 'sheet'), line(side(-1) + side(1), w, 'ink'), line(bow, w + 0.6, 'ink')];
}

const hinge = ({ x, y, r }: CageSpec, dy: number): Op =>
  solid(rrect(x - 0.78 * r, y - (1.26 + dy) * r, 1.56 * r, 0.27 * r, 0.1 * r), 'ink');

const liveOps = (spec: CageSpec, state: CageState): Op[] => {
  const { x, y, r } = spec;
  const word = spec.words?.[state];
  const bail = curve(
    [x - 0.72 * r, y - 1.55 * r],
    [x - 0.62 * r, y - 2.15 * r],
    [x + 0.62 * r, y - 2.15 * r],
    [x + 0.72 * r, y - 1.55 * r],
  );
  return [
    ...mushroom(spec, state === 'pressed'),
    hinge(spec, state === 'guarded' ? 0 : 0.04),
    ...(state === 'guarded' ? wires(spec) : [line(bail, 0.05 * r + 1, 'ink')]),
    ...(word ? [words(word, x, y + 1.3 * r + 18, { anchor: 'middle', bold: true })] : []),
  ];
};

/** Value: guarded, open (cage up) or pressed. */
export const cage: Face<CageSpec, CageState> = {
  natural: { w: 66, h: 110 },
  staticOps: (spec) => [
    solid(circle(spec.x + 2.5, spec.y + 4, spec.r), 'shade'),
    ...(spec.label
      ? [words(spec.label, spec.x, spec.y + (spec.labelDrop ?? 1.3 * spec.r + 18), { bold: true, anchor: 'middle' })]
      : []),
  ],
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, ['guarded', 'open', 'pressed']),
};
