import { boxOver, type Face } from '../kit/face.ts';
import { FINE, HAIR, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { curve, num, rrect, seg } from '../kit/path.ts';

/** Two marram leaves, mark and space. x, y is the top left of their window. */
export interface BladesSpec {
  x: number;
  y: number;
  /** 116 x 150 close up, 62 x 62 in the whole view. */
  w: number;
  h: number;
  /** Words under the leaves; none in small views. */
  names?: readonly [string, string];
}

export interface BladesValue {
  /** Level of each tone, 0 to 1: 1 stands up to the line. */
  mark: number;
  space: number;
  /** Error of tuning, -1 to 1 of what the filters hold: the leaves lean with it. */
  lean: number;
}

const MOST = 24;

function leaf(spec: BladesSpec, x: number, level: number, lean: number): Op[] {
  const { y, h } = spec;
  const foot = y + 0.915 * h;
  const tall = Math.max(0.06, Math.min(1, level)) * 0.755 * h;
  const half = Math.min(0.065 * spec.w, 0.05 * h) * (0.5 + 0.5 * Math.min(1, level));
  const n = num;
  const d = `M${n(x - 1)} ${n(foot)}C${n(x - half * 1.3)} ${n(foot - 0.3 * tall)} ${n(x - half)} ${n(foot - 0.72 * tall)} ${n(x)} ${n(foot - tall)}C${n(x + half)} ${n(foot - 0.72 * tall)} ${n(x + half * 1.3)} ${n(foot - 0.3 * tall)} ${n(x + 1)} ${n(foot)}Z`;
  const vein = seg(x, foot - 0.12 * tall, x, foot - 0.9 * tall);
  return within({ matrix: turn(MOST * Math.max(-1, Math.min(1, lean)), x, foot) }, [
    solid(d, 'ink'),
    line(vein, HAIR + 0.2, 'sheet'),
  ]);
}

const roots = ({ w }: BladesSpec): [number, number] => [0.31 * w, 0.69 * w];

const liveOps = (spec: BladesSpec, { mark, space, lean }: BladesValue): Op[] => {
  const [a, b] = roots(spec);
  return within({ clip: rrect(spec.x, spec.y, spec.w, spec.h, 6) }, [
    ...leaf(spec, spec.x + a, mark, lean),
    ...leaf(spec, spec.x + b, space, lean),
  ]);
};

function staticOps(spec: BladesSpec): Op[] {
  const { x, y, w, h } = spec;
  const foot = y + 0.915 * h;
  const big = h > 90;
  const out: Op[] = [shape(rrect(x, y, w, h, 6), 'sheet', LINE, 'ink', { snap: true })];
  if (big) {
    const ruled = [0.2, 0.32, 0.44, 0.56, 0.68, 0.8].map((t) => seg(x + 6, y + t * h, x + w - 6, y + t * h)).join('');
    out.push(line(ruled, FINE, 'g2', { snap: true }));
  }
  for (const dx of roots(spec)) {
    const [cx, top] = [x + dx, y + 0.135 * h];
    const half = 0.16 * w;
    out.push(
      line(seg(cx - half, top, cx + half, top) + (big ? seg(cx, top - 8, cx, top) : ''), FINE + 0.2, 'ink', {
        snap: true,
      }),
    );
    const side = (k: number): string =>
      curve(
        [cx + k * 2, foot],
        [cx + k * 4, foot - 0.06 * h],
        [cx + k * 0.13 * w, foot - 0.1 * h],
        [cx + k * 0.2 * w, foot - 0.17 * h],
      );
    const inner = (k: number): string =>
      curve(
        [cx + k * 2, foot],
        [cx + k * 3, foot - 0.08 * h],
        [cx + k * 0.07 * w, foot - 0.12 * h],
        [cx + k * 0.1 * w, foot - 0.17 * h],
      );
    out.push(line(side(-1) + side(1) + (big ? inner(-1) + inner(1) : ''), FINE + 0.2));
  }
  out.push(line(seg(x + 6, foot, x + w - 6, foot), FINE + 0.2, 'ink', { snap: true }));
  if (spec.names) {
    const [a, b] = roots(spec);
    out.push(words(spec.names[0], x + a, y + h + 18, { bold: true, anchor: 'middle' }));
    out.push(words(spec.names[1], x + b, y + h + 18, { bold: true, anchor: 'middle' }));
  }
  return out;
}

/** Value: two levels and the lean. Upright and to the line is on tune. */
export const blades: Face<BladesSpec, BladesValue> = {
  natural: { w: 116, h: 150 },
  staticOps,
  liveOps,
  tileBox: (spec) =>
    boxOver(
      liveOps,
      spec,
      [-1, -0.5, 0, 0.5, 1].map((lean) => ({ mark: 1, space: 1, lean })),
    ),
};
