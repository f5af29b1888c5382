import { between } from '../kit/dice.ts';
import type { Face } from '../kit/face.ts';
import { FINE, HAIR, LINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { circle, poly, rect, rrect, seg } from '../kit/path.ts';
import { fieldOps } from '../props/field.ts';

/** The inked ribbon between two spools, with a window a link. x, y is the top left of the left spool. */
export interface RibbonSpec {
  x: number;
  y: number;
  /** Spool to spool; 1232. */
  w: number;
  /** Names of the links, left to right. */
  names: readonly string[];
}

/** What a window shows. Arrays are drawn over its whole width, a decision that is still on its way over its part of `of`; samples lie in -1..1. */
export type Wave =
  | { kind: 'idle' }
  | { kind: 'trace'; samples: readonly number[]; over?: 'sea' | 'ink' }
  | { kind: 'bars'; heights: readonly number[]; hot?: boolean }
  | { kind: 'holes'; codes: readonly number[]; now: number }
  | { kind: 'field'; phase: number }
  | { kind: 'decision'; samples: readonly number[]; of: number; marks: readonly number[] }
  | { kind: 'letter'; text: string };

export interface RibbonValue {
  /** Names at the spools: who sends, who prints. */
  from: string;
  to: string;
  /** Windows where the signal is, one a link; the ink runs from the first to the last of them. */
  lit: readonly boolean[];
  waves: readonly Wave[];
  /** Turn of the spools, degrees. */
  turn?: number;
}

const TOP = 9;
const TALL = 32;
const WIN_W = 78;
const WIN_H = 25;
const SPOOL = 36;

/** Left edge and width of a window; the strip's own edges. */
export function windowBox(spec: RibbonSpec, i: number): { x: number; y: number; w: number; h: number; cx: number } {
  const n = spec.names.length;
  const [a, b] = [spec.x + SPOOL + 18, spec.x + spec.w - SPOOL - 18];
  const pitch = (b - a) / n;
  const cx = a + pitch * (i + 0.5) - (n > 9 ? 16 : 0) + ((i * 32) / Math.max(1, n - 1)) * (n > 9 ? 1 : 0);
  const w = Math.min(WIN_W, pitch - 14);
  return { x: cx - w / 2, y: spec.y + TOP + (TALL - WIN_H) / 2, w, h: WIN_H, cx };
}

type Win = ReturnType<typeof windowBox>;

function trace({ x, y, w, h }: Win, samples: readonly number[], pad = 5, of = samples.length): [number, number][] {
  const n = Math.max(1, of - 1);
  return samples.map((v, i) => [
    x + pad + ((w - 2 * pad) * i) / n,
    y + h / 2 - Math.max(-1, Math.min(1, v)) * (h / 2 - 5),
  ]);
}

function holes(win: Win, codes: readonly number[], now: number): Op[] {
  const n = Math.max(1, codes.length);
  const pitch = (win.w - 16) / n;
  const r = 1.9;
  const col = (i: number): number => win.x + 8 + (i + 0.5) * pitch;
  const dots = (i: number): string =>
    [0, 1, 2, 3, 4]
      .map((u) =>
        (codes[i]! >> u) & 1 ? circle(col(i), win.y + 4 + ((u > 1 ? u + 0.7 : u) * (win.h - 8)) / 4.7, r) : '',
      )
      .join('') + circle(col(i), win.y + 4 + (1.85 * (win.h - 8)) / 4.7, 0.9);
  const rest = codes.map((_, i) => (i === now ? '' : dots(i))).join('');
  return [
    ...(rest ? [solid(rest, 'ink')] : []),
    ...(now >= 0 && now < n
      ? [
          solid(dots(now), 'sea'),
          line(
            seg(col(now) - pitch / 2, win.y, col(now) - pitch / 2, win.y + win.h) +
              seg(col(now) + pitch / 2, win.y, col(now) + pitch / 2, win.y + win.h),
            FINE,
            'sea',
            { snap: true },
          ),
        ]
      : []),
  ];
}

function drawWave(win: Win, wave: Wave): Op[] {
  const { x, y, w, h, cx } = win;
  const mid = y + h / 2;
  switch (wave.kind) {
    case 'idle':
      return [
        line(seg(x + 9, mid, x + w - 8, mid), 1.3, 'ink2', { dash: [1.3, 4.2], cap: 'butt', snap: true, o: 0.8 }),
      ];
    case 'trace':
      return wave.samples.length > 1 ? [line(poly(trace(win, wave.samples)), FINE)] : [];
    case 'bars': {
      const n = wave.heights.length;
      const d = wave.heights
        .map((v, i) =>
          seg(
            x + ((i + 0.75) * w) / (n + 0.5),
            mid - 1 - v * (h / 2 - 3),
            x + ((i + 0.75) * w) / (n + 0.5),
            mid + 1 + v * (h / 2 - 3),
          ),
        )
        .join('');
      return d ? [line(d, FINE + 0.2, wave.hot === false ? 'ink' : 'persimmon', { cap: 'butt', snap: true })] : [];
    }
    case 'holes':
      return holes(win, wave.codes, wave.now);
    case 'field':
      return [
        ...fieldOps({ x: cx, y: y + h - 3, wavelength: 0.44 * w, reach: 0.7 * w, phase: wave.phase }, 0.68),
        line(seg(cx, y + h - 3, cx, y + 5), LINE, 'persimmon', { snap: true }),
        line(seg(x, y + h - 3, x + w, y + h - 3), FINE, 'ink', { snap: true }),
      ];
    case 'decision': {
      const p = trace(win, wave.samples, 7, wave.of);
      const dots = wave.marks.flatMap((i) => (p[i] ? [circle(p[i][0], p[i][1], 1.9)] : [])).join('');
      return [...(p.length > 1 ? [line(poly(p), FINE)] : []), ...(dots ? [solid(dots, 'ink')] : [])];
    }
    case 'letter':
      return [words(wave.text, cx, mid + 5.4, { mono: true, bold: true, anchor: 'middle' })];
  }
}

function spool(x: number, y: number, lit: boolean, turned: number): Op[] {
  const w = SPOOL;
  const core = rect(x + 3, y + 7, w - 6, 36);
  let turns = '';
  for (let i = 0; i < 8; i++)
    turns += seg(x + 6 + ((i * 3.6 + turned / 12) % 28), y + 8, x + 6 + ((i * 3.6 + turned / 12) % 28), y + 42);
  return [
    solid(rect(x + w - 3, y + 8, 6, 38), 'shade'),
    shape(core, lit ? 'sea' : 'sheet', FINE, 'ink', { snap: true }),
    line(turns, HAIR + 0.2, lit ? 'sheet' : 'ink', { cap: 'butt', snap: true, o: lit ? 0.75 : 0.9 }),
    solid(
      rrect(x - 1, y + 3, w + 2, 6, 2.5) +
        rrect(x - 1, y + 42, w + 2, 6, 2.5) +
        rrect(x + w / 2 - 4, y - 1, 8, 5, 2) +
        rrect(x + w / 2 - 4, y + 47, 8, 5, 2),
      'cut',
      { snap: true },
    ),
  ];
}

/** Where the ink begins and ends: from the spool or just before the first lit window, to half way past the last or the other spool. */
function inked(spec: RibbonSpec, first: number, last: number): [number, number] {
  const n = spec.names.length;
  const between = (i: number, share: number): number => {
    const [a, b] = [windowBox(spec, i), windowBox(spec, i + 1)];
    return a.x + a.w + share * (b.x - a.x - a.w);
  };
  return [
    first === 0 ? spec.x + SPOOL - 3 : between(first - 1, 0.64),
    last === n - 1 ? spec.x + spec.w - SPOOL + 3 : between(last, 0.36),
  ];
}

/** Dry strokes and a pennant where the signal ends. */
function dryEnd(spec: RibbonSpec, x: number): Op[] {
  const top = spec.y + TOP;
  let d = '';
  for (let i = 0; i < 7; i++) {
    const y = top + 3 + (i * (TALL - 6)) / 6;
    d += seg(x, y, x + between(6, 20, i, 11), y);
  }
  return [
    line(d, 1.3, 'sea', { cap: 'butt' }),
    line(seg(x, top - 5, x, top + TALL + 9), 2, 'sea', { cap: 'butt', snap: true }),
    solid(
      poly(
        [
          [x, top + TALL + 2],
          [x + 13, top + TALL + 5.5],
          [x, top + TALL + 9],
        ],
        true,
      ),
      'sea',
    ),
  ];
}

const liveOps = (spec: RibbonSpec, value: RibbonValue): Op[] => {
  const { x, y, w, names } = spec;
  const n = names.length;
  const [left, right] = [x + SPOOL - 3, x + w - SPOOL + 3];
  const [first, last] = [value.lit.indexOf(true), value.lit.lastIndexOf(true)];
  const [begin, end] = first < 0 ? [left, left] : inked(spec, first, last);
  const windows = names.flatMap((name, i) => {
    const win = windowBox(spec, i);
    const on = value.lit[i] ?? false;
    const frame = rrect(win.x, win.y, win.w, win.h, 5);
    return [
      solid(frame, 'sheet', { snap: true }),
      ...within({ clip: frame }, drawWave(win, on ? (value.waves[i] ?? { kind: 'idle' }) : { kind: 'idle' })),
      line(frame, on ? LINE : FINE, 'ink', { snap: true }),
      words(name, win.cx, y + 71, { anchor: 'middle', bold: on, fill: on ? 'ink' : 'ink2' }),
    ];
  });
  return [
    shape(rect(left, y + TOP, right - left, TALL), 'sheet', FINE, 'ink', { snap: true }),
    ...(first < 0 ? [] : [shape(rect(begin, y + TOP, end - begin, TALL), 'sea', FINE, 'ink', { snap: true })]),
    ...(first < 0 || last === n - 1 ? [] : dryEnd(spec, end)),
    ...windows,
    ...spool(x, y, first === 0, value.turn ?? 0),
    ...spool(x + w - SPOOL, y, last === n - 1, -(value.turn ?? 0)),
    words(value.from, x + SPOOL / 2, y + 71, { anchor: 'middle', bold: first >= 0, fill: first < 0 ? 'ink2' : 'ink' }),
    words(value.to, x + w - SPOOL / 2, y + 71, {
      anchor: 'middle',
      bold: last === n - 1,
      fill: last === n - 1 ? 'ink' : 'ink2',
    }),
  ];
};

/** Value: how far the signal gets, and the wave at each link. */
export const ribbon: Face<RibbonSpec, RibbonValue> = {
  natural: { w: 1232, h: 78 },
  staticOps: () => [],
  liveOps,
  tileBox: ({ x, y, w }) => ({ left: x - 24, top: y - 2, right: x + w + 24, bottom: y + 78 }),
};
