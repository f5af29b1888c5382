/** The reach chart's names: whole inside its frame, and crossed neither by the hour, nor an allotted frequency, nor the curve of the MUF. */
import { describe, expect, it } from 'vitest';
import type { ReachChart } from '../../src/core/drill.ts';
import { textWidth } from '../../src/panel/kit/metrics.ts';
import type { Op, TextOp } from '../../src/panel/kit/ops.ts';
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
