import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { at, circle, poly } from '../kit/path.ts';

/** A lamp. x, y is its centre; r 14 alone, 10 in a row, 5 in the whole view. */
export interface LampSpec extends Labelled {
  x: number;
  y: number;
  r: number;
  /** Words under it in each state; bold when it is not dark. */
  words?: { dark: string; lit: string; radiating?: string };
  labelDrop?: number;
}

export type LampState = 'dark' | 'lit' | 'radiating';

const RAYS = Array.from({ length: 10 }, (_, i) => 8 + 36 * i);
const REACH = [1.85, 1.62, 1.9, 1.55, 1.8, 1.58, 1.92, 1.6, 1.78, 1.86];

/** Ten strokes thrown out, their length by the glow. */
function rays({ x, y, r }: LampSpec, glow: number): string {
  return RAYS.map((a, i) =>
    poly([at(x, y, 1.32 * r, a), at(x, y, (1.32 + (REACH[i]! - 1.32) * Math.max(0.05, glow)) * r, a)]),
  ).join('');
}

function glass(spec: LampSpec, state: LampState, glow: number): Op[] {
  const { x, y, r } = spec;
  const w = r > 8 ? LINE : FINE;
  if (state === 'dark') return [shape(circle(x, y, r), 'g1', w), solid(circle(x, y, r - w / 2), 'hatch')];
  if (state === 'radiating')
    return [
      line(rays(spec, glow), w + 0.3, 'persimmon'),
      solid(circle(x, y, r), 'persimmon'),
      solid(circle(x, y, 0.42 * r), 'sheet'),
    ];
  return [line(rays(spec, glow), w, 'ink'), shape(circle(x, y, r), 'sheet', w), line(circle(x, y, 0.45 * r), FINE)];
}

/** State, and how warm it is (0 to 1, default 1) for a lamp that warms up or cools. */
export interface LampValue {
  state: LampState;
  glow?: number;
}

const liveOps = (spec: LampSpec, { state, glow = 1 }: LampValue): Op[] => {
  const word = spec.words ? (state === 'radiating' ? (spec.words.radiating ?? spec.words.lit) : spec.words[state]) : '';
  const on = state !== 'dark';
  const under = spec.y + 1.9 * spec.r + 17;
  return [
    ...glass(spec, state, glow),
    ...(word ? [words(word, spec.x, under, { anchor: 'middle', bold: on, fill: on ? 'ink' : 'ink2' })] : []),
  ];
};

export const lamp: Face<LampSpec, LampValue> = {
  natural: { w: 54, h: 54 },
  staticOps: (spec) =>
    spec.label
      ? [words(spec.label, spec.x, spec.y + (spec.labelDrop ?? 1.9 * spec.r + 17), { bold: true, anchor: 'middle' })]
      : [],
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, [{ state: 'dark' }, { state: 'lit' }, { state: 'radiating' }]),
};
