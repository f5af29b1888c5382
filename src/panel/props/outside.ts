import type { Face } from '../kit/face.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, place, shape, solid, within } from '../kit/ops.ts';
import { circle, curve, ellipse, num, type Point, poly, rect, rrect, seg, smooth } from '../kit/path.ts';
import { fieldOps } from './field.ts';
import { cloud, gull, sand, seaLines, seedHeads, tuft } from './marram.ts';
import { caution } from './paper.ts';

/** The view through the hatch: a dune, the sea, the whip. x, y its top left; drawn at 256 x 450, scaled to h. */
export interface OutsideSpec {
  x: number;
  y: number;
  /** 450 in the whole view, 555 close up. */
  h: number;
}

export interface OutsideValue {
  /** Sections of the whip that stand, 0 to 4. */
  sections: number;
  guard: boolean;
  spike: boolean;
  /** Counterpoise wires laid out, 0 to 4. */
  counterpoise: number;
  radiating: boolean;
  /** Turns of the carrier as drawn, 0 to 1. */
  phase: number;
  /** A line overhead: a danger to any whip. */
  overhead: boolean;
}

const W = 256;
const H = 450;
const HORIZON = 294;
const FOOT: Point = [132, 388];
const SECTION_H = [0, 116, 116, 84, 68];

/** Height of the tip for a number of sections. */
const tip = (sections: number): number => SECTION_H.slice(1, sections + 1).reduce((y, h) => y - h, FOOT[1]);

const DUNE: readonly Point[] = [
  [0, 403],
  [30, 399],
  [66, 394],
  [104, 391],
  [150, 386],
  [176, 374],
  [206, 352],
  [232, 334],
  [258, 322],
];

function land(): Op[] {
  const n = num;
  const crest = smooth(DUNE);
  const body = `${crest}L${n(W)} ${n(H)}L0 ${n(H)}Z`;
  const layers = [14, 26, 38, 50].map((d, i) =>
    smooth(DUNE.slice(1 + i).map(([x, y]) => [x + i * 5, y + d + (W - x) * 0.02 * i] as const)),
  );
  return [
    solid(body, 'sheet'),
    ...within({ clip: body }, [sand(0, 320, W, 130, 5, 10), line(layers.join(''), HAIR, 'ink', { o: 0.6 })]),
    line(crest, LINE + 0.2),
  ];
}

function far(): Op[] {
  const hill = (pts: readonly Point[]): Op[] => {
    const d = `${smooth(pts)}Z`;
    return [solid(d, 'paper'), solid(d, 'hatch', { o: 0.8 }), line(smooth(pts), FINE, 'ink', { o: 0.85 })];
  };
  return [
    ...cloud(150, 52, 78),
    ...cloud(28, 138, 54),
    ...cloud(186, 190, 60),
    ...gull(215, 90, 36),
    ...gull(58, 230, 22),
    ...hill([
      [2, HORIZON],
      [20, 289],
      [34, 287],
      [56, 290],
      [74, HORIZON],
    ]),
    ...hill([
      [150, HORIZON],
      [164, 284],
      [184, 277],
      [204, 283],
      [220, 284],
      [238, HORIZON],
    ]),
    solid(rect(0, HORIZON, W, 120), 'g1'),
    line(seg(0, HORIZON, W, HORIZON), FINE, 'ink', { snap: true }),
    seaLines(0, HORIZON, W, 84, 3, 9),
  ];
}

function staticOps({ x, y, h }: OutsideSpec): Op[] {
  return within({ matrix: place(x, y, h / H), clip: rect(0, 0, W, H) }, [
    ...far(),
    ...land(),
    ...tuft(28, 437, 21, 3),
    ...tuft(96, 432, 24, 8),
    ...tuft(160, 443, 17, 5, 9),
    ...seedHeads(206, 350, 44, 4, 2),
    line(seg(0, 403, 0, H), FINE, 'ink'),
    line(seg(0, H - 0.8, W, H - 0.8), LINE, 'ink'),
  ]);
}

/** The arm of the vehicle that carries the whip, propped on the ground, and the base with its insulators. */
function mount(): Op[] {
  const [fx, fy] = FOOT;
  const rings = [0, 1, 2, 3]
    .map((i) =>
      rrect(fx - 11 + (i === 0 ? 2 : i === 1 ? 1 : 0), fy - 28 + i * 8.4, 22 - (i === 0 ? 4 : i === 1 ? 2 : 0), 6, 3),
    )
    .join('');
  return [
    line(seg(0, fy + 8, fx - 12, fy + 8), 5, 'cut', { cap: 'butt' }),
    line(seg(fx - 34, fy + 9, fx - 34, fy + 40) + seg(fx - 40, fy + 40, fx - 28, fy + 40), LINE + 0.6),
    shape(rings, 'sheet', FINE + 0.2),
    solid(rrect(fx - 14, fy + 4, 28, 8, 2), 'cut'),
  ];
}

function whip(sections: number, hot: boolean): Op[] {
  if (sections <= 0) return [];
  const [fx] = FOOT;
  const out: Op[] = [];
  const weight = [0, 7, 5.4, 4.2, 3];
  for (let i = sections; i >= 1; i--) {
    const [a, b] = [tip(i - 1), tip(i)];
    if (!hot) out.push(line(seg(fx, a, fx, b), weight[i]! + 2.4, 'sheet', { cap: 'butt' }));
    out.push(line(seg(fx, a, fx, b), weight[i]!, hot ? 'persimmon' : 'ink', { cap: 'butt' }));
  }
  for (let i = 1; i < sections; i++) out.push(solid(rrect(fx - 4.5, tip(i) - 4.5, 9, 9, 1.5), 'cut'));
  out.push(solid(circle(fx, tip(sections), 3.2), hot ? 'persimmon' : 'ink'));
  return out;
}

function guardOps(): Op[] {
  const [fx, fy] = FOOT;
  const rib = (k: number): string =>
    curve([fx + k * 8, fy - 48], [fx + k * 20, fy - 40], [fx + k * 26, fy - 18], [fx + k * 25, fy + 5]);
  const inner = (k: number): string =>
    curve([fx + k * 4, fy - 46], [fx + k * 10, fy - 34], [fx + k * 13, fy - 12], [fx + k * 12.5, fy + 5]);
  const hoop = curve([fx - 26, fy - 14], [fx - 10, fy - 8], [fx + 10, fy - 8], [fx + 26, fy - 14]);
  return [
    line(rib(-1) + rib(1) + inner(-1) + inner(1) + hoop, FINE + 2.2, 'sheet', { o: 0.6 }),
    line(rib(-1) + rib(1) + inner(-1) + inner(1) + hoop, FINE + 0.3),
    shape(ellipse(fx, fy - 48, 9.5, 2.6), 'sheet', FINE + 0.3),
  ];
}

function spikeOps(driven: boolean): Op[] {
  const [x, y] = [60, 379];
  if (!driven)
    return [
      ...within({ matrix: [0.9, 0.32, -0.32, 0.9, 40, 412] }, [
        line(seg(0, 0, 34, 0), 3, 'ink', { cap: 'butt' }),
        solid(
          poly(
            [
              [34, -4],
              [46, 0],
              [34, 4],
            ],
            true,
          ),
          'ink',
        ),
      ]),
    ];
  return [
    line(curve([x, y + 4], [x + 20, y + 8], [x + 40, y + 10], [FOOT[0] - 12, FOOT[1] + 9]), FINE + 0.3),
    line(seg(x, y, x, y + 44), 3, 'ink', { cap: 'butt' }),
    line(seg(x - 4, y, x + 4, y), 2.6, 'ink'),
    solid(
      poly(
        [
          [x - 4, y + 42],
          [x + 4, y + 42],
          [x, y + 56],
        ],
        true,
      ),
      'ink',
    ),
  ];
}

const WIRES: readonly (readonly [Point, Point, Point])[] = [
  [
    [100, 402],
    [50, 416],
    [26, 428],
  ],
  [
    [120, 410],
    [104, 424],
    [92, 428],
  ],
  [
    [150, 404],
    [164, 414],
    [182, 420],
  ],
  [
    [170, 394],
    [200, 392],
    [226, 384],
  ],
];

function counterpoiseOps(count: number): Op[] {
  const from: Point = [FOOT[0], FOOT[1] + 11];
  const laid = WIRES.slice(0, count);
  if (!laid.length) return [];
  const d = laid.map(([a, b, c]) => curve(from, a, b, c)).join('');
  const pegs = laid.map(([, , [px, py]]) => seg(px - 1, py - 5, px + 1, py + 5)).join('');
  return [line(d, FINE + 0.2), line(pegs, EDGE)];
}

/** A line on poles: drawn dark and double so that it is not taken for a field line. */
function overheadOps(): Op[] {
  const sag = (dy: number): string => curve([0, 30 + dy], [80, 52 + dy], [180, 54 + dy], [W, 40 + dy]);
  return [
    line(seg(236, 20, 236, 330), 4, 'ink', { cap: 'butt' }),
    line(seg(222, 38, 250, 38), 3, 'ink'),
    line(sag(0) + sag(9), LINE),
  ];
}

const above = `${smooth([...DUNE])}L${W} 0L0 0Z`;

const liveOps = ({ x, y, h }: OutsideSpec, v: OutsideValue): Op[] => {
  const hot = v.radiating && v.sections > 0;
  const field = hot
    ? within(
        { clip: above },
        fieldOps(
          { x: FOOT[0], y: FOOT[1] - 4, wavelength: 128, reach: 470, phase: v.phase, levels: [0.15, 0.4] },
          0.95,
        ),
      )
    : [];
  return within({ matrix: place(x, y, h / H), clip: rect(0, 0, W, H) }, [
    ...(v.overhead ? overheadOps() : []),
    ...field,
    ...tuft(246, 352, 62, 21, 17),
    ...tuft(218, 366, 40, 12, 13),
    ...counterpoiseOps(v.counterpoise),
    ...whip(v.sections, hot),
    ...mount(),
    ...(v.guard ? guardOps() : []),
    ...spikeOps(v.spike),
    ...(hot ? [solid(ellipse(186, 403, 22, 18), 'sheet'), ...caution(186, 403, 25)] : []),
  ]);
};

/** Value: what stands outside, and whether it radiates. */
export const outside: Face<OutsideSpec, OutsideValue> = {
  natural: { w: W, h: H },
  staticOps,
  liveOps,
  tileBox: ({ x, y, h }) => ({ left: x, top: y, right: x + (W * h) / H, bottom: y + h }),
};
