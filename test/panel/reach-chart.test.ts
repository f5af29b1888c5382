/** The reach chart's names: whole inside its frame, and crossed neither by the hour, nor an allotted frequency, nor the curve of the MUF. */
import { describe, expect, it } from 'vitest';
import type { ReachChart } from '../../src/core/drill.ts';
import { textWidth } from '../../src/panel/kit/metrics.ts';
import type { Op, PathOp, TextOp } from '../../src/panel/kit/ops.ts';
import { contrast, PALETTES } from '../../src/panel/kit/palette.ts';
import { reachChartOps } from '../../src/panel/reach-chart.ts';

const FREQUENCIES = [2846, 4718, 6137].map((kHz) => ({ name: 'day', kHz, from: '06:00', to: '18:00', use: '' }));
const PAPER = { left: 0, top: 0, right: 1140, bottom: 424 };
/** Where the frame stands on such a paper. */
const AREA = { left: 44, top: 28, right: 1012, bottom: 352 };
const f_MHz = Array.from({ length: 30 }, (_, i) => 1.8 * (17 / 1.8) ** (i / 29));
const x = (hour: number) => AREA.left + ((AREA.right - AREA.left) * hour) / 24;
const y = (MHz: number) => AREA.bottom - ((AREA.bottom - AREA.top) * Math.log(MHz / 1.8)) / Math.log(17 / 1.8);

/** Nothing in doubt; the margin falls from `most` at the lowest frequency by 10 dB, the MUF swings about `middle` MHz. */
const chartOf = (most: number, middle: number): ReachChart => ({
  f_MHz,
  radiated_W: f_MHz.map(() => 1),
  MUF_MHz: Array.from({ length: 24 }, (_, h) => middle * (1 - 0.5 * Math.cos((h / 12) * Math.PI))),
  cells: Array.from({ length: 24 }, () =>
    f_MHz.map((_, i) => ({ reliability: 1, margin_dB: most - (10 * i) / 29, by: 'ground' as const })),
  ),
});

const isName = (op: Op): op is TextOp => 'text' in op && /dB$|^MUF$/.test(op.text);

describe('names in the reach chart', () => {
  const cases = [0.2, 6, 14.9, 15.1, 23.4].flatMap((hour) =>
    [44.01, 46.5, 50].flatMap((most) => [3, 6, 14].map((middle) => ({ hour, most, middle }))),
  );
  it.each(cases)('are whole and free at $hour h, $most dB, MUF about $middle MHz', ({ hour, most, middle }) => {
    const chart = chartOf(most, middle);
    const ops = reachChartOps(PAPER, { chart, hour, frequencies: FREQUENCIES });
    const names = ops.filter(isName);
    expect(names.length).toBeGreaterThan(3);
    for (const { text, x: cx, y: base, size } of names) {
      const half = textWidth(text, size) / 2;
      const [left, right, top, bottom] = [cx - half, cx + half, base - 12, base + 1];
      expect(left >= AREA.left && right <= AREA.right && top >= AREA.top && bottom <= AREA.bottom, text).toBe(true);
      expect(left < x(hour) && x(hour) < right, `${text} on now`).toBe(false);
      for (const { kHz } of FREQUENCIES)
        expect(top < y(kHz / 1000) && y(kHz / 1000) < bottom, `${text} on ${kHz}`).toBe(false);
      for (let t = 0; t < 23; t += 0.05) {
        const [a, b] = [chart.MUF_MHz[Math.floor(t)]!, chart.MUF_MHz[Math.floor(t) + 1]!].map((f) =>
          y(Math.min(17, f)),
        );
        const at = a! + (b! - a!) * (t % 1);
        const isOn = left < x(t) && x(t) < right && top < at && at < bottom;
        expect(isOn, `${text} on the MUF at ${t}`).toBe(false);
      }
    }
  });
});

/** Channels of `#RRGGBB`, and back. */
const channels = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
const hexOf = (all: readonly number[]): string =>
  `#${all.map((v) => Math.round(v).toString(16).padStart(2, '0')).join('')}`;
/** One colour laid over another, so opaque (W3C Compositing, source over). */
const over = (top: string, ground: string, o: number): string =>
  hexOf(channels(top).map((v, i) => o * v + (1 - o) * channels(ground)[i]!));

/** Fills that lie inside the frame: what the tint is made of. */
function fills(ops: readonly Op[]): PathOp[] {
  const from = ops.findIndex((op) => 'push' in op);
  const inside = ops.slice(
    from + 1,
    ops.findIndex((op) => 'pop' in op),
  );
  return inside.filter((op): op is PathOp => 'd' in op && op.fill !== undefined);
}

describe('the tint of the reach chart', () => {
  const view = (chart: ReachChart) => ({ chart, hour: 9, frequencies: FREQUENCIES });
  it('leaves what is drawn on it far clearer than itself, where all is sure', () => {
    for (const { name, hex } of PALETTES) {
      const deepest = fills(reachChartOps(PAPER, view(chartOf(50, 6)))).reduce(
        (ground, { fill, o = 1 }) => over(hex[fill as 'sea'], ground, o),
        hex.paper,
      );
      // WCAG 2.2, 1.4.3 asks 4.5 of text, 1.4.11 asks 3 of a line.
      expect(contrast(hex.ink, deepest), name).toBeGreaterThan(4.5);
      expect(contrast(hex.ink, deepest), name).toBeGreaterThan(2 * contrast(hex.paper, deepest));
    }
  });
  it('grows step by step with how sure the print is, and ends where nothing gets through', () => {
    const chart = chartOf(50, 6);
    const sure = (reliability: number) => ({
      ...chart,
      cells: chart.cells.map((row) => row.map((cell) => ({ ...cell, reliability }))),
    });
    const steps = [0, 0.05, 0.1, 0.49, 0.5, 0.89, 0.9, 1].map((r) => fills(reachChartOps(PAPER, view(sure(r)))).length);
    expect(steps).toEqual([0, 0, 1, 1, 2, 2, 3, 3]);
  });
  it('ends half way between an hour that is sure and one that is not', () => {
    const chart = chartOf(50, 6);
    const half = {
      ...chart,
      cells: chart.cells.map((row, h) => row.map((cell) => ({ ...cell, reliability: h < 12 ? 1 : 0 }))),
    };
    const xs = fills(reachChartOps(PAPER, view(half)))[1]!
      .d.match(/[\d.]+(?= )/g)!
      .map(Number);
    // From 1 to 0 between 11 and 12 h the half is at 11.5; hour 24 is hour 0 again, so from 23.5 on.
    const isTinted = (at: number) => xs.some((v) => Math.abs(v - x(at)) < 0.1);
    expect([11, 11.5, 23.5, 24].map(isTinted)).toEqual([true, true, true, true]);
    expect([12, 13, 23].map(isTinted)).toEqual([false, false, false]);
  });
});
