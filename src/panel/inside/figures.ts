/** Names and figures, prose, and bars of watts. */
import type { Box } from '../kit/bounds.ts';
import { wrap } from '../kit/metrics.ts';
import { FINE, HAIR, line, type Op, solid, words } from '../kit/ops.ts';
import type { Ink } from '../kit/palette.ts';
import { rect, seg } from '../kit/path.ts';
import { height, width } from './frame.ts';

/** Names and figures, one under the other; what follows a slash is left in ink2. */
export function figures(area: Box, rows: readonly (readonly [name: string, value: string])[], pitch = 25): Op[] {
  const step = Math.min(pitch, height(area) / Math.max(1, rows.length));
  return rows.flatMap(([name, value], i): Op[] => {
    const y = area.top + (i + 0.5) * step + 5;
    const ops: Op[] = [
      words(name, area.left, y, { fill: 'ink2' }),
      words(value, area.right, y, { mono: true, anchor: 'end' }),
    ];
    if (i > 0)
      ops.unshift(
        line(seg(area.left, y - step / 2 - 5, area.right, y - step / 2 - 5), HAIR, 'ink', {
          cap: 'butt',
          snap: true,
          o: 0.4,
        }),
      );
    return ops;
  });
}

/** Prose in an area. */
export const prose = (area: Box, text: string, more: { size?: number; fill?: Ink } = {}): Op[] =>
  wrap(text, width(area), more.size ?? 14).map((t, i) =>
    words(t, area.left, area.top + 12 + 20 * i, { fill: more.fill ?? 'ink2', size: more.size ?? 14 }),
  );

/** Bars of watts: where they go, in one scale. */
export function bars(
  area: Box,
  rows: readonly { name: string; value: number; text: string; ink: Ink | 'hatch' }[],
): Op[] {
  const top = Math.max(...rows.map((r) => r.value), 1e-9);
  const pitch = height(area) / rows.length;
  return rows.flatMap((r, i): Op[] => {
    const y = area.top + i * pitch;
    const w = Math.max(0, (r.value / top) * width(area));
    const d = rect(area.left, y + 20, w, Math.min(14, pitch - 26));
    return [
      words(r.name, area.left, y + 14, { fill: 'ink2' }),
      words(r.text, area.right, y + 14, { mono: true, anchor: 'end' }),
      solid(d, r.ink, { snap: true }),
      line(d, FINE, 'ink', { snap: true }),
    ];
  });
}

/** A few words in the middle of a row that has nothing to draw. */
export const rest = (area: Box, text: string): Op[] => [
  words(text, area.left + 12, (area.top + area.bottom) / 2 + 5, { fill: 'ink2' }),
];
