import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { circle, poly, rect, seg } from '../kit/path.ts';

/** A cut-out of two codes side by side: sent and printed, with a ring round each unit that went wrong. 78 x 98. */
export interface CodeCardSpec {
  x: number;
  y: number;
  /** What was sent and what was printed: letter and code (unit 1 = bit 0). */
  sent: { letter: string; code: number };
  printed: { letter: string; code: number };
}

const W = 78;
const H = 98;

function unit(x: number, y: number, hole: boolean): string {
  return circle(x, y, hole ? 4.6 : 1.2);
}

export function codeCard({ x, y, sent, printed }: CodeCardSpec): Op[] {
  const [a, b] = [x + 22, x + W - 22];
  const row = (i: number): number => y + 31 + i * 13.4;
  let dots = '';
  let rings = '';
  for (let i = 0; i < 5; i++) {
    dots += unit(a, row(i), ((sent.code >> i) & 1) === 1) + unit(b, row(i), ((printed.code >> i) & 1) === 1);
    if (((sent.code ^ printed.code) >> i) & 1) rings += circle(b, row(i), 8);
  }
  const [ax, ay] = [x + W / 2, y + 11.5];
  const head = poly([
    [ax + 2.5, ay - 3.5],
    [ax + 6, ay],
    [ax + 2.5, ay + 3.5],
  ]);
  return [
    solid(rect(x + 4, y + 5, W, H), 'shade'),
    shape(rect(x, y, W, H), 'sheet', LINE, 'ink', { snap: true }),
    words(sent.letter, a, y + 17, { bold: true, mono: true, size: 16, anchor: 'middle' }),
    words(printed.letter, b, y + 17, { bold: true, mono: true, size: 16, anchor: 'middle' }),
    line(seg(ax - 6, ay, ax + 6, ay) + head, FINE + 0.2),
    solid(dots, 'ink'),
    ...(rings ? [line(rings, FINE + 0.3)] : []),
  ];
}
