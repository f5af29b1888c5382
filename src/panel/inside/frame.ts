/** The sheet that opens at a link: title, letter columns, rows down the left, panels down the right; on a phone all in one column. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { textWidth, wrap } from '../kit/metrics.ts';
import { EDGE, FINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { poly, rect, rrect, seg } from '../kit/path.ts';
import { insideOps } from '../props/inside.ts';
import { linkBox } from '../ribbon.ts';

type Window = Inside['window'];

/** A stretch of time drawn from left to right. `h` is its share of the height. */
export interface Row {
  title: string;
  text?: string;
  h: number;
  /** On a clock of its own: no letter columns behind it. Such rows come last. */
  isFree?: boolean;
  /** Shows what was: it stays where nothing comes in now. */
  isPast?: boolean;
  draw(area: Box): Op[];
}
/** A block of its own; `h` its share of the height. */
export interface Panel {
  title: string;
  h: number;
  draw(area: Box): Op[];
}
/** All that a link's view says. */
export interface Drawn {
  title: string;
  about: string;
  facts: readonly string[];
  /** Columns of the letter over the rows; null where rows run on another clock. */
  window: Window | null;
  /** Stands in place of rows, or above them when there are both. */
  picture?: { h: number; draw(area: Box): Op[] };
  rows: readonly Row[];
  panels: readonly Panel[];
  /** The same in words, for who cannot see it. */
  words: readonly string[];
}

/** Design of the sheet: wide is one drawing, narrow is as tall as it needs. */
export interface Format {
  w: number;
  h: number;
  isNarrow: boolean;
}
export const WIDE_SHEET = { x: 24, y: 96, w: 1232, h: 580 };
const DIVIDER = 866;
const LABEL_X = 44;
const ROWS: Box = { left: 204, top: 178, right: 846, bottom: 660 };
const HEADS_Y = 168;
export const NARROW_W = 390;
const NARROW_UNIT = 104;

const box = (left: number, top: number, right: number, bottom: number): Box => ({ left, top, right, bottom });
export const width = (b: Box): number => b.right - b.left;
export const height = (b: Box): number => b.bottom - b.top;
export const inset = (b: Box, d: number): Box => box(b.left + d, b.top + d, b.right - d, b.bottom - d);

/** x of a share of the window. */
export const along = (area: Box, share: number): number => area.left + share * width(area);
/** Share of the window that lies before now, 0..1. */
export const nowShare = (w: Window): number => Math.max(0, Math.min(1, (w.now_us - w.from_us) / (w.to_us - w.from_us)));

/** Draws what has been, and paler what is still to come. */
export function untilNow(area: Box, w: Window, draw: (o: number) => Op[]): Op[] {
  const x = along(area, nowShare(w));
  const part = (left: number, right: number) => rect(left, area.top - 6, Math.max(0, right - left), height(area) + 12);
  if (x >= area.right - 0.5) return draw(1);
  return [
    ...within({ clip: part(area.left - 6, x) }, draw(1)),
    ...within({ clip: part(x, area.right + 6) }, draw(0.32)),
  ];
}

const UNIT_US = 20_000;
const COLUMNS = ['start', 'unit 1', 'unit 2', 'unit 3', 'unit 4', 'unit 5', 'stop'] as const;

/** Where the letter's columns begin, as shares; the last is where the stop element ends. */
function columnShares(w: Window): number[] {
  const start = w.letter!.start_us;
  return [0, 1, 2, 3, 4, 5, 6, 7.5].map((u) => Math.min(1, (start + u * UNIT_US - w.from_us) / (w.to_us - w.from_us)));
}

const isMark = (code: number, column: number): boolean =>
  column === 6 || (column > 0 && ((code >> (column - 1)) & 1) === 1);

/** Tinted columns where the letter is at mark, dotted lines between, names above. */
function columns(area: Box, w: Window, headsY: number, isNarrow: boolean): Op[] {
  if (!w.letter) return [];
  const shares = columnShares(w);
  const { code } = w.letter;
  const ops: Op[] = [];
  const tint = (a: number, b: number) =>
    solid(rect(along(area, a), area.top, along(area, b) - along(area, a), height(area)), 'g1', { snap: true, o: 0.72 });
  if (shares[0]! > 0) ops.push(tint(0, shares[0]!));
  for (let c = 0; c < 7; c++) if (isMark(code, c)) ops.push(tint(shares[c]!, shares[c + 1]!));
  if (shares[7]! < 1) ops.push(tint(shares[7]!, 1));
  for (const s of shares.slice(0, 7))
    ops.push(
      line(seg(along(area, s), area.top, along(area, s), area.bottom), FINE, 'ink2', {
        dash: [1.5, 4],
        cap: 'butt',
        snap: true,
      }),
    );
  COLUMNS.forEach((name, c) => {
    const x = (along(area, shares[c]!) + along(area, shares[c + 1]!)) / 2;
    const isUnit = c > 0 && c < 6;
    const text = isNarrow ? (isUnit ? String(c) : name) : name;
    ops.push(words(text, x, headsY, { anchor: 'middle', bold: isUnit, fill: isUnit ? 'ink' : 'ink2' }));
  });
  return ops;
}

/** The green line of now, with its flag below. */
function nowLine(area: Box, w: Window, bottom: number): Op[] {
  const share = nowShare(w);
  if (share >= 1) return [];
  const x = along(area, share);
  const y = bottom - 18;
  return [
    line(seg(x, area.top - 6, x, y), 2.2, 'sea', { cap: 'butt', snap: true }),
    solid(
      poly(
        [
          [x - 4, area.top - 8],
          [x + 4, area.top - 8],
          [x, area.top - 1],
        ],
        true,
      ),
      'sea',
    ),
    solid(rrect(x - 22, y, 46, 18, 2), 'sea', { snap: true }),
    words('now', x, y + 13.5, { anchor: 'middle', bold: true, fill: 'sheet' }),
  ];
}

const rule = (x1: number, y: number, x2: number): Op =>
  line(seg(x1, y, x2, y), FINE, 'ink', { cap: 'butt', snap: true, o: 0.5 });

/** Rows below each other within an area, each with its share of the height. */
function stack<T extends { h: number }>(items: readonly T[], top: number, bottom: number): [T, number, number][] {
  const whole = items.reduce((sum, r) => sum + r.h, 0);
  let y = top;
  return items.map((r) => {
    const a = y;
    y += ((bottom - top) * r.h) / whole;
    return [r, a, y];
  });
}

function wideRows(d: Drawn): Op[] {
  const hasNow = d.window !== null && nowShare(d.window) < 1;
  const bottom = hasNow && d.rows.length > 0 ? ROWS.bottom - 12 : ROWS.bottom;
  const whole = d.rows.reduce((sum, r) => sum + r.h, 0) + (d.picture?.h ?? 0);
  const pictureEnd = d.picture ? 152 + ((bottom - 152) * d.picture.h) / whole : 0;
  const top = d.picture ? pictureEnd + (d.window?.letter ? 34 : 10) : ROWS.top;
  const area = box(ROWS.left, top, ROWS.right, bottom);
  const ops: Op[] = [];
  if (d.picture) ops.push(...d.picture.draw(box(LABEL_X, 156, DIVIDER - 20, d.rows.length > 0 ? pictureEnd - 8 : 664)));
  if (d.rows.length === 0) return ops;
  if (d.picture) ops.push(rule(LABEL_X, pictureEnd, DIVIDER - 20));
  const laid = stack(d.rows, area.top, area.bottom);
  const free = laid.find(([row]) => row.isFree);
  const timed = { ...area, bottom: free ? free[1] - (hasNow ? 26 : 6) : area.bottom };
  if (d.window) ops.push(...columns(timed, d.window, d.picture ? top - 10 : HEADS_Y, false));
  laid.forEach(([row, a, b], i) => {
    if (i > 0) ops.push(rule(LABEL_X, a, ROWS.right));
    const lines = row.text ? wrap(row.text, 148, 14) : [];
    const size = 18 * (lines.length + 1);
    let y = Math.max(a + 20, (a + b) / 2 - size / 2 + 14);
    ops.push(words(row.title, LABEL_X, y, { size: 15, bold: true }));
    for (const text of lines) {
      y += 18;
      ops.push(words(text, LABEL_X, y, { fill: 'ink2' }));
    }
    const isLastTimed = free !== undefined && laid[i + 1]?.[0] === free[0];
    ops.push(...row.draw(box(area.left, a + 11, area.right, isLastTimed ? timed.bottom - 6 : b - 11)));
  });
  if (d.window && hasNow) ops.push(...nowLine(timed, d.window, free ? free[1] - 4 : ROWS.bottom + 14));
  return ops;
}

function widePanels(d: Drawn): Op[] {
  const [left, right] = [DIVIDER, WIDE_SHEET.x + WIDE_SHEET.w];
  const ops: Op[] = [line(seg(DIVIDER, 144, DIVIDER, 676), FINE, 'ink', { cap: 'butt', snap: true, o: 0.75 })];
  stack(d.panels, 144, 676).forEach(([panel, a, b], i) => {
    if (i > 0) ops.push(line(seg(left, a, right, a), FINE, 'ink', { cap: 'butt', snap: true, o: 0.75 }));
    ops.push(words(panel.title, left + 24, a + 24, { size: 15, bold: true }));
    ops.push(...panel.draw(box(left + 24, a + 38, right - 20, b - 14)));
  });
  return ops;
}

/** The wide sheet, its tab round link `i`. */
export function wideSheet(d: Drawn, i: number, name: string): Op[] {
  const at = linkBox(i);
  const wide = Math.max(textWidth(name, 14) + 34, 78);
  const cx = (at.left + at.right) / 2;
  const { x, y, w, h } = WIDE_SHEET;
  const facts = d.facts.join('   ');
  const factsX = x + w - 20;
  const titleX = LABEL_X + textWidth(d.title, 20) + 34;
  const room = factsX - textWidth(facts, 14, true) - titleX - 24;
  return [
    solid(rect(0, 88, 1280, 632), 'paper'),
    ...insideOps({ x, y, w, h, tab: { x: cx - wide / 2, w: wide } }),
    words(name, cx, 81, { anchor: 'middle', bold: true }),
    words(d.title, LABEL_X, 128, { size: 20, bold: true }),
    words(wrap(d.about, room, 15)[0] ?? '', titleX, 127, { size: 15, fill: 'ink2' }),
    words(facts, factsX, 127, { mono: true, anchor: 'end' }),
    line(seg(x, 144, x + w, 144), FINE, 'ink', { cap: 'butt', snap: true, o: 0.75 }),
    ...wideRows(d),
    ...widePanels(d),
  ];
}

type Laid = { ops: Op[]; h: number };

function narrowTitle(d: Drawn): Laid {
  const ops: Op[] = [words(d.title, 18, 34, { size: 20, bold: true })];
  let y = 34;
  for (const text of [...wrap(d.about, 354, 14), ...wrap(d.facts.join('   '), 354, 14, true)]) {
    y += 20;
    ops.push(words(text, 18, y, { fill: 'ink2', mono: d.facts.some((f) => text.includes(f)) }));
  }
  return { ops, h: y + 14 };
}

function narrowRow(row: Row, top: number, d: Drawn): Laid {
  const lines = row.text ? wrap(row.text, 354, 14) : [];
  const ops: Op[] = [rule(16, top, 374), words(row.title, 18, top + 22, { size: 15, bold: true })];
  ops.push(...lines.map((text, k) => words(text, 18, top + 42 + 18 * k, { fill: 'ink2' })));
  const heads = d.window?.letter && !row.isFree ? 20 : 0;
  const a = top + 32 + 18 * lines.length + heads;
  const area = box(18, a, 372, a + Math.max(34, NARROW_UNIT * row.h));
  if (d.window && !row.isFree) ops.push(...columns(area, d.window, a - 5, true));
  ops.push(...row.draw(area));
  if (d.window && !row.isFree && nowShare(d.window) < 1) {
    const x = along(area, nowShare(d.window));
    ops.push(line(seg(x, area.top, x, area.bottom), 2.2, 'sea', { cap: 'butt', snap: true }));
  }
  return { ops, h: area.bottom - top + 12 };
}

/** The sheet on a phone: everything in one column, as tall as it needs. */
export function narrowSheet(d: Drawn): { ops: Op[]; h: number } {
  const title = narrowTitle(d);
  const ops: Op[] = [...title.ops];
  let y = title.h;
  if (d.picture) {
    const tall = 300 * Math.min(1, d.picture.h);
    ops.push(...d.picture.draw(box(16, y, 374, y + tall)));
    y += tall + 12;
  }
  for (const row of d.rows) {
    const laid = narrowRow(row, y, d);
    ops.push(...laid.ops);
    y += laid.h;
  }
  for (const panel of d.panels) {
    ops.push(rule(16, y, 374), words(panel.title, 18, y + 24, { size: 15, bold: true }));
    const h = Math.max(150, 240 * Math.min(1.1, panel.h));
    ops.push(...panel.draw(box(18, y + 38, 372, y + 38 + h - 14)));
    y += 38 + h;
  }
  const h = y + 8;
  const sheet = rect(2, 2, NARROW_W - 8, h - 4);
  return {
    ops: [solid(rect(8, 8, NARROW_W - 8, h - 4), 'shade'), shape(sheet, 'sheet', EDGE, 'ink', { snap: true }), ...ops],
    h: h + 8,
  };
}
