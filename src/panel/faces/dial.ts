import type { Face } from '../kit/face.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { poly, rrect, seg } from '../kit/path.ts';

/** A moving scale in a window, under a fixed pointer. x, y is the top left of the window. */
export interface DialSpec {
  x: number;
  y: number;
  /** 556 x 52 close up, 210 x 32 in the whole view. */
  w: number;
  h: number;
  /** Units (kHz) seen across the window. */
  span: number;
  /** Units between ticks; every fifth is longer, every tenth has a number. */
  step: number;
  /** Ends of the tape. */
  min: number;
  max: number;
  /** The pointer's place, 0 to 1 of the width; default 0.5. */
  pointer?: number;
  /** What is printed at a long tick; default its last three digits. */
  print?: (value: number) => string;
  size?: number;
}

const thousand = (v: number): string => String(Math.round(v) % 1000).padStart(3, '0');

const liveOps = (spec: DialSpec, value: number): Op[] => {
  const { x, y, w, h, step } = spec;
  const at = spec.pointer ?? 0.5;
  const k = w / spec.span;
  const place = (v: number): number => x + at * w + (v - value) * k;
  const size = spec.size ?? (h > 40 ? 18 : 14);
  const out: Op[] = [];
  let [short, half, full] = ['', '', ''];
  const first = Math.max(Math.ceil(spec.min / step), Math.ceil((value - at * spec.span) / step) - 10);
  const last = Math.min(Math.floor(spec.max / step), Math.floor((value + (1 - at) * spec.span) / step) + 10);
  for (let i = first; i <= last; i++) {
    const px = place(i * step);
    const d = (len: number): string => seg(px, y, px, y + len * h);
    if (i % 10 === 0) {
      full += d(0.42);
      out.push(
        words((spec.print ?? thousand)(i * step), px, y + h - 0.18 * h, { size, anchor: 'middle', bold: h > 40 }),
      );
    } else if (i % 5 === 0) half += d(0.32);
    else short += d(0.2);
  }
  const wind = Array.from({ length: h > 40 ? 8 : 5 }, (_, i) => {
    const dx = (i * i + i) * 0.55 + 2;
    return seg(x + dx, y, x + dx, y + h) + seg(x + w - dx, y, x + w - dx, y + h);
  });
  return within({ clip: rrect(x, y, w, h, 5) }, [
    ...(short ? [line(short, FINE, 'ink', { cap: 'butt', snap: true })] : []),
    ...(half ? [line(half, FINE, 'ink', { cap: 'butt', snap: true })] : []),
    ...(full ? [line(full, LINE + 0.3, 'ink', { cap: 'butt', snap: true })] : []),
    ...out,
    ...(h > 40 ? [line(wind.join(''), HAIR, 'ink', { cap: 'butt', o: 0.75 })] : []),
    ...hairline(spec),
  ]);
};

function hairline({ x, y, w, h, pointer = 0.5 }: DialSpec): Op[] {
  const px = x + pointer * w;
  return [line(seg(px, y, px, y + h), LINE + 0.4, 'ink', { cap: 'butt', snap: true })];
}

/** Value: what stands under the pointer, in the scale's unit. */
export const dial: Face<DialSpec, number> = {
  natural: { w: 556, h: 70 },
  staticOps: ({ x, y, w, h, pointer = 0.5 }) => {
    const px = x + pointer * w;
    const r = h > 40 ? 7 : 5.5;
    return [
      shape(rrect(x, y, w, h, 5), 'sheet', h > 40 ? EDGE : LINE + 0.2, 'ink', { snap: true }),
      line(seg(px, y + h, px, y + h + (h > 40 ? 8 : 5)), LINE + 0.4, 'ink', { cap: 'butt', snap: true }),
      solid(
        poly(
          [
            [px - r, y - r],
            [px + r, y - r],
            [px, y + 1],
          ],
          true,
        ),
        'ink',
      ),
    ];
  },
  liveOps,
  tileBox: ({ x, y, w, h }) => ({ left: x - 1, top: y - 1, right: x + w + 1, bottom: y + h + 1 }),
};
