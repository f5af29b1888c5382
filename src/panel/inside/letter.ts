/** One letter: its card, its units, how surely they were read, its place on a tape. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { CAPITAL, wrap } from '../kit/metrics.ts';
import { FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { circle, rect } from '../kit/path.ts';
import { hole, type Units } from './draw.ts';
import { height, width } from './frame.ts';

export type Letter = NonNullable<Inside['window']['letter']>;

const bits = (code: number): string => [0, 1, 2, 3, 4].map((k) => ((code >> k) & 1 ? '1' : '0')).join('');

/** What a name looks like on the card: machine functions are words, letters stand large. */
export const shownName = (name: string): string => (name === 'SPACE' ? '␣' : name);

/** One sign for a name on a tape or in a small window. */
export const glyphOf = (name: string): string =>
  ({ SPACE: '␣', LTRS: '↓', FIGS: '↑', CR: '↵', LF: '≡', BLANK: '·' })[name] ?? name;

/** A card with the letter and its code. */
export function letterCard(area: Box, letter: Letter | null, none = 'no letter on its way'): Op[] {
  const w = Math.min(108, width(area));
  const h = Math.min(height(area), 168);
  const { left, top } = area;
  const card = rect(left, top, w, h);
  const ops: Op[] = [solid(rect(left + 5, top + 6, w, h), 'shade'), shape(card, 'sheet', LINE, 'ink', { snap: true })];
  const cx = left + w / 2;
  if (!letter)
    return [
      ...ops,
      ...wrap(none, w - 16, 14).map((t, i) =>
        words(t, cx, top + h / 2 - 12 + 19 * i, { anchor: 'middle', fill: 'ink2' }),
      ),
    ];
  const text = shownName(letter.name);
  const isWord = text.length > 1;
  const size = isWord ? 30 : Math.min(104, h * 0.64);
  const mid = top + (h - 26) / 2;
  return [
    ...ops,
    words(text, cx, mid + (CAPITAL * size) / 2, { size, bold: true, anchor: 'middle' }),
    words(bits(letter.code), cx, top + h - 11, { mono: true, anchor: 'middle', size: 16 }),
  ];
}

/** The units in words beside their holes. */
export function unitList(area: Box, letter: Letter | null): Op[] {
  if (!letter) return [];
  const pitch = Math.min(30, height(area) / 5);
  return [0, 1, 2, 3, 4].flatMap((k): Op[] => {
    const y = area.top + (k + 0.5) * pitch;
    const isMark = ((letter.code >> k) & 1) === 1;
    return [
      words(`unit ${k + 1}`, area.left, y + 5, { fill: 'ink2' }),
      hole(area.left + 72, y, 6.5, isMark),
      words(isMark ? 'mark' : 'space', area.left + 94, y + 5, { bold: isMark }),
    ];
  });
}

/** How surely each unit was read. */
export function surely(area: Box, units: Units): Op[] {
  const pitch = Math.min(27, height(area) / 5);
  const barX = area.left + 42;
  const barW = width(area) - 42 - 56;
  return [1, 2, 3, 4, 5].flatMap((n): Op[] => {
    const u = units[n - 1];
    const y = area.top + (n - 0.5) * pitch;
    const isRead = u?.isRead ?? false;
    const share = isRead ? u!.surely : 0;
    return [
      words(String(n), area.left, y + 5, { mono: true, bold: true }),
      hole(area.left + 24, y, 6, u?.mark ?? false, isRead),
      solid(rect(barX, y - 7, barW, 14), 'hatch', { o: 0.6 }),
      solid(rect(barX, y - 7, barW * share, 14), 'ink', { snap: true }),
      line(rect(barX, y - 7, barW, 14), FINE, 'ink', { snap: true }),
      words(isRead ? `${Math.round(share * 100)} %` : '–', area.right, y + 5, {
        mono: true,
        bold: n === weakest(units) + 1,
        anchor: 'end',
      }),
    ];
  });
}

/** Index of the unit that was nearest to falling the other way; -1 before any was read. */
export function weakest(units: Units): number {
  let at = -1;
  units.forEach((u, i) => {
    if (u.isRead && (at < 0 || u.surely < units[at]!.surely)) at = i;
  });
  return at;
}

/** A strip of tape with the last letters over their holes. */
export function tapeStrip(area: Box, letters: readonly Letter[], now: Letter | null): Op[] {
  const n = 14;
  const pitch = width(area) / n;
  const h = Math.min(height(area) - 20, 124);
  const top = area.top + 22;
  const r = Math.min(5.4, h / 16);
  const rowY = (u: number) => top + h * (0.145 + 0.142 * (u > 1 ? u + 1 : u) + 0.05);
  const shown = letters.slice(-n);
  const ops: Op[] = [
    solid(rect(area.left + 4, top + 5, width(area), h), 'shade'),
    shape(rect(area.left, top, width(area), h), 'sheet', LINE, 'ink', { snap: true }),
  ];
  shown.forEach((l, i) => {
    const x = area.left + (i + 0.5) * pitch;
    const isNow = now !== null && l.start_us === now.start_us;
    const d = [0, 1, 2, 3, 4].map((u) => ((l.code >> u) & 1 ? circle(x, rowY(u), r) : '')).join('');
    const feed = circle(x, top + h * (0.145 + 0.142 * 2 + 0.05), r * 0.55);
    if (isNow) ops.push(line(rect(x - pitch / 2 + 1, top - 2, pitch - 2, h + 4), 2, 'sea', { snap: true }));
    ops.push(solid(d + feed, isNow ? 'sea' : 'ink'));
    ops.push(
      words(glyphOf(l.name), x, area.top + 14, {
        mono: true,
        bold: true,
        anchor: 'middle',
        fill: isNow ? 'ink' : 'ink2',
      }),
    );
  });
  return ops;
}
