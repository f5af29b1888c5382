/** Waves, spectra, holes, bars and figures, drawn from plain numbers. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { CAPITAL, textWidth, wrap } from '../kit/metrics.ts';
import { EDGE, FINE, HAIR, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import type { Ink } from '../kit/palette.ts';
import { circle, type Point, poly, rect, rrect, seg } from '../kit/path.ts';
import { along, height, untilNow, width } from './frame.ts';

type Window = Inside['window'];
export type Pieces = Extract<Inside, { link: 'keys' }>['contact'];
export type Units = Extract<Inside, { link: 'terminal unit' }>['units'];
export type Spectrum = NonNullable<Extract<Inside, { link: 'sender' }>['spectrum']>;
export type Letter = NonNullable<Window['letter']>;

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
}

/** Ticks that suit a span. */
function ticksFor(half: number): number[] {
  const step = half > 2000 ? 1000 : half > 800 ? 500 : 200;
  return [-2, -1, 0, 1, 2].map((k) => k * step).filter((v) => Math.abs(v) <= half * 0.96);
}

const signed = (v: number): string => (v > 0 ? `+${v}` : String(v).replace('-', '−'));

/** Power by frequency as ruled ink. */
export function spectrum(area: Box, s: Spectrum | null, more: SpectrumMore = {}): Op[] {
  const notes = more.note ? wrap(more.note, width(area), 14) : [];
  const noteH = notes.length > 0 ? 4 + 19 * notes.length : 0;
  const plot: Box = { ...area, top: area.top + (more.flags ? 24 : 4), bottom: area.bottom - 22 - noteH };
  const axis: Op[] = [
    line(seg(plot.left, plot.bottom, plot.right, plot.bottom), LINE, 'ink', { cap: 'butt', snap: true }),
  ];
  const note = notes.map((t, i) =>
    words(t, area.left, area.bottom - 2 - 19 * (notes.length - 1 - i), { fill: 'ink2' }),
  );
  if (!s)
    return [
      ...axis,
      words('nothing here', (plot.left + plot.right) / 2, (plot.top + plot.bottom) / 2, {
        anchor: 'middle',
        fill: 'ink2',
      }),
      ...note,
    ];
  const least = more.least_dB ?? -60;
  const x = (f: number) => plot.left + ((f - s.from_Hz) / (s.to_Hz - s.from_Hz)) * width(plot);
  const y = (v: number) => plot.bottom - Math.max(0, Math.min(1, (v - least) / -least)) * height(plot) * 0.94;
  const at = (sp: Spectrum, f: number) =>
    sp.dB[Math.round(((f - sp.from_Hz) / (sp.to_Hz - sp.from_Hz)) * (sp.dB.length - 1))] ?? least;
  const hz = (px: number) => s.from_Hz + ((px - plot.left) / width(plot)) * (s.to_Hz - s.from_Hz);
  // Several bins fall on one pixel: the strongest counts.
  const cols: Point[] = [];
  const step = 3;
  for (let px = plot.left; px <= plot.right; px += step) {
    let most = least;
    for (let q = 0; q < step; q++) most = Math.max(most, at(s, hz(px + q)));
    cols.push([px, y(most)]);
  }
  const bars = cols.map(([px, py]) => seg(px, plot.bottom, px, py)).join('');
  const ops: Op[] = [];
  if (more.passes !== undefined && more.passes < s.to_Hz)
    for (const [a, b] of [
      [s.from_Hz, -more.passes],
      [more.passes, s.to_Hz],
    ] as const)
      ops.push(
        solid(rect(x(a), plot.top, x(b) - x(a), height(plot)), 'hatch', { o: 0.6 }),
        line(seg(x(a === s.from_Hz ? b : a), plot.top, x(a === s.from_Hz ? b : a), plot.bottom), FINE, 'ink2', {
          dash: [3, 3],
          cap: 'butt',
          snap: true,
        }),
      );
  ops.push(line(bars, HAIR + 0.2, 'ink', { cap: 'butt' }), line(poly(cols), LINE));
  if (more.before) {
    const b = more.before;
    const pts: Point[] = cols.filter((_, i) => i % 2 === 0).map(([px]) => [px, y(at(b, hz(px)))]);
    ops.push(line(poly(pts), FINE, 'ink2', { dash: [2, 2.5] }));
  }
  for (const f of more.ticks ?? ticksFor(s.to_Hz)) {
    ops.push(line(seg(x(f), plot.bottom, x(f), plot.bottom + 5), FINE, 'ink', { cap: 'butt', snap: true }));
    ops.push(words(signed(f), x(f), plot.bottom + 20, { anchor: 'middle' }));
  }
  for (const flag of more.flags ?? []) {
    if (flag.at < s.from_Hz || flag.at > s.to_Hz) continue;
    const wide = textWidth(flag.name, 14, false) + 14;
    const fx = Math.max(area.left + wide / 2, Math.min(area.right - wide / 2, x(flag.at)));
    ops.push(
      solid(rrect(fx - wide / 2, area.top - 4, wide, 20, 3), 'cut', { snap: true }),
      words(flag.name, fx, area.top + 11, { anchor: 'middle', bold: true, fill: 'onCut' }),
      line(seg(x(flag.at), area.top + 16, x(flag.at), y(at(s, flag.at)) - 3), FINE, 'ink2', {
        dash: [1.5, 3],
        cap: 'butt',
        snap: true,
      }),
    );
  }
  return [...ops, ...axis, ...note];
}

/** Flags at mark and space. */
export const toneFlags = (shift_Hz: number, markLow: boolean, off_Hz = 0): { at: number; name: string }[] => {
  const half = shift_Hz / 2;
  return [
    { at: off_Hz + (markLow ? -half : half), name: 'mark' },
    { at: off_Hz + (markLow ? half : -half), name: 'space' },
  ];
};

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
