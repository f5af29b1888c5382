import type { Box } from '../kit/bounds.ts';
import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { CAPITAL, textWidth } from '../kit/metrics.ts';
import { LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, at, band, circle, num, poly, spread } from '../kit/path.ts';

/** A lever in a notched sweep. x, y is its hub. */
export interface TillerSpec extends Labelled {
  x: number;
  y: number;
  /** Hub to grip; 70 close up, 32 in the whole view. */
  length: number;
  /** Two to five positions, left to right. */
  words: readonly string[];
  /** Compass angle of each position; by default an even sweep. */
  angles?: readonly number[];
  /** Default 14; 0 prints no words. */
  size?: number;
  /** Distance of the label's baseline below the hub; default 0.16 length + 24. */
  labelDrop?: number;
}

const SWEEP = [0, 0, 35, 42, 51, 60];

/** Compass angle of every position. */
export const tillerAngles = (spec: TillerSpec): readonly number[] => {
  const half = SWEEP[spec.words.length] ?? 60;
  return spec.angles ?? spread(-half, half, spec.words.length);
};

/** Angle at a position that may lie between two (a lever in motion, overshoot included). */
function angleAt(angles: readonly number[], value: number): number {
  const i = Math.max(0, Math.min(angles.length - 2, Math.floor(value)));
  const [a, b] = [angles[i]!, angles[i + 1] ?? angles[i]!];
  return a + (b - a) * (value - i);
}

function plate({ x, y, length: L }: TillerSpec, angles: readonly number[]): Op[] {
  const [first, last] = [angles[0]!, angles[angles.length - 1]!];
  const notch = (a: number): string =>
    poly([at(x, y, 0.725 * L, a - 3.4), at(x, y, 0.725 * L, a + 3.4), at(x, y, 0.655 * L, a)], true);
  const weight = L > 50 ? LINE : 1.3;
  return [
    shape(band(x, y, 0.5 * L, 0.72 * L, first - 9, last + 9), 'g1', weight),
    solid(angles.map(notch).join(''), 'ink'),
  ];
}

function lever({ x, y, length: L }: TillerSpec, angle: number): Op[] {
  const [a, b] = [0.085 * L, 0.055 * L];
  const arm = poly(
    [
      [x - a, y],
      [x - b, y - 0.86 * L],
      [x + b, y - 0.86 * L],
      [x + a, y],
    ],
    true,
  );
  const [r, top] = [0.15 * L, y - 0.98 * L];
  const drop = `M${num(x)} ${num(y - 0.72 * L)}C${num(x - 0.05 * L)} ${num(y - 0.8 * L)} ${num(x - r)} ${num(y - 0.86 * L)} ${num(x - r)} ${num(top)}C${num(x - r)} ${num(top - r * 1.3)} ${num(x + r)} ${num(top - r * 1.3)} ${num(x + r)} ${num(top)}C${num(x + r)} ${num(y - 0.86 * L)} ${num(x + 0.05 * L)} ${num(y - 0.8 * L)} ${num(x)} ${num(y - 0.72 * L)}Z`;
  const small = L < 50;
  return within({ matrix: turn(angle, x, y) }, [
    shape(arm, 'sheet', small ? 1.3 : LINE),
    solid(drop, 'ink'),
    line(arc(x, top, 0.085 * L, -75 - angle, 5 - angle), small ? 0.9 : LINE, 'onCut'),
  ]);
}

function shadow({ x, y, length: L }: TillerSpec, angle: number): Op[] {
  const [dx, dy] = [0.07 * L, 0.07 * L];
  const side = (r: number, half: number, way: number): [number, number] => {
    const [px, py] = at(x + dx, y + dy, r, angle);
    const [ox, oy] = at(0, 0, half, angle + 90 * way);
    return [px + ox, py + oy];
  };
  return [
    solid(
      poly(
        [side(0, 0.085 * L, -1), side(0.9 * L, 0.06 * L, -1), side(0.9 * L, 0.06 * L, 1), side(0, 0.085 * L, 1)],
        true,
      ),
      'shade',
    ),
  ];
}

/** Middle and radius of the grip, as shares of the length; sheet left between it and a name. */
const GRIP = 0.98;
const GRIP_R = 0.15;
const CLEAR = 4;

/** Where the name of every position stands: middles on one arc round the hub, as near as the longest may come to the grip. */
export function tillerWords(spec: TillerSpec): Box[] {
  const size = spec.size ?? 14;
  const angles = tillerAngles(spec);
  const h = CAPITAL * size;
  const keep = GRIP_R * spec.length + CLEAR;
  // Along the ray the name clears the grip below it or beside it, whichever comes first.
  const out = (text: string, i: number): number => {
    const a = (angles[i]! * Math.PI) / 180;
    return Math.min((keep + h / 2) / Math.cos(a), (keep + textWidth(text, size) / 2) / Math.abs(Math.sin(a)));
  };
  const r = GRIP * spec.length + Math.max(...spec.words.map(out));
  return spec.words.map((text, i) => {
    const [mx, my] = at(spec.x, spec.y, r, angles[i]!);
    const w = textWidth(text, size);
    return { left: mx - w / 2, top: my - h / 2, right: mx + w / 2, bottom: my + h / 2 };
  });
}

function positionWords(spec: TillerSpec, chosen: number): Op[] {
  const size = spec.size ?? 14;
  if (!size) return [];
  return tillerWords(spec).map(({ left, right, bottom }, i) => {
    const bold = i === chosen;
    return words(spec.words[i]!, (left + right) / 2, bottom, {
      size,
      bold,
      anchor: 'middle',
      fill: bold ? 'ink' : 'ink2',
    });
  });
}

function hub({ x, y, length: L }: TillerSpec): Op[] {
  const r = Math.max(6, 0.155 * L);
  return [shape(circle(x, y, r), 'sheet', L > 50 ? LINE : 1.4), solid(circle(x, y, 0.42 * r), 'ink')];
}

const liveOps = (spec: TillerSpec, value: number): Op[] => {
  const angles = tillerAngles(spec);
  const angle = angleAt(angles, value);
  return [...shadow(spec, angle), ...lever(spec, angle), ...hub(spec), ...positionWords(spec, Math.round(value))];
};

/** Value: position from 0; fractions while it is thrown. */
export const tiller: Face<TillerSpec, number> = {
  natural: { w: 190, h: 110 },
  staticOps(spec) {
    const drop = spec.labelDrop ?? 0.16 * spec.length + 24;
    const label = spec.label ? [words(spec.label, spec.x, spec.y + drop, { bold: true, anchor: 'middle' })] : [];
    return [...plate(spec, tillerAngles(spec)), ...label];
  },
  liveOps,
  tileBox(spec) {
    const last = spec.words.length - 1;
    return boxOver(liveOps, spec, [-0.1, ...spread(0, last, 8 * last + 1), ...spec.words.keys(), last + 0.1], 2);
  },
};
