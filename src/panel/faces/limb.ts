import type { Face } from '../kit/face.ts';
import { textWidth } from '../kit/metrics.ts';
import { EDGE, FINE, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, at, band, circle, poly, ticks } from '../kit/path.ts';

/** A graduated rim that turns behind a bent window, and an index that can be set along it. x, y is the top left of the window. */
export interface LimbSpec {
  x: number;
  y: number;
  /** Chord of the outer edge, and thickness of the window; from 40 on it has the ring of the whole band too. */
  w: number;
  h: number;
  /** How far the outer edge rises over its chord. */
  bow: number;
  /** Units (kHz) seen across the window. */
  span: number;
  /** Units between ticks; every fifth is longer, every tenth has a number. */
  step: number;
}

/** What stands under the middle, how far the index stands from there, the band's lower end and width; all kHz. */
export type LimbValue = { middle: number; index: number; low: number; wide: number };

const RING = 15;
/** The ring's marks, kHz; every fifth is a diamond: there the calibrator beats. */
const RING_STEP = 50;

/** A whole frequency, kHz, thousands apart. */
const whole = (v: number): string => String(Math.round(v)).replace(/(?=\d{3}$)(?<=\d)/, ' ');

type Shape = { cx: number; cy: number; r: number; half: number; k: number; foot: number };

/** Centre and radius of the rim, half its window in degrees, degrees a unit, radius of the scale's foot. */
function shapeOf({ x, y, w, h, bow, span }: LimbSpec): Shape {
  const r = (w * w) / 8 / bow + bow / 2;
  const half = (Math.asin(w / 2 / r) * 180) / Math.PI;
  return { cx: x + w / 2, cy: y + r, r, half, k: (2 * half) / span, foot: r - h + (h > 40 ? RING : 0) };
}

function rim({ h, step }: LimbSpec, { cx, cy, r, k, half, foot }: Shape, middle: number): Op[] {
  const deep = r - foot;
  const sizes: [number, number[]][] = [
    [0.2, []],
    [0.32, []],
    [0.42, []],
  ];
  const numbers: Op[] = [];
  const reach = half / k + 3 * step;
  const size = h > 40 ? 17 : 14;
  const wing = ((textWidth(whole(middle), size) / 2 + 2) / foot) * (180 / Math.PI);
  for (let i = Math.max(0, Math.ceil((middle - reach) / step)); i * step <= middle + reach; i++) {
    const deg = (i * step - middle) * k;
    sizes[i % 10 === 0 ? 2 : i % 5 === 0 ? 1 : 0]![1].push(deg);
    // A number shows when the window has room for the whole of it.
    if (i % 10 !== 0 || Math.abs(deg) + wing > half) continue;
    const [px, py] = at(cx, cy, foot + 0.13 * deep, deg);
    const text = words(whole(i * step), px, py, { size, anchor: 'middle', bold: h > 40 });
    numbers.push(...within({ matrix: turn(deg, px, py) }, [text]));
  }
  const marks = sizes.flatMap(([long, angles], i) =>
    angles.length > 0
      ? [line(ticks(cx, cy, r - long * deep, r, angles), i < 2 ? FINE : LINE + 0.3, 'ink', { cap: 'butt' })]
      : [],
  );
  return [...marks, ...numbers];
}

/** The whole band under the rim: a bead where the dial stands in it. */
function ring({ cx, cy, half, foot }: Shape, { middle, low, wide }: LimbValue): Op[] {
  const edge = half - 1.2;
  const deg = (kHz: number): number => edge * (2 * Math.max(0, Math.min(1, kHz / wide)) - 1);
  const r = foot - RING / 2;
  const all = Array.from({ length: Math.floor(wide / RING_STEP) + 1 }, (_, i) => i * RING_STEP);
  const diamonds = all.filter((v) => v % (5 * RING_STEP) === 0);
  const small = all.filter((v) => v % (5 * RING_STEP) !== 0);
  const diamond = (v: number): string =>
    poly(
      [
        at(cx, cy, r + 3.6, deg(v)),
        at(cx, cy, r, deg(v) + 0.3),
        at(cx, cy, r - 3.6, deg(v)),
        at(cx, cy, r, deg(v) - 0.3),
      ],
      true,
    );
  const [bx, by] = at(cx, cy, r, deg(middle - low));
  return [
    line(arc(cx, cy, foot, -half, half), FINE),
    line(ticks(cx, cy, r - 2, r + 2, small.map(deg)), FINE, 'ink', { cap: 'butt' }),
    solid(diamonds.map(diamond).join(''), 'ink'),
    shape(circle(bx, by, 5), 'ink', LINE, 'sheet'),
  ];
}

function hair({ h }: LimbSpec, { cx, cy, r, k, foot }: Shape, index: number): Op[] {
  const deg = index * k;
  const size = h > 40 ? 8 : 6;
  const wing = ((size * 0.95) / r) * (180 / Math.PI);
  return [
    line(poly([at(cx, cy, r, deg), at(cx, cy, r - 0.46 * (r - foot), deg)]), LINE + 0.4, 'ink', { cap: 'butt' }),
    solid(
      poly([at(cx, cy, r + size, deg - wing), at(cx, cy, r + size, deg + wing), at(cx, cy, r - 2, deg)], true),
      'ink',
    ),
  ];
}

const liveOps = (spec: LimbSpec, value: LimbValue): Op[] => {
  const s = shapeOf(spec);
  const window = band(s.cx, s.cy, s.r - spec.h, s.r, -s.half, s.half);
  return [
    ...within({ clip: window }, [...rim(spec, s, value.middle), ...(spec.h > 40 ? ring(s, value) : [])]),
    ...hair(spec, s, value.index),
  ];
};

/** Value: what the rim and the index stand at. */
export const limb: Face<LimbSpec, LimbValue> = {
  natural: { w: 352, h: 76 },
  staticOps(spec) {
    const { cx, cy, r, half } = shapeOf(spec);
    return [shape(band(cx, cy, r - spec.h, r, -half, half), 'sheet', spec.h > 40 ? EDGE : LINE + 0.2)];
  },
  liveOps,
  tileBox({ x, y, w, h, bow }) {
    return { left: x - 9, top: y - 10, right: x + w + 9, bottom: y + h + bow + 1 };
  },
};
