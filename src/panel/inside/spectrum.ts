/** Power by frequency as ruled ink. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { textWidth, wrap } from '../kit/metrics.ts';
import { FINE, HAIR, LINE, line, type Op, solid, words } from '../kit/ops.ts';
import { type Point, poly, rect, rrect, seg } from '../kit/path.ts';
import { height, width } from './frame.ts';

export type Spectrum = NonNullable<Extract<Inside, { link: 'sender' }>['spectrum']>;

/** What a spectrum shows besides itself. */
export interface SpectrumMore {
  /** Flags over the curve, Hz from the middle. */
  flags?: readonly { at: number; name: string }[];
  /** Half width of what passes; outside is hatched. */
  passes?: number;
  before?: Spectrum | null;
  ticks?: readonly number[];
  least_dB?: number;
  note?: string;
  /** Said where there is no curve. */
  none?: string;
}

/** Ticks that suit a span. */
function ticksFor(half: number): number[] {
  const step = half > 2000 ? 1500 : half > 800 ? 500 : 200;
  return [-2, -1, 0, 1, 2].map((k) => k * step).filter((v) => Math.abs(v) <= half * 0.96);
}

const signed = (v: number): string => (v > 0 ? `+${v}` : String(v).replace('-', '−'));

/** Where hertz and decibels lie in a plot. */
function scales(box: Box, s: Spectrum, least: number) {
  const span = s.to_Hz - s.from_Hz;
  const at = (of: Spectrum, f: number) =>
    of.dB[Math.round(((f - of.from_Hz) / (of.to_Hz - of.from_Hz)) * (of.dB.length - 1))] ?? least;
  const hz = (px: number) => s.from_Hz + ((px - box.left) / width(box)) * span;
  const y = (dB: number) => box.bottom - Math.max(0, Math.min(1, (dB - least) / -least)) * height(box) * 0.94;
  // Several bins fall on one pixel: the strongest counts.
  const step = 3;
  const cols: Point[] = [];
  for (let px = box.left; px <= box.right; px += step)
    cols.push([px, y(Math.max(least, ...[0, 1, 2].map((q) => at(s, hz(px + q)))))]);
  return { box, s, at, hz, y, cols, x: (f: number) => box.left + ((f - s.from_Hz) / span) * width(box) };
}
type Scales = ReturnType<typeof scales>;

/** What lies outside the passband, hatched. */
function keptOut({ box, s, x }: Scales, passes: number): Op[] {
  if (passes >= s.to_Hz) return [];
  const side = (from: number, to: number, edge: number): Op[] => [
    solid(rect(x(from), box.top, x(to) - x(from), height(box)), 'hatch', { o: 0.6 }),
    line(seg(x(edge), box.top, x(edge), box.bottom), FINE, 'ink2', { dash: [3, 3], cap: 'butt', snap: true }),
  ];
  return [...side(s.from_Hz, -passes, -passes), ...side(passes, s.to_Hz, passes)];
}

/** The curve, ruled down to the axis, and dotted what it was before a filter. */
function curve({ box, at, hz, y, cols }: Scales, before: Spectrum | null | undefined): Op[] {
  const bars = cols.map(([px, py]) => seg(px, box.bottom, px, py)).join('');
  const was = before && cols.filter((_, i) => i % 2 === 0).map(([px]): Point => [px, y(at(before, hz(px)))]);
  return [
    line(bars, HAIR + 0.2, 'ink', { cap: 'butt' }),
    line(poly(cols), LINE),
    ...(was ? [line(poly(was), FINE, 'ink2', { dash: [2, 2.5] })] : []),
  ];
}

function ticked({ box, x }: Scales, ticks: readonly number[]): Op[] {
  return ticks.flatMap((f) => [
    line(seg(x(f), box.bottom, x(f), box.bottom + 5), FINE, 'ink', { cap: 'butt', snap: true }),
    words(signed(f), x(f), box.bottom + 20, { anchor: 'middle' }),
  ]);
}

function flagged({ s, x, y, at }: Scales, area: Box, flags: NonNullable<SpectrumMore['flags']>): Op[] {
  return flags
    .filter((flag) => flag.at >= s.from_Hz && flag.at <= s.to_Hz)
    .flatMap((flag) => {
      const wide = textWidth(flag.name, 14, false) + 14;
      const fx = Math.max(area.left + wide / 2, Math.min(area.right - wide / 2, x(flag.at)));
      return [
        solid(rrect(fx - wide / 2, area.top - 4, wide, 20, 3), 'cut', { snap: true }),
        words(flag.name, fx, area.top + 11, { anchor: 'middle', bold: true, fill: 'onCut' }),
        line(seg(x(flag.at), area.top + 16, x(flag.at), y(at(s, flag.at)) - 3), FINE, 'ink2', {
          dash: [1.5, 3],
          cap: 'butt',
          snap: true,
        }),
      ];
    });
}

/** Power by frequency as ruled ink. */
export function spectrum(area: Box, s: Spectrum | null, more: SpectrumMore = {}): Op[] {
  const notes = more.note ? wrap(more.note, width(area), 14) : [];
  const noteH = notes.length > 0 ? 4 + 19 * notes.length : 0;
  const plot: Box = { ...area, top: area.top + (more.flags ? 24 : 4), bottom: area.bottom - 22 - noteH };
  const under: Op[] = [
    line(seg(plot.left, plot.bottom, plot.right, plot.bottom), LINE, 'ink', { cap: 'butt', snap: true }),
    ...notes.map((t, i) => words(t, area.left, area.bottom - 2 - 19 * (notes.length - 1 - i), { fill: 'ink2' })),
  ];
  if (!s) {
    const [x, y] = [(plot.left + plot.right) / 2, (plot.top + plot.bottom) / 2];
    return [...under, words(more.none ?? 'nothing here', x, y, { anchor: 'middle', fill: 'ink2' })];
  }
  const on = scales(plot, s, more.least_dB ?? -60);
  return [
    ...(more.passes === undefined ? [] : keptOut(on, more.passes)),
    ...curve(on, more.before),
    ...ticked(on, more.ticks ?? ticksFor(s.to_Hz)),
    ...flagged(on, area, more.flags ?? []),
    ...under,
  ];
}

/** The middle of a spectrum, as far as `half` Hz to both sides. */
export function cut(s: Spectrum | null, half: number): Spectrum | null {
  if (!s) return null;
  const at = (k: number) => s.from_Hz + (k * (s.to_Hz - s.from_Hz)) / (s.dB.length - 1);
  const kept = s.dB.map((_, k) => k).filter((k) => Math.abs(at(k)) <= half);
  return { from_Hz: at(kept[0]!), to_Hz: at(kept.at(-1)!), dB: kept.map((k) => s.dB[k]!) };
}

/** Flags at mark and space. */
export const toneFlags = (shift_Hz: number, markLow: boolean, off_Hz = 0): { at: number; name: string }[] => {
  const half = shift_Hz / 2;
  return [
    { at: off_Hz + (markLow ? -half : half), name: 'mark' },
    { at: off_Hz + (markLow ? half : -half), name: 'space' },
  ];
};
