import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { CAPITAL, textWidth } from '../kit/metrics.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, at, band, circle, num, poly, rrect, spread, ticks } from '../kit/path.ts';

/** A quarter meter whose needle swings up clockwise. x, y is the top left of its square. */
export interface SailSpec extends Labelled {
  x: number;
  y: number;
  /** Side of the square; 125 alone, 112 in a box, 62 in the whole view. */
  s: number;
  min: number;
  max: number;
  /** Numbers printed, which get long ticks too; empty for a bare scale. */
  numbers?: readonly number[];
  /** Steps between short ticks, in the unit shown. */
  step: number;
  /** Every how many steps a long tick; default 5. */
  long?: number;
  unit?: string;
  /** Hatched stretch where one must not stay. */
  stop?: readonly [number, number];
  /** Distance of the label's baseline below the square; default 20. */
  labelDrop?: number;
}

const pivot = ({ x, y, s }: SailSpec): [number, number] => [x + 0.86 * s, y + 0.86 * s];

/** Compass angle of a reading; a needle may rest a little past either end. */
export const sailAngle = ({ min, max }: SailSpec, reading: number): number =>
  -90 + 90 * Math.max(-0.03, Math.min(1.03, (reading - min) / (max - min)));

function sheetPath({ x, y, s }: SailSpec): string {
  const r = 0.055 * s;
  const k = 0.5523 * (0.9 * s);
  const n = num;
  return (
    `M${n(x)} ${n(y + 0.95 * s)}C${n(x - 0.005 * s)} ${n(y + 0.9 * s - k)} ${n(x + 0.9 * s - k)} ${n(y - 0.005 * s)} ${n(x + 0.93 * s)} ${n(y)}` +
    `C${n(x + s - r / 3)} ${n(y)} ${n(x + s)} ${n(y + r / 3)} ${n(x + s)} ${n(y + r)}L${n(x + s)} ${n(y + s - r)}` +
    `C${n(x + s)} ${n(y + s - r / 2)} ${n(x + s - r / 2)} ${n(y + s)} ${n(x + s - r)} ${n(y + s)}L${n(x + 0.06 * s)} ${n(y + s)}C${n(x + 0.015 * s)} ${n(y + s)} ${n(x)} ${n(y + 0.985 * s)} ${n(x)} ${n(y + 0.95 * s)}Z`
  );
}

function shade({ x, y, s }: SailSpec): Op {
  const d = Math.min(6, 0.05 * s + 1);
  const k = d * 1.2;
  return solid(
    poly(
      [
        [x + 0.05 * s, y + s],
        [x + s, y + s],
        [x + s, y + 0.06 * s],
        [x + s + d, y + 0.06 * s + d * 0.6],
        [x + s + d, y + s + d],
        [x + 0.05 * s + k, y + s + d],
      ],
      true,
    ),
    'shade',
  );
}

function scale(spec: SailSpec): Op[] {
  const [px, py] = pivot(spec);
  const { s, min, max, step } = spec;
  const [r, big] = [0.7 * s, s > 90];
  const count = Math.round((max - min) / step);
  const all = spread(-90, 0, count + 1);
  const every = spec.long ?? 5;
  const isLong = (i: number): boolean => i % every === 0;
  const r1 = r + (big ? 0.055 : 0.06) * s;
  return [
    line(arc(px, py, r, -90, 0), big ? FINE : HAIR, 'ink', { cap: 'butt' }),
    line(
      ticks(
        px,
        py,
        r,
        r1,
        all.filter((_, i) => !isLong(i)),
      ),
      big ? FINE : HAIR,
      'ink',
      { cap: 'butt' },
    ),
    line(
      ticks(
        px,
        py,
        r - 0.4,
        r1 + 0.025 * s,
        all.filter((_, i) => isLong(i)),
      ),
      big ? LINE + 0.2 : FINE,
      'ink',
      { cap: 'butt' },
    ),
  ];
}

/** Print that the needle passes beneath: it keeps a little of the sheet round it. */
function overNeedle(text: string, left: number, base: number, bold = false): Op[] {
  const h = CAPITAL * 14;
  const w = textWidth(text, 14);
  return [
    solid(rrect(left - 2, base - h - 2, w + 4, h + 4, 2), 'sheet'),
    words(text, left, base, bold ? { bold } : {}),
  ];
}

/** The numbers of the scale and its unit. */
export function sailPrint(spec: SailSpec): Op[] {
  const [px, py] = pivot(spec);
  const out = (spec.numbers ?? []).flatMap((v) => {
    const a = sailAngle(spec, v);
    const t = (a + 90) / 90;
    const [tx, ty] = at(px, py, 0.7 * spec.s - 6, a);
    const text = String(v).replace('-', '−');
    return overNeedle(text, tx + 2 - 2 * t - (t > 0.7 ? textWidth(text, 14) : 0), ty + 4 + 11 * t);
  });
  if (!spec.unit) return out;
  // Where the needle seldom stands: low on a scale that begins at nothing, high on one whose nothing is in the middle.
  const [dx, dy] = spec.min < 0 ? [0.12, 0.3] : [0.27, 0.12];
  const left = px - dx * spec.s - textWidth(spec.unit, 14) / 2;
  return [...out, ...overNeedle(spec.unit, left, py - dy * spec.s, true)];
}

function stopZone(spec: SailSpec): Op[] {
  if (!spec.stop) return [];
  const [px, py] = pivot(spec);
  const [a, b] = spec.stop.map((v) => sailAngle(spec, v)) as [number, number];
  const d = band(px, py, 0.7 * spec.s, 0.77 * spec.s, a, b);
  return [solid(d, 'hatch'), line(d, FINE)];
}

const liveOps = (spec: SailSpec, reading: number): Op[] => {
  const [px, py] = pivot(spec);
  const { s } = spec;
  const w = 0.016 * s + 0.3;
  const needle = poly(
    [
      [px - w, py],
      [px - 0.35, py - 0.7 * s],
      [px + 0.35, py - 0.7 * s],
      [px + w, py],
    ],
    true,
  );
  return [
    ...within({ matrix: turn(sailAngle(spec, reading), px, py) }, [shape(needle, 'ink', 0.7)]),
    ...sailPrint(spec),
    shape(circle(px, py, Math.max(4.2, 0.062 * s)), 'sheet', s > 90 ? LINE : 1.3),
    solid(circle(px, py, Math.max(1.6, 0.025 * s)), 'ink'),
  ];
};

/** Value: the reading in the scale's unit. */
export const sail: Face<SailSpec, number> = {
  natural: { w: 130, h: 130 },
  staticOps(spec) {
    const label = spec.label
      ? [
          words(spec.label, spec.x + spec.s / 2, spec.y + spec.s + (spec.labelDrop ?? 20), {
            bold: true,
            anchor: 'middle',
          }),
        ]
      : [];
    return [
      shade(spec),
      shape(sheetPath(spec), 'sheet', spec.s > 90 ? EDGE : LINE + 0.2),
      ...scale(spec),
      ...stopZone(spec),
      ...label,
    ];
  },
  liveOps,
  tileBox(spec) {
    const all = spread(spec.min, spec.max, 19);
    return boxOver(liveOps, spec, [spec.min - (spec.max - spec.min), ...all, 2 * spec.max - spec.min], 1.5);
  },
};
