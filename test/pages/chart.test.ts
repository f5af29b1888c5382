import { describe, expect, it } from 'vitest';
import { placeFlags } from '../../src/pages/chart-flags.ts';
import { CHART, inRows, outOfTurn, scaleOf } from '../../src/pages/chart-scale.ts';
import { dayText, held, lengthText, utcText } from '../../src/pages/hours.ts';
import { sampleDebrief } from './sample-debrief.ts';

describe('chart', () => {
  it('keeps every moment on the paper', () => {
    const { x, last_us } = scaleOf(sampleDebrief);
    expect(x(0)).toBe(CHART.left);
    expect(x(last_us * 2)).toBe(CHART.right);
    expect(last_us).toBeGreaterThanOrEqual(sampleDebrief.end_us);
  });

  it('puts labels into rows so that they touch neither each other nor a stem', () => {
    const boxes = [400, 230, 200, 90, 78, 21, 0].map((at) => ({ at, from: at, to: at + 40 }));
    const rows = inRows(boxes, 4, 0);
    expect(rows).toEqual([0, 0, 1, 0, 1, 0, 1]);
    for (const [i, a] of boxes.entries())
      for (const [j, b] of boxes.entries()) {
        if (i === j) continue;
        if (rows[i] === rows[j]) expect(a.to <= b.from - 8 || b.to <= a.from - 8).toBe(true);
        if (rows[i]! > rows[j]!) expect(a.at <= b.from || a.at >= b.to).toBe(true);
      }
  });

  it('gives every flag a place of its own when all went wrong at one instant', () => {
    const [first] = sampleDebrief.findings;
    const findings = Array.from({ length: 9 }, () => first!);
    const { flags } = placeFlags({ ...sampleDebrief, findings }, scaleOf(sampleDebrief).x);
    expect(new Set(flags.map(({ row }) => row)).size).toBe(9);
  });

  it('flags faults before what was never tried, the first nine, and says how many more there are', () => {
    const [first] = sampleDebrief.findings;
    const findings = Array.from({ length: 16 }, (_, n) => ({ ...first!, exercised: n >= 4, at_us: n * 60e6 }));
    const d = { ...sampleDebrief, findings };
    const { flags, more } = placeFlags(d, scaleOf(d).x);
    expect(flags.map(({ n }) => n).sort((a, b) => a - b)).toEqual([4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(more).toBe(3);
    expect(placeFlags({ ...d, findings: findings.slice(0, 13) }, scaleOf(d).x).more).toBe(0);
  });

  it('lets no stem cross a flag', () => {
    const { x } = scaleOf(sampleDebrief);
    const [first] = sampleDebrief.findings;
    const findings = [2, 2.2, 3, 3.1, 5, 13.9, 14].map((m) => ({ ...first!, at_us: m * 60e6 }));
    const { flags } = placeFlags({ ...sampleDebrief, findings }, x);
    for (const a of flags)
      for (const b of flags)
        if (a.row > b.row)
          expect(b.left ? a.at >= b.at || a.at <= b.at - b.w : a.at <= b.at || a.at >= b.at + b.w).toBe(true);
  });

  it('knows what came out of turn', () => {
    const { moments } = sampleDebrief;
    const late = moments.flatMap((m, i) => (outOfTurn(moments, i) ? [m.label] : []));
    expect(late).toEqual(['guard, earth', 'listen']);
  });

  it('does not take what never happened for out of turn', () => {
    const span = { from_us: 5, to_us: 5 };
    const moments = [
      { label: 'a', expected: span, happened: null },
      { label: 'b', expected: span, happened: span },
    ];
    expect(outOfTurn(moments, 0)).toBe(false);
  });
});

describe('hours', () => {
  it('tells the time of day across midnight', () => {
    expect(utcText('23:59:30', 45e6)).toBe('00 00 15');
    expect(utcText('09:40:00', 754e6)).toBe('09 52 34');
  });

  it('says lengths as people do', () => {
    expect([30e3, 190e3, 7.2e6, 4 * 86.4e6].map(lengthText)).toEqual(['under a minute', '3 min', '2 h', '4 days']);
    expect(dayText('2031-10-06')).toBe('6 October 2031');
  });

  it('keeps times and quantities in one piece', () => {
    expect(held('before 10 20 UTC, under 6 W, NR 14 at 3 posts only')).toBe(
      'before 10\u00a020\u00a0UTC, under 6\u00a0W, NR\u00a014 at 3 posts only',
    );
  });
});
