import { feedAt, holesAt, tapeOutline, tapeWidth } from '../faces/tape.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, circle, corners, curve, num, poly, rect, rrect, seg, smooth } from '../kit/path.ts';

/** Things that stand under the bench or lie on it. Each stands on `floor` with its left side at x. Scenery: nothing here is a control. */

/** A 12 V battery, 44 wide. */
export function battery(x: number, floor: number, strap = true): Op[] {
  const y = floor - 36;
  const caps = [7, 19, 31].map((dx) => rect(x + dx, y - 5, 7, 5)).join('');
  return [
    ...(strap ? [line(curve([x + 10, y - 6], [x + 14, y - 13], [x + 36, y - 13], [x + 40, y - 6]), EDGE + 0.2)] : []),
    shape(rrect(x, y, 44, 36, 2), 'sheet', LINE, 'ink', { snap: true }),
    solid(caps, 'ink', { snap: true }),
    line(seg(x + 6, y + 12, x + 38, y + 12), FINE, 'ink', { snap: true }),
    words('12', x + 22, y + 29, { bold: true, anchor: 'middle' }),
  ];
}

/** An inverter's ribbed drum on its feet, 42 wide; the running one hums. */
export function inverterDrum(x: number, floor: number, running: boolean): Op[] {
  const y = floor - 39;
  const ribs = [13, 17, 21, 25, 29].map((dx) => seg(x + dx, y + 2, x + dx, y + 33)).join('');
  const hum = [-4, 46].map((dx, i) => arc(x + dx + (i ? -14 : 14), y + 17, 16, i ? 62 : -118, i ? 118 : -62)).join('');
  return [
    solid(rect(x + 2, floor - 5, 38, 5), 'cut', { snap: true }),
    shape(rrect(x, y, 42, 34, 11), 'sheet', LINE, 'ink', { snap: true }),
    line(ribs, HAIR + 0.2, 'ink', { snap: true }),
    shape(circle(x + 7, y + 17, 2.8), running ? 'ink' : 'sheet', FINE),
    ...(running ? [line(hum, FINE)] : []),
  ];
}

/** A pair of boots, 48 wide. */
export function boots(x: number, floor: number): Op[] {
  const n = num;
  const one = (bx: number): string =>
    `M${n(bx)} ${n(floor - 1)}L${n(bx)} ${n(floor - 26)}C${n(bx)} ${n(floor - 29)} ${n(bx + 2)} ${n(floor - 30)} ${n(bx + 8)} ${n(floor - 30)}C${n(bx + 14)} ${n(floor - 30)} ${n(bx + 15.5)} ${n(floor - 29)} ${n(bx + 15.5)} ${n(floor - 26)}L${n(bx + 16)} ${n(floor - 12)}C${n(bx + 22)} ${n(floor - 9)} ${n(bx + 31)} ${n(floor - 8)} ${n(bx + 31)} ${n(floor - 1)}Z`;
  return [shape(one(x), 'sheet', LINE), shape(one(x + 18), 'sheet', LINE)];
}

/** A headset hanging from the bench above, 42 wide; x is its middle. */
export function headset(x: number, top: number): Op[] {
  return [
    line(seg(x, top, x, top + 6), EDGE, 'ink', { cap: 'butt' }),
    line(curve([x - 15, top + 30], [x - 22, top - 2], [x + 22, top - 2], [x + 15, top + 30]), EDGE + 0.6),
    solid(rrect(x - 21, top + 26, 11, 18, 5) + rrect(x + 10, top + 26, 11, 18, 5), 'ink'),
  ];
}

/** A folding stool, 58 wide; x is its middle. */
export const stool = (x: number, floor: number): Op[] => [
  line(
    poly([
      [x - 20, floor - 1],
      [x, floor - 18],
      [x + 20, floor - 1],
    ]),
    EDGE + 0.8,
  ),
  line(seg(x, floor - 36, x, floor - 18), EDGE + 0.8, 'ink', { cap: 'butt' }),
  shape(rrect(x - 28, floor - 45, 56, 8, 4), 'sheet', LINE + 0.2, 'ink', { snap: true }),
];

/** A reel of wire standing on its rim, 36 across; x is its middle. */
export const reel = (x: number, floor: number): Op[] => [
  shape(circle(x, floor - 19, 18), 'sheet', LINE),
  line(circle(x, floor - 19, 14) + circle(x, floor - 19, 9.5), FINE),
  solid(circle(x, floor - 19, 4), 'ink'),
];

/** A fire extinguisher, 14 wide. */
export function extinguisher(x: number, floor: number): Op[] {
  return [
    line(curve([x + 8, floor - 45], [x + 20, floor - 44], [x + 21, floor - 38], [x + 19.5, floor - 26]), EDGE),
    line(seg(x + 7, floor - 46, x + 7, floor - 38), EDGE, 'ink', { cap: 'butt' }),
    shape(corners(x, floor - 39, 14, 39, [7, 7, 1, 1]), 'sheet', LINE, 'ink', { snap: true }),
    solid(rect(x + 3, floor - 25, 8, 13), 'ink', { snap: true }),
  ];
}

/** A box of printer paper, 62 wide. */
export const paperBox = (x: number, floor: number, word = 'paper'): Op[] => [
  shape(rrect(x + 6, floor - 42, 50, 8, 2), 'sheet', LINE, 'ink', { snap: true }),
  shape(rrect(x, floor - 35, 62, 35, 2), 'sheet', LINE, 'ink', { snap: true }),
  words(word, x + 31, floor - 12, { anchor: 'middle' }),
];

/** A tool case, 60 wide. */
export const toolCase = (x: number, floor: number): Op[] => [
  shape(rrect(x, floor - 32, 60, 32, 3), 'sheet', LINE, 'ink', { snap: true }),
  line(seg(x, floor - 22, x + 60, floor - 22), FINE, 'ink', { snap: true }),
  shape(rrect(x + 24, floor - 26, 12, 8, 2), 'sheet', FINE + 0.2, 'ink', { snap: true }),
];

/** A basket with curls of tape, 80 wide. */
export function basket(x: number, floor: number): Op[] {
  const top = floor - 38;
  const curl = (cx: number, r: number): string =>
    smooth(
      Array.from({ length: 11 }, (_, i) => {
        const a = 2.6 + i * 0.72;
        const k = r * (1 - i * 0.07);
        return [cx + k * Math.cos(a), top - r * 0.5 + k * Math.sin(a) * 0.95] as const;
      }),
    );
  const curls = curl(x + 18, 10) + curl(x + 43, 10) + curl(x + 64, 7);
  const stave = [0.16, 0.33, 0.5, 0.67, 0.84].map((t) => seg(x + t * 80, top, x + 9 + t * 62, floor)).join('');
  return [
    line(curls, 4.2, 'ink'),
    line(curls, 2.2, 'sheet'),
    shape(
      poly(
        [
          [x, top],
          [x + 80, top],
          [x + 71, floor],
          [x + 9, floor],
        ],
        true,
      ),
      'sheet',
      LINE,
    ),
    line(stave, FINE),
  ];
}

/** A mug seen from above; x, y is its middle. */
export const mug = (x: number, y: number): Op[] => [
  solid(circle(x + 4, y + 5, 26), 'shade'),
  line(curve([x + 23, y - 12], [x + 42, y - 18], [x + 48, y + 10], [x + 24, y + 9]), 8.5, 'ink'),
  line(curve([x + 23, y - 12], [x + 42, y - 18], [x + 48, y + 10], [x + 24, y + 9]), 4.8, 'sheet'),
  shape(circle(x, y, 26), 'sheet', EDGE),
  shape(circle(x, y, 20), 'g2', FINE + 0.2),
  line(arc(x, y, 15, -62, -25), LINE, 'sheet'),
];

/** A pencil lying with its point to the upper right; x, y is its blunt end. */
export function pencil(x: number, y: number, long = 84, deg = -38): Op[] {
  return within({ matrix: turn(deg, x, y) }, [
    solid(rect(x + 3, y + 3, long, 6), 'shade'),
    shape(rect(x, y - 4.5, long - 15, 9), 'sheet', LINE),
    line(seg(x + 10, y - 1, x + long - 15, y - 1), HAIR),
    shape(
      poly(
        [
          [x + long - 15, y - 4.5],
          [x + long, y],
          [x + long - 15, y + 4.5],
        ],
        true,
      ),
      'sheet',
      LINE,
    ),
    solid(
      poly(
        [
          [x + long - 5, y - 1.5],
          [x + long, y],
          [x + long - 5, y + 1.5],
        ],
        true,
      ),
      'ink',
    ),
    solid(rrect(x - 1, y - 5, 9, 10, 1.5), 'cut'),
  ]);
}

/** Racked tapes hang from pins under a bar; each piece is its codes. */
export function tapeRack(
  x: number,
  y: number,
  w: number,
  tapes: readonly (readonly number[])[],
  pitch = 2.75,
  most = 24,
): Op[] {
  const step = w / Math.max(4, tapes.length);
  const hang = tapes.flatMap((codes, i): Op[] => {
    const cx = x + (i + 0.5) * step;
    const half = tapeWidth(pitch) / 2;
    const n = Math.min(most, codes.length);
    const long = (n + 13) * pitch + 9;
    const ends = tapeOutline(0, long, -half, pitch, 'on', 'on');
    const outline = poly([ends[1]!, [long, -half], [long + 2 * pitch, 0], [long, half], ends[0]!], true);
    let holes = '';
    for (let j = 0; j < n + 9; j++) holes += feedAt((j + 2) * pitch, -half, pitch);
    for (let j = 0; j < n; j++) holes += holesAt(codes[j]!, (j + 6) * pitch, -half, pitch);
    return [
      ...within({ matrix: [0, 1, -1, 0, cx - 4, y + 11] }, [solid(outline, 'shade')]),
      ...within({ matrix: [0, 1, -1, 0, cx, y + 6] }, [
        shape(outline, 'sheet', FINE + 0.2),
        ...(holes ? [solid(holes, 'ink')] : []),
      ]),
    ];
  });
  const pins = Array.from({ length: Math.max(4, tapes.length) }, (_, i) =>
    circle(x + (i + 0.5) * step, y + 2.8, 3.4),
  ).join('');
  return [...hang, shape(rrect(x, y, w, 5.6, 2.5), 'sheet', FINE + 0.2, 'ink', { snap: true }), solid(pins, 'ink')];
}
