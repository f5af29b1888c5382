import { between } from '../kit/dice.ts';
import { EDGE, FINE, HAIR, line, type Op, place, shape, solid, within } from '../kit/ops.ts';
import { curve, type Point, rect, seg, smooth } from '../kit/path.ts';
import { gull, sand, seaLines, seedHeads, tuft } from './marram.ts';
import { vehicleOps } from './vehicle.ts';

/** The first page's picture, drawn at 612 x 524. */
export interface PictureSpec {
  x: number;
  y: number;
  /** Width; height follows, or a wider frame shows more coast on both sides. */
  w: number;
  h?: number;
  /** Painted on the shelter's side. */
  name: string;
}

const W = 612;
const H = 524;
const HORIZON = 314;

/** The sky is ruled in arcs that crowd into two layers: the part of the sky this trade uses. */
function sky(m: number): Op[] {
  const [cx, radius] = [280, 1480];
  let apex = -150;
  let fine = '';
  let bold = '';
  for (let row = 0; apex < HORIZON + 4; row++) {
    const layer = Math.max(1 - Math.abs(apex - 32) / 26, 1 - Math.abs(apex - 138) / 20, 0);
    let x = -between(0, 60, row, 1) - m;
    while (x < W + m) {
      const len = between(50, 150, row, Math.round(x), 2) * (layer > 0.3 ? 1.5 : 0.8);
      const gap = layer > 0.3 ? between(4, 12, row, Math.round(x), 3) : between(8, 34, row, Math.round(x), 3);
      const y = (px: number): number => apex + radius - Math.sqrt(radius * radius - (px - cx) ** 2);
      const [a, b] = [x, Math.min(x + len, W + m + 4)];
      if (b - a > 6) {
        const d = curve(
          [a, y(a)],
          [a + (b - a) / 3, y(a + (b - a) / 3)],
          [a + ((b - a) * 2) / 3, y(a + ((b - a) * 2) / 3)],
          [b, y(b)],
        );
        if (layer > 0.3) bold += d;
        else fine += d;
      }
      x += len + gap;
    }
    apex += 11.4 - 7.8 * layer;
  }
  return [line(fine, HAIR + 0.1, 'ink', { o: 0.85 }), line(bold, FINE + 0.25)];
}

function sea(m: number): Op[] {
  const hill: readonly Point[] = [
    [430, 314],
    [452, 296],
    [476, 286],
    [510, 291],
    [552, 304],
    [596, 314],
  ];
  const d = `${smooth(hill)}Z`;
  return [
    solid(rect(-m, HORIZON, W + 2 * m, 70), 'g1'),
    solid(d, 'paper'),
    solid(d, 'hatch'),
    line(smooth(hill), FINE),
    shape(rect(462, 274, 16, 14), 'sheet', FINE + 0.2),
    solid('M459.5 275L470 266L480.5 275Z', 'ink'),
    line(seg(-m, HORIZON, W + m, HORIZON), FINE),
    seaLines(-m, HORIZON, W + 2 * m, 52, 17, 6),
  ];
}

const DUNE: readonly Point[] = [
  [-420, 386],
  [-200, 376],
  [-4, 367],
  [60, 361],
  [130, 363],
  [220, 372],
  [320, 374],
  [420, 366],
  [510, 355],
  [570, 344],
  [616, 334],
  [760, 326],
  [1040, 350],
];

function dune(m: number): Op[] {
  const body = `${smooth(DUNE)}L1040 ${H}L-420 ${H}Z`;
  const lower = [24, 40, 56, 70].map((d, i) =>
    smooth(DUNE.slice(3, 10).map(([x, y], j) => [x + i * 9 - 20, y + d + (j - 3) ** 2 * -0.5 + i * 2] as const)),
  );
  const cast = `M6 402C60 394 420 392 500 399C520 402 480 408 420 410C300 414 90 414 24 409C6 407 0 404 6 402Z`;
  return [
    solid(body, 'sheet'),
    ...within({ clip: body }, [sand(-m, 326, W + 2 * m, 170, 9, 10.5)]),
    line(lower.join(''), HAIR, 'ink', { o: 0.6 }),
    line(smooth(DUNE), FINE + 0.3),
    solid(cast, 'shade'),
  ];
}

const FRONT: readonly Point[] = [
  [-420, 470],
  [-200, 480],
  [-6, 466],
  [40, 456],
  [92, 451],
  [168, 455],
  [232, 466],
  [300, 480],
  [390, 486],
  [470, 478],
  [540, 464],
  [618, 444],
  [740, 440],
  [1040, 462],
];

function front(): Op[] {
  const body = `${smooth(FRONT)}L1040 ${H + 4}L-420 ${H + 4}Z`;
  const marks = [
    [122, 476, 34],
    [202, 483, 34],
    [318, 505, 34],
    [416, 511, 34],
    [526, 496, 36],
    [40, 500, 30],
  ] as const;
  const wave = (x: number, y: number, w: number): string =>
    curve([x, y], [x + w * 0.3, y - 3], [x + w * 0.6, y - 3], [x + w, y + 0.5]);
  const strokes = marks.map(([x, y, w]) => wave(x, y, w) + wave(x + 13, y + 8.5, w * 0.76)).join('');
  const grass = [
    [14, 466, 58, 1],
    [38, 460, 48, 2],
    [60, 458, 52, 3],
    [94, 454, 34, 4],
    [168, 456, 17, 5],
    [246, 470, 17, 6],
    [368, 487, 18, 7],
    [456, 481, 38, 8],
    [500, 475, 52, 9],
    [548, 466, 78, 10],
    [590, 456, 68, 11],
    [612, 452, 74, 12],
    [650, 448, 40, 13],
    [720, 444, 20, 14],
    [-40, 472, 44, 15],
    [-130, 482, 22, 16],
    [-250, 482, 60, 17],
    [810, 446, 56, 18],
  ] as const;
  const heads = [
    [20, 466, 76, 1, 2],
    [56, 460, 66, 2, 2],
    [94, 454, 44, 3, 2],
    [456, 480, 44, 4, 2],
    [504, 474, 74, 5, 1],
    [556, 466, 100, 6, 3],
  ] as const;
  return [
    ...heads.flatMap(([x, y, t, s, n]) => seedHeads(x, y, t, s, n)),
    ...grass.flatMap(([x, y, t, s]) => tuft(x, y + 3, t, s, t > 30 ? 17 : 11)),
    solid(body, 'cut'),
    line(strokes, HAIR + 0.3, 'onCut', { o: 0.75 }),
  ];
}

/** The picture in its frame. All of it is still; nothing in it radiates. */
export function pictureOps({ x, y, w, h = (w * H) / W, name }: PictureSpec): Op[] {
  const k = Math.max(h / H, w / (W + 800));
  const margin = (w / k - W) / 2;
  return [
    ...within({ matrix: place(x + margin * k, y - (H * k - h), k), clip: rect(-margin, H - h / k, w / k, h / k) }, [
      ...sky(margin),
      ...gull(223, 81, 38),
      ...gull(283, 50, 26),
      ...gull(550, 82, 22),
      ...sea(margin),
      ...dune(margin),
      ...vehicleOps(name),
      ...front(),
    ]),
    line(rect(x, y, w, h), EDGE, 'ink', { snap: true }),
  ];
}
