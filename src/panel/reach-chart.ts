/** The reach chart: hours against frequencies on a tint: the deeper it is, the surer the print. */
import type { ReachChart } from '../core/drill.ts';
import type { PanelDrill } from './host.ts';
import type { Box } from './kit/bounds.ts';
import { textWidth } from './kit/metrics.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, within, words } from './kit/ops.ts';
import { type Point, poly, rect, rrect, seg } from './kit/path.ts';
import { areaFrom, type Cell, contour, type Plot } from './reach-field.ts';
import { alongside, Labels } from './reach-labels.ts';

type Frequencies = PanelDrill['scenario']['papers']['frequencies'];

/** What the chart shows. */
export interface ReachView {
  chart: ReachChart;
  /** Hour of the day now, 0..24. */
  hour: number;
  frequencies: Frequencies;
}

/** Shares of days that are told apart, and how much tint each adds to the one before. */
const SURE_FROM = [0.1, 0.5, 0.9];
const TINT = 0.12;
const LOW_MHZ = 1.8;
const HIGH_MHZ = 17;
const TICKS_MHZ = [2, 3, 4, 5, 6, 8, 10, 12, 16];

const hourOf = (clock: string): number => Number(clock.slice(0, 2)) + Number(clock.slice(3, 5)) / 60;

function plotOf(area: Box): Plot {
  const span = Math.log(HIGH_MHZ / LOW_MHZ);
  return {
    area,
    x: (hour) => area.left + ((area.right - area.left) * hour) / 24,
    y: (f) => area.bottom - ((area.bottom - area.top) * Math.log(f / LOW_MHZ)) / span,
  };
}

/** Where print gets through, so surely. */
function tints(plot: Plot, chart: ReachChart): Op[] {
  return SURE_FROM.flatMap((sure): Op[] => {
    const d = areaFrom(plot, chart, (cell) => cell.reliability, sure);
    return d === '' ? [] : [solid(d, 'sea', { o: TINT })];
  });
}

/** A step that gives a handful of contours. */
function stepFor(low: number, high: number): number {
  return [2, 5, 10, 20, 40].find((s) => (high - low) / s <= 5) ?? 40;
}

const FLOOR_DB = -40;
const SURE = 0.97;
const margin = (cell: Cell): number => Math.max(FLOOR_DB, cell.margin_dB ?? FLOOR_DB);

/** How far over or under its curve a name may stand. */
const BESIDE = 18;
/** How far the curve of the MUF stays from a name. */
const CLEAR = 7;
/** A curve with its name and where that may stand. */
type Curve = { ops: Op[]; name: string; spots: Point[] };

/** What is to spare, where nothing is in doubt: it still tells the frequencies apart. */
function contours(plot: Plot, chart: ReachChart): Curve[] {
  if (chart.cells.length < 24) return [];
  const all = chart.cells.flat();
  if (all.some((c) => c.reliability < SURE)) return [];
  const margins = all.map((c) => c.margin_dB ?? 0);
  const [low, high] = [Math.min(...margins), Math.max(...margins)];
  const step = stepFor(low, high);
  const curves: Curve[] = [];
  for (let level = Math.ceil(low / step) * step; level <= high; level += step) {
    const pieces = contour(plot, chart, margin, level);
    if (pieces.length === 0) continue;
    const d = pieces.map(([p, q]) => seg(p[0], p[1], q[0], q[1])).join('');
    // The name stands on its curve as far right as it can, or beside one that runs along something else.
    const on = pieces.map(([p]) => p).sort((p, q) => q[0] - p[0]);
    const spots = [0, -BESIDE, BESIDE].flatMap((by) => on.map(([px, py]): Point => [px, py + by]));
    curves.push({ ops: [line(d, FINE, 'ink2')], name: `${level} dB`, spots });
  }
  return curves;
}

const LABEL_HOUR = 15;
/** The highest frequency that the sky still bends back, hour by hour; none while it is not known all day. */
function mufPoints({ x, y, area }: Plot, chart: ReachChart): Point[] {
  const known = chart.MUF_MHz.flatMap((f, h): Point[] =>
    f === null ? [] : [[x(h), y(Math.max(LOW_MHZ, Math.min(HIGH_MHZ, f)))]],
  );
  return known.length < 24 ? [] : [...known, [area.right, known[0]![1]]];
}

function muf(points: readonly Point[]): Curve[] {
  if (points.length === 0) return [];
  const d = poly(points);
  const spots = [...points.keys()]
    .sort((a, b) => Math.abs(a - LABEL_HOUR) - Math.abs(b - LABEL_HOUR))
    .flatMap((h): Point[] => [-BESIDE, BESIDE].map((by) => [points[h]![0], points[h]![1] + by]));
  const ops = [line(d, 4.4, 'sheet', { o: 0.9 }), line(d, 1.8, 'ink', { dash: [9, 4, 2, 4], cap: 'butt' })];
  return [{ ops, name: 'MUF', spots }];
}

/** What no name of a curve may stand on: the hour, the allotted frequencies, the curve of the MUF. */
function kept({ x, y, area }: Plot, hour: number, rows: Frequencies, points: readonly Point[]): Box[] {
  const now = { ...area, left: x(hour) - 4, right: x(hour) + 4 };
  const lines = rows.map((r) => ({ ...area, top: y(r.kHz / 1000) - 6, bottom: y(r.kHz / 1000) + 6 }));
  return [now, ...lines, ...alongside(points, CLEAR)];
}

/** The frequencies of the chart on the desk: heavy in their hours, dotted outside. */
function allotted({ x, y, area }: Plot, rows: Frequencies, isNarrow: boolean): Op[] {
  return rows.flatMap((r): Op[] => {
    const at = y(r.kHz / 1000);
    if (at < area.top || at > area.bottom) return [];
    const [from, to] = [hourOf(r.from), hourOf(r.to)];
    const runs: [number, number][] =
      from < to
        ? [[from, to]]
        : [
            [0, to],
            [from, 24],
          ];
    const d = runs.map(([a, b]) => seg(x(a), at, x(b), at)).join('');
    return [
      line(seg(area.left, at, area.right, at), 5, 'sheet', { cap: 'butt', snap: true }),
      line(seg(area.left, at, area.right, at), FINE, 'ink', { dash: [2, 4], cap: 'butt', snap: true }),
      line(d, 10, 'sheet', { cap: 'butt', snap: true }),
      line(d, 4, 'ink', { cap: 'butt', snap: true }),
      line(seg(area.right, at, area.right + 8, at), 4, 'ink', { cap: 'butt', snap: true }),
      words(r.name, area.right + 14, at + 5, { bold: true }),
      ...(isNarrow ? [] : [words(String(r.kHz), area.right + 78, at + 5, { mono: true })]),
    ];
  });
}

function axes({ x, y, area }: Plot): Op[] {
  const ops: Op[] = [];
  for (let h = 0; h <= 24; h++)
    ops.push(
      line(seg(x(h), area.bottom, x(h), area.bottom + (h % 6 === 0 ? 8 : 4)), FINE, 'ink', { cap: 'butt', snap: true }),
    );
  const every = area.right - area.left > 480 ? 3 : 6;
  for (let h = 0; h <= 24; h += every)
    ops.push(words(String(h).padStart(2, '0'), x(h), area.bottom + 24, { anchor: 'middle', mono: true }));
  for (const f of TICKS_MHZ) {
    ops.push(
      line(seg(area.left - 6, y(f), area.left, y(f)), FINE, 'ink', { cap: 'butt', snap: true }),
      words(String(f), area.left - 11, y(f) + 5, { anchor: 'end', mono: true }),
    );
    ops.push(line(seg(area.left, y(f), area.right, y(f)), HAIR, 'ink', { cap: 'butt', snap: true, o: 0.3 }));
  }
  ops.push(
    words('MHz', area.left - 11, area.top - 10, { anchor: 'end', fill: 'ink2' }),
    words('UTC', area.right + 22, area.bottom + 24, { fill: 'ink2' }),
  );
  return ops;
}

function now({ x, area }: Plot, hour: number): Op[] {
  const px = x(hour);
  const at = Math.max(area.left + 22, Math.min(area.right - 22, px));
  return [
    line(seg(px, area.top - 4, px, area.bottom), 5.4, 'sheet', { cap: 'butt', snap: true }),
    line(seg(px, area.top - 4, px, area.bottom), 2.4, 'ink', { cap: 'butt', snap: true }),
    solid(rrect(at - 22, area.top - 24, 44, 20, 3), 'cut', { snap: true }),
    words('now', at, area.top - 9, { anchor: 'middle', bold: true, fill: 'onCut' }),
  ];
}

/** What the tint means. */
function legend(x0: number, y: number): Op[] {
  let x = x0;
  const ops: Op[] = [];
  for (const [n, share] of SURE_FROM.entries()) {
    const swatch = rect(x, y - 14, 34, 18);
    const text = `${n === 0 ? 'from ' : ''}${Math.round(100 * share)} %`;
    ops.push(solid(swatch, 'paper', { snap: true }));
    for (let k = 0; k <= n; k++) ops.push(solid(swatch, 'sea', { o: TINT, snap: true }));
    ops.push(line(swatch, FINE, 'ink', { snap: true }), words(text, x + 41, y, {}));
    x += 56 + textWidth(text, 14);
  }
  return ops;
}

/** The chart in an area, axes, names and all. */
export function reachChartOps(paper: Box, { chart, hour, frequencies }: ReachView): Op[] {
  const isNarrow = paper.right - paper.left < 500;
  const area: Box = {
    left: paper.left + 44,
    top: paper.top + 28,
    right: paper.right - (isNarrow ? 74 : 128),
    bottom: paper.bottom - (isNarrow ? 66 : 72),
  };
  const plot = plotOf(area);
  const points = mufPoints(plot, chart);
  const curves = [...muf(points), ...contours(plot, chart)];
  const labels = new Labels(area, kept(plot, hour, frequencies, points));
  const frame = rect(area.left, area.top, area.right - area.left, area.bottom - area.top);
  return [
    shape(frame, 'paper', LINE, 'ink', { snap: true }),
    ...axes(plot),
    ...within({ clip: frame }, [...tints(plot, chart), ...curves.flatMap((c) => c.ops)]),
    ...allotted(plot, frequencies, isNarrow),
    line(frame, EDGE, 'ink', { snap: true }),
    ...now(plot, hour),
    ...curves.flatMap((c) => labels.place(c.name, c.spots)),
    ...legend(area.left, paper.bottom - 14),
  ];
}

/** The best of the frequencies on the desk at an hour, in words; '' when there are none. */
export function bestOf({ chart, hour, frequencies }: ReachView): string {
  const row = chart.cells[Math.floor(hour) % 24];
  if (!row) return '';
  const near = (kHz: number) =>
    chart.f_MHz.reduce(
      (best, f, i) => (Math.abs(f - kHz / 1000) < Math.abs(chart.f_MHz[best]! - kHz / 1000) ? i : best),
      0,
    );
  return frequencies
    .map((r) => {
      const cell = row[near(r.kHz)]!;
      const by = cell.by === 'sky' ? ' by sky wave' : cell.by === 'ground' ? ' by ground wave' : '';
      return `${r.name} ${r.kHz}: ${Math.round(100 * cell.reliability)} %${by}`;
    })
    .join(', ');
}
