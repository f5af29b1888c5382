/** Lines, waves and holes over the time of a window, drawn from plain numbers. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import type { Ink } from '../kit/palette.ts';
import { circle, type Point, poly, seg } from '../kit/path.ts';
import { along, height, untilNow, width } from './frame.ts';

type Window = Inside['window'];
export type Pieces = Extract<Inside, { link: 'keys' }>['contact'];
export type Units = Extract<Inside, { link: 'terminal unit' }>['units'];

const UNIT_US = 20_000;

/** Middle x of units 1 to 5. */
export function unitMiddles(area: Box, w: Window): number[] {
  if (!w.letter) return [];
  const { start_us } = w.letter;
  return [1, 2, 3, 4, 5].map((u) => along(area, (start_us + (u + 0.5) * UNIT_US - w.from_us) / (w.to_us - w.from_us)));
}

/** A two-state line: high is mark. With words in its units where there is room. */
export function pulses(
  area: Box,
  pieces: Pieces,
  w: Window,
  more: { named?: boolean; weight?: number; ink?: Ink } = {},
): Op[] {
  const [top, bottom] = [area.top + 4, area.bottom - 4];
  const points: Point[] = pieces.flatMap((p) => {
    const y = p.mark ? top : bottom;
    return [[along(area, p.from), y] as const, [along(area, p.to), y] as const];
  });
  const trace = (o: number): Op[] => [
    line(poly(points), more.weight ?? EDGE, more.ink ?? 'ink', { cap: 'butt', join: 'miter', snap: true, o }),
  ];
  const ops = untilNow(area, w, trace);
  if (more.named === false || !w.letter || width(area) < 500 || height(area) < 34) return ops;
  const mid = (top + bottom) / 2 + 5;
  const mark = (x: number) => pieces.find((p) => along(area, p.to) >= x)?.mark ?? true;
  return [
    ...ops,
    ...unitMiddles(area, w).map((x) => words(mark(x) ? 'mark' : 'space', x, mid, { anchor: 'middle', fill: 'ink2' })),
  ];
}

/** Samples -1..1 over the area. */
export function trace(
  area: Box,
  samples: readonly number[],
  w: Window | null,
  more: { weight?: number; axis?: boolean; ink?: Ink } = {},
): Op[] {
  if (samples.length < 2) return [];
  const mid = (area.top + area.bottom) / 2;
  const half = height(area) / 2;
  const n = samples.length - 1;
  const d = poly(samples.map((v, i) => [area.left + (width(area) * i) / n, mid - v * half] as const));
  const draw = (o: number): Op[] => [line(d, more.weight ?? 1.2, more.ink ?? 'ink', { o })];
  const axis = line(seg(area.left, mid, area.right, mid), FINE, 'ink2', { cap: 'butt', snap: true, o: 0.7 });
  return [...(more.axis === false ? [] : [axis]), ...(w ? untilNow(area, w, draw) : draw(1))];
}

const LINES_APART = 5;

/** Mark filter upward, space filter downward, hatched to the middle. */
export function twoTones(area: Box, mark: readonly number[], space: readonly number[], w: Window): Op[] {
  if (mark.length < 2) return [];
  const mid = (area.top + area.bottom) / 2;
  const half = height(area) / 2 - 2;
  const n = mark.length - 1;
  const at = (wave: readonly number[], x: number) => wave[Math.round(((x - area.left) / width(area)) * n)] ?? 0;
  let bars = '';
  for (let x = area.left + LINES_APART / 2; x < area.right; x += LINES_APART)
    bars +=
      seg(x, mid - half * Math.min(1.1, at(mark, x)), x, mid) +
      seg(x, mid, x, mid + half * Math.min(1.1, at(space, x)));
  const outline = (wave: readonly number[], sign: number) =>
    poly(wave.map((v, i) => [area.left + (width(area) * i) / n, mid - sign * half * Math.min(1.1, v)] as const));
  return untilNow(area, w, (o) => [
    line(bars, HAIR, 'ink', { cap: 'butt', o: 0.75 * o }),
    line(outline(mark, 1), LINE, 'ink', { o }),
    line(outline(space, -1), LINE, 'ink', { o }),
    line(seg(area.left, mid, area.right, mid), FINE, 'ink2', { cap: 'butt', snap: true, o }),
  ]);
}

/** A hole or the place of none. */
export function hole(x: number, y: number, r: number, isMark: boolean, isRead = true): Op {
  if (!isRead) return line(circle(x, y, r), FINE, 'ink2', { dash: [1.5, 3], o: 0.5 });
  return isMark ? solid(circle(x, y, r), 'ink') : line(circle(x, y, r), FINE + 0.2, 'ink', { dash: [2.6, 2.6] });
}

/** Mark less space, with the instants at which each unit is read. */
export function decision(area: Box, values: readonly number[], units: Units, w: Window): Op[] {
  if (values.length < 2) return [];
  const mid = (area.top + area.bottom) / 2;
  const half = height(area) / 2.3;
  const n = values.length - 1;
  const d = poly(
    values.map((v, i) => [area.left + (width(area) * i) / n, mid - half * Math.max(-1.15, Math.min(1.15, v))] as const),
  );
  const zero = line(seg(area.left, mid, area.right, mid), LINE, 'ink', { dash: [6, 4], cap: 'butt', snap: true });
  const dots = units
    .filter((u) => u.isRead)
    .flatMap((u): Op[] => {
      const [x, y] = [along(area, u.at), mid - half * u.value];
      return [
        line(seg(x, mid, x, y), FINE + 0.3, 'ink', { cap: 'butt', snap: true }),
        u.mark ? solid(circle(x, y, 7), 'ink') : shape(circle(x, y, 6.2), 'sheet', 1.8),
      ];
    });
  return [zero, ...untilNow(area, w, (o) => [line(d, 2, 'ink', { o })]), ...dots];
}

/** The five units as holes below their columns. */
export function holes(area: Box, units: Units, w: Window): Op[] {
  const y = (area.top + area.bottom) / 2;
  return unitMiddles(area, w).map((x, i) => hole(x, y, 6.5, units[i]?.mark ?? false, units[i]?.isRead ?? false));
}
