/** The bays on a phone: laid out anew, one card under the other, between two edges; never the wide view shrunk. */

import { LINKS } from '../../core/drill.ts';
import { type Boxed, boxPieces } from '../boxes.ts';
import type { PanelHost, Place } from '../host.ts';
import type { Box } from '../kit/bounds.ts';
import { MONO, wrap } from '../kit/metrics.ts';
import { FINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { rect, rrect, seg } from '../kit/path.ts';
import { LAYOUTS } from '../layout/all.ts';
import { flow } from '../layout/flow.ts';
import type { BoxLayout } from '../layout/layout.ts';
import { type Reach, reachOf, stretchOf } from '../reach.ts';
import { live, type Piece, scenery } from '../tiles.ts';
import { boxesOf, outsidePiece } from './bays.ts';

/** Width of the sheet; its height is what the place needs. On its side a phone's is as wide as the window, but no less than this. */
const NARROW_W = 390;
const LEAST_LOW_W = 640;
const EDGE_X = 10;
const GAP = 22;
/** The tabs stand over the sheet; they and what comes next are low where the window is. */
const TABS_H = { tall: 50, low: 40 };
/** The ribbon's strip, over which a finger looks inside, and how wide its strokes are. */
const STRIP = { tall: { h: 48, w: NARROW_W - 2 * EDGE_X }, low: { h: 30, w: 240 } };
/** A slip folded to its title. */
const FOLDED_H = 30;

/** Blocks of prose that a place has, with their heights. */
export type Block = { id: string; h: number };

/** A box and where it lies. */
type Laid = { box: Boxed; layout: BoxLayout };

/** A place laid out: what is drawn, where each box's controls are, where the prose goes, how tall it all is. */
export type NarrowPlace = {
  w: number;
  pieces: Piece[];
  /** The ribbon's strip. */
  strip: Box;
  layouts: Laid[];
  blocks: Record<string, Box>;
  h: number;
};

/** Ten strokes: filled where the signal is; the words stand under them, or beside them in a low window. */
function strokes(reach: Reach, y: number, isLow: boolean): Op[] {
  const w = STRIP[isLow ? 'low' : 'tall'].w / LINKS.length;
  const out: Op[] = [];
  for (let i = 0; i < LINKS.length; i++) {
    const d = rect(EDGE_X + i * w, y, w - 3, 14);
    out.push(reach.lit[i] ? shape(d, 'sea', FINE, 'ink', { snap: true }) : line(d, FINE, 'ink2', { snap: true }));
  }
  const on = stretchOf(reach);
  const text = on ? `${reach.from} to ${reach.to}: signal as far as ${LINKS[on[1]]}` : 'no signal';
  const [tx, ty] = isLow ? [EDGE_X + STRIP.low.w + 8, y + 12] : [EDGE_X, y + 32];
  return [...out, words(text, tx, ty, { bold: on !== null, fill: on ? 'ink' : 'ink2' })];
}

type Scenario = PanelHost['drill']['scenario'];

/** Text lies between the edges of a slip. */
const textWidth = (w: number): number => w - 2 * EDGE_X - 33;
const TEXT_W = textWidth(NARROW_W);
const SIZE = 14;
const LEADING = 20;
const NOW_LEADING = 18.8;
const linesOf = (text: string, w = NARROW_W): number => wrap(text, textWidth(w), SIZE).length;

/** The slip has room for the longest tip with its reason. */
const nowHeight = ({ steps }: Scenario): number =>
  70 + NOW_LEADING * Math.max(3, ...steps.map((s) => linesOf(s.tip ?? s.title) + linesOf(s.why)));

/** Message forms: a long line goes on, two characters in. */
function formHeight({ papers }: Scenario): number {
  const fit = Math.floor(TEXT_W / (MONO * SIZE)) - 2;
  const rows = papers.messages.flatMap((m) => m.lines.map((l) => Math.max(1, Math.ceil(l.length / fit))));
  return papers.messages.length * 70 + LEADING * rows.reduce((a, b) => a + b, 0);
}

/** Five lines of what was heard; no line is shown in part. */
const HEARD_H = 5 * LEADING + 12;

/** Papers that are touched: they come before the boxes in any window. */
const papersOf = (place: Place, { order }: Scenario, w: number): readonly Block[] =>
  place === 'desk' ? [{ id: 'order', h: 48 + 19.1 * linesOf(order.task, w) }] : [];

/** Prose blocks of each place, before its boxes and after. */
function proseOf(place: Place, scenario: Scenario): { before: readonly Block[]; after: readonly Block[] } {
  const { calls, frequencies } = scenario.papers;
  switch (place) {
    case 'shelter':
      return { before: [], after: [{ id: 'bays', h: 5 * 92 }] };
    case 'radio':
      return { before: [{ id: 'heard', h: HEARD_H }], after: [] };
    case 'messages':
      return { before: [{ id: 'page', h: 241 }], after: [{ id: 'form', h: formHeight(scenario) }] };
    case 'desk':
      return {
        before: [{ id: 'heard', h: HEARD_H }],
        after: [
          { id: 'words', h: 360 + 36 * Math.ceil(Math.max(0, calls.length - 4) / 6) },
          { id: 'log', h: 270 },
          { id: 'card', h: 250 },
          { id: 'chart', h: 66 + 19.2 * frequencies.length },
          { id: 'calls', h: 40 + 19.2 * calls.length },
        ],
      };
    default:
      return { before: [], after: [] };
  }
}

/** What stands over everything else: the tabs, the ribbon, the slip with the next step. */
function head(host: PanelHost, hasNow: boolean, w: number, isLow: boolean) {
  const size = isLow ? 'low' : 'tall';
  const y = TABS_H[size] + (isLow ? 8 : 12);
  const { h } = STRIP[size];
  const strip = { left: EDGE_X - 6, top: y - 6, right: w - 4, bottom: y - 6 + h };
  const ribbon = live(
    'ribbon',
    { left: 0, top: y - 4, right: w, bottom: y + h - 10 },
    (s) => reachOf(s, host.manner),
    (reach) => strokes(reach, y, isLow),
  );
  const first = hasNow ? [{ id: 'now', h: isLow ? FOLDED_H : nowHeight(host.drill.scenario) }] : [];
  return { strip, ribbon, first, y: isLow ? y + 20 : y + 50 };
}

/** What is done on a paper and not on its box: the order is opened where it lies. */
const isOnPaper = (box: string, control: string): boolean => box === 'desk' && control === 'order';

/** The box with the touch of its paper, which no face is drawn for. */
function onPaper({ box, layout }: Laid, paper: Box): Laid {
  const own = box.controls.filter((c) => isOnPaper(box.id, c.id));
  const spots = own.map((c) => [c.id, { x: paper.left, y: paper.top, s: 0, as: 'none', hit: paper }]);
  return { box, layout: { ...layout, controls: { ...Object.fromEntries(spots), ...layout.controls } } };
}

/** A box laid out in the column; beside its readings, not under them, stand its controls in a low window. */
function laidOut(box: Boxed, y: number, w: number, isLow: boolean): { layout: BoxLayout; bottom: number } {
  const drawn = { ...box, controls: box.controls.filter((c) => !isOnPaper(box.id, c.id)) };
  const laid = flow(drawn, EDGE_X, y, w - 2 * EDGE_X, isLow);
  // A rim shows the last three figures only: the whole of them stands in the brow.
  const brow = box.indicators.some((i) => i.face === 'scale') && LAYOUTS[box.id]?.brow;
  return brow ? { ...laid, layout: { ...laid.layout, brow } } : laid;
}

/**
 * Lays the place out. `hasNow`: a slip that says the next step stands first. `low_w`: the width of a low window (a phone on
 * its side), where controls come before prose and picture; null where the window is tall.
 */
export function narrowPlace(
  place: Place,
  boxes: readonly Boxed[],
  host: PanelHost,
  hasNow: boolean,
  low_w: number | null,
): NarrowPlace {
  const isLow = low_w !== null;
  const w = isLow ? Math.max(LEAST_LOW_W, low_w) : NARROW_W;
  const blocks: Record<string, Box> = {};
  const top = head(host, hasNow, w, isLow);
  const pieces: Piece[] = [top.ribbon];
  const layouts: NarrowPlace['layouts'] = [];
  let y = top.y;
  const block = ({ id, h }: Block) => {
    blocks[id] = { left: EDGE_X, top: y, right: w - EDGE_X, bottom: y + h };
    y += h + (isLow ? 8 : 14);
  };
  const prose = proseOf(place, host.drill.scenario);
  const before = () => {
    for (const each of prose.before) block(each);
    if (place !== 'outside') return;
    pieces.push(
      scenery('sky', [solid(rect(EDGE_X, y, w - 2 * EDGE_X, 400), 'paper')]),
      outsidePiece({ x: w / 2 - 114, y, h: 400 }),
    );
    y += 414;
  };
  for (const each of [...top.first, ...papersOf(place, host.drill.scenario, w)]) block(each);
  if (!isLow) before();
  if (place !== 'shelter')
    for (const box of boxesOf(place, boxes)) {
      const { layout, bottom } = laidOut(box, y, w, isLow);
      layouts.push({ box, layout });
      pieces.push(...boxPieces(box, layout));
      y = bottom + GAP;
    }
  if (isLow) before();
  for (const each of prose.after) block(each);
  const h = y + 80;
  const { order } = blocks;
  const touched = order ? layouts.map((laid) => onPaper(laid, order)) : layouts;
  return { w, pieces: [wall(place, w, h, isLow), ...pieces], strip: top.strip, layouts: touched, blocks, h };
}

/** What is behind everything. */
function wall(place: Place, w: number, h: number, isLow: boolean): Piece {
  const tabs_h = TABS_H[isLow ? 'low' : 'tall'];
  return scenery('wall', [
    solid(rect(-1, tabs_h, w + 2, h), place === 'shelter' ? 'paper' : 'g1'),
    solid(rrect(0, 0, w, tabs_h, 0), 'cut'),
    line(seg(0, h - 70, w, h - 70), FINE, 'ink', { snap: true }),
  ]);
}
