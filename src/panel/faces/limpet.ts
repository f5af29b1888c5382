import type { Box } from '../kit/bounds.ts';
import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { CAPITAL, textWidth } from '../kit/metrics.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, at, circle, num, spread, ticks } from '../kit/path.ts';

/** A ribbed knob with a tongue past the rim. x, y is its centre. */
export interface LimpetSpec extends Labelled {
  x: number;
  y: number;
  /** 46 alone, 28 in a row, 12 in the whole view. */
  r: number;
  /** Compass angles of the ends of a continuous knob; default -135 and 135. */
  from?: number;
  to?: number;
  /** Marks round a continuous knob; default 21, every fifth longer; 0 for none. */
  marks?: number;
  /** Detents with words; value is then an index. Empty words print nothing. */
  words?: readonly string[];
  /** Angle of each detent; by default an even spread from..to. */
  angles?: readonly number[];
  /** Default 14; 0 prints no words. */
  size?: number;
  /** A tinted ring with a mark a detent. */
  ring?: boolean;
  /** A bare disc under the knob, where it sits on a track. */
  disc?: boolean;
  /** Distance of the label's baseline below the centre; default r + 28. */
  labelDrop?: number;
}

/** Light comes from the upper left. */
const LIGHT = 315;

const near = (deg: number): number => (1 - Math.cos(((deg - LIGHT) * Math.PI) / 180)) / 2;

/** Ribs turn with the knob; their weight is given by where they stand, so the shade stays. Six weights, six strokes. */
export function ribs(x: number, y: number, r0: number, r1: number, deg: number): Op[] {
  const n = Math.max(18, Math.min(48, Math.round(9 + 0.92 * r1)));
  const k = Math.min(1, 0.4 + r1 / 75);
  const groups: number[][] = [[], [], [], [], [], []];
  for (let i = 0; i < n; i++) {
    const a = ((((i / n) * 360 + deg) % 360) + 360) % 360;
    groups[Math.min(5, Math.floor(near(a) * 6))]!.push(a);
  }
  return groups.flatMap((g, i) =>
    g.length ? [line(ticks(x, y, r0, r1, g), (0.5 + 0.34 * i) * k, 'ink', { cap: 'butt' })] : [],
  );
}

/** The solid pointer, from the centre to the tip. */
function tongue(x: number, y: number, r: number, deg: number): Op[] {
  const p = (dx: number, dy: number): string => `${num(x + dx * r)} ${num(y - dy * r)}`;
  const d = `M${p(-0.115, 0)}C${p(-0.115, -0.15)} ${p(0.115, -0.15)} ${p(0.115, 0)}L${p(0.15, 0.7)}C${p(0.14, 0.9)} ${p(0.04, 1.04)} ${p(0, 1.17)}C${p(-0.04, 1.04)} ${p(-0.14, 0.9)} ${p(-0.15, 0.7)}Z`;
  return within({ matrix: turn(deg, x, y) }, [solid(d, 'ink')]);
}

/** A whole knob at a compass angle, cast shadow not included. */
export function knob(x: number, y: number, r: number, deg: number): Op[] {
  const big = r > 20;
  return [
    shape(circle(x, y, r), 'sheet', big ? EDGE : LINE),
    ...ribs(x, y, 0.6 * r, 0.92 * r, deg),
    line(circle(x, y, 0.5 * r), big ? FINE : HAIR),
    line(arc(x, y, 0.36 * r, 95, 195), big ? FINE : HAIR),
    ...tongue(x, y, r, deg),
  ];
}

/** Cast shadow of a disc; it does not turn. */
export const discShade = (x: number, y: number, r: number): Op =>
  solid(circle(x + Math.min(5, 0.11 * r + 1.5), y + Math.min(6, 0.13 * r + 1.5), r), 'shade');

/** Compass angles of the detents. */
export function limpetAngles(spec: LimpetSpec): readonly number[] {
  const n = spec.words?.length ?? 0;
  return spec.angles ?? spread(spec.from ?? -135, spec.to ?? 135, n);
}

/** Compass angle of the tongue at a value. */
export function limpetAngle(spec: LimpetSpec, value: number): number {
  const [from, to] = [spec.from ?? -135, spec.to ?? 135];
  if (!spec.words) return from + (to - from) * value;
  const angles = limpetAngles(spec);
  const i = Math.max(0, Math.min(angles.length - 2, Math.floor(value)));
  return angles[i]! + ((angles[i + 1] ?? angles[i]!) - angles[i]!) * (value - i);
}

function marks(spec: LimpetSpec): Op[] {
  const { x, y, r } = spec;
  if (spec.words) {
    if (!spec.ring) return [];
    return [
      shape(circle(x, y, 1.34 * r), 'g1', FINE),
      line(ticks(x, y, 1.06 * r, 1.34 * r, limpetAngles(spec)), FINE, 'ink', { cap: 'butt' }),
    ];
  }
  const n = spec.marks ?? 21;
  if (!n) return [];
  const all = spread(spec.from ?? -135, spec.to ?? 135, n);
  const long = all.filter((_, i) => i % 5 === 0);
  const short = all.filter((_, i) => i % 5 !== 0);
  return [
    line(ticks(x, y, 1.22 * r, 1.34 * r, short), FINE, 'ink', { cap: 'butt' }),
    line(ticks(x, y, 1.2 * r, 1.41 * r, long), LINE, 'ink', { cap: 'butt' }),
  ];
}

/** Where the word of every detent stands; none when none are printed. */
export function limpetWords(spec: LimpetSpec): Box[] {
  const size = spec.size ?? 14;
  if (!spec.words || !size) return [];
  const angles = limpetAngles(spec);
  return spec.words.map((text, i) => {
    const a = (((angles[i]! % 360) + 540) % 360) - 180;
    const [px, py] = at(spec.x, spec.y, (spec.ring ? 1.34 : 1.17) * spec.r + 7, a);
    const s = Math.sin((a * Math.PI) / 180);
    const c = Math.cos((a * Math.PI) / 180);
    const w = textWidth(text, size);
    const left = Math.abs(s) < 0.34 ? px - w / 2 : s < 0 ? px - w : px;
    const bottom = py + CAPITAL * size * (0.5 - 0.5 * c);
    return { left, top: bottom - CAPITAL * size, right: left + w, bottom };
  });
}

const detentWords = (spec: LimpetSpec, chosen: number): Op[] =>
  limpetWords(spec).map(({ left, bottom }, i) => {
    const bold = i === chosen;
    return words(spec.words![i]!, left, bottom, { size: spec.size ?? 14, bold, fill: bold ? 'ink' : 'ink2' });
  });

const liveOps = (spec: LimpetSpec, value: number): Op[] => [
  ...knob(spec.x, spec.y, spec.r, limpetAngle(spec, value)),
  ...detentWords(spec, Math.round(value)),
];

/** Value: 0 to 1 of the sweep, or the index of a detent (fractions while it turns). */
export const limpet: Face<LimpetSpec, number> = {
  natural: { w: 130, h: 130 },
  staticOps(spec) {
    const { x, y, r } = spec;
    const drop = spec.labelDrop ?? r + 28;
    return [
      ...(spec.disc ? [solid(circle(x, y, 1.45 * r), 'sheet')] : []),
      ...marks(spec),
      discShade(x, y, r),
      ...(spec.label ? [words(spec.label, x, y + drop, { bold: true, anchor: 'middle' })] : []),
    ];
  },
  liveOps,
  tileBox(spec) {
    const all = boxOver(liveOps, spec, spec.words ? [...spec.words.keys()] : [0]);
    const reach = 1.17 * spec.r + 1.5;
    return {
      left: Math.min(all.left, spec.x - reach),
      top: Math.min(all.top, spec.y - reach),
      right: Math.max(all.right, spec.x + reach),
      bottom: Math.max(all.bottom, spec.y + reach),
    };
  },
};

/** Two concentric limpets: the ring is coarse, the disc is fine. */
export interface PairSpec extends Labelled {
  x: number;
  y: number;
  /** Radius of the outer ring; 40 close up. */
  r: number;
  /** Both turn without end; angles are compass degrees. */
  labelDrop?: number;
}

const pairOps = ({ x, y, r }: PairSpec, value: { coarse: number; fine: number }): Op[] => {
  const p = (dx: number, dy: number): string => `${num(x + dx * r)} ${num(y - dy * r)}`;
  const leaf = `M${p(-0.1, 0.6)}L${p(-0.13, 0.84)}L${p(0, 1.17)}L${p(0.13, 0.84)}L${p(0.1, 0.6)}Z`;
  return [
    shape(circle(x, y, r), 'sheet', EDGE),
    ...ribs(x, y, 0.7 * r, 0.92 * r, value.coarse),
    line(circle(x, y, 0.6 * r), LINE),
    ...within({ matrix: turn(value.coarse, x, y) }, [shape(leaf, 'ink', HAIR)]),
    ...knob(x, y, 0.46 * r, value.fine),
  ];
};

/** Value: compass degrees of ring and disc. */
export const limpetPair: Face<PairSpec, { coarse: number; fine: number }> = {
  natural: { w: 96, h: 96 },
  staticOps: ({ x, y, r, label, labelDrop }) => [
    discShade(x, y, r),
    ...(label ? [words(label, x, y + (labelDrop ?? r + 20), { bold: true, anchor: 'middle' })] : []),
  ],
  liveOps: pairOps,
  tileBox: ({ x, y, r }) => {
    const reach = 1.17 * r + 2;
    return { left: x - reach, top: y - reach, right: x + reach, bottom: y + reach };
  },
};
