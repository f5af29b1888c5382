/** The bays on a phone: laid out anew, one card under the other, between two edges; never the wide view shrunk. */
import { type Boxed, boxPieces } from '../boxes.ts';
import type { PanelHost, Place } from '../host.ts';
import type { Box } from '../kit/bounds.ts';
import { MONO, wrap } from '../kit/metrics.ts';
import { FINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { rect, rrect, seg } from '../kit/path.ts';
import { LAYOUTS } from '../layout/all.ts';
import { flow } from '../layout/flow.ts';
import type { BoxLayout } from '../layout/layout.ts';
import { LINKS, type Reach, reachOf, stretchOf } from '../reach.ts';
import { live, type Piece, scenery } from '../tiles.ts';
import { boxesOf, outsidePiece } from './bays.ts';

/** Width of the sheet; its height is what the place needs. */
export const NARROW_W = 390;
const EDGE_X = 10;
const GAP = 22;
/** The tabs stand over the sheet. */
export const TABS_H = 50;

/** Blocks of prose that a place has, with their heights. */
export type Block = { id: string; h: number };

/** A place laid out: what is drawn, where each box's controls are, where the prose goes, how tall it all is. */
export type NarrowPlace = {
  pieces: Piece[];
  layouts: { box: Boxed; layout: BoxLayout }[];
  blocks: Record<string, Box>;
  h: number;
};

/** Ten strokes: filled where the signal is. */
function strokes(reach: Reach, y: number): Op[] {
  const w = (NARROW_W - 2 * EDGE_X) / LINKS.length;
  const out: Op[] = [];
  for (let i = 0; i < LINKS.length; i++) {
    const d = rect(EDGE_X + i * w, y, w - 3, 14);
    out.push(reach.lit[i] ? shape(d, 'sea', FINE, 'ink', { snap: true }) : line(d, FINE, 'ink2', { snap: true }));
  }
  const on = stretchOf(reach);
  const text = on ? `${reach.from} to ${reach.to}: signal as far as ${LINKS[on[1]]}` : 'no signal';
  return [...out, words(text, EDGE_X, y + 32, { bold: on !== null, fill: on ? 'ink' : 'ink2' })];
}

type Scenario = PanelHost['drill']['scenario'];

/** Text lies between the edges of a slip. */
const TEXT_W = NARROW_W - 2 * EDGE_X - 33;
const SIZE = 14;
const LEADING = 20;
const NOW_LEADING = 18.8;
const linesOf = (text: string): number => wrap(text, TEXT_W, SIZE).length;

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
        before: [
          { id: 'order', h: 48 + 19.1 * linesOf(scenario.order.task) },
          { id: 'heard', h: HEARD_H },
        ],
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

/** Lays the place out. `hasNow`: a slip that says the next step stands first. */
export function narrowPlace(place: Place, boxes: readonly Boxed[], host: PanelHost, hasNow: boolean): NarrowPlace {
  const blocks: Record<string, Box> = {};
  const pieces: Piece[] = [];
  const layouts: NarrowPlace['layouts'] = [];
  let y = TABS_H + 12;
  const ribbonY = y;
  pieces.push(
    live(
      'ribbon',
      { left: 0, top: ribbonY - 4, right: NARROW_W, bottom: ribbonY + 38 },
      (s) => reachOf(s, host.manner),
      (reach) => strokes(reach, ribbonY),
    ),
  );
  y += 50;
  const block = ({ id, h }: Block) => {
    blocks[id] = { left: EDGE_X, top: y, right: NARROW_W - EDGE_X, bottom: y + h };
    y += h + 14;
  };
  const { scenario } = host.drill;
  const prose = proseOf(place, scenario);
  if (hasNow) block({ id: 'now', h: nowHeight(scenario) });
  for (const each of prose.before) block(each);
  if (place === 'outside') {
    pieces.push(
      scenery('sky', [solid(rect(EDGE_X, y, NARROW_W - 2 * EDGE_X, 400), 'paper')]),
      outsidePiece({ x: 81, y, h: 400 }),
    );
    y += 414;
  }
  if (place !== 'shelter')
    for (const box of boxesOf(place, boxes)) {
      const laid = flow(box, EDGE_X, y, NARROW_W - 2 * EDGE_X);
      // A rim shows the last three figures only: the whole of them stands in the brow.
      const brow = box.indicators.some((i) => i.face === 'scale') && LAYOUTS[box.id]?.brow;
      const layout = brow ? { ...laid.layout, brow } : laid.layout;
      layouts.push({ box, layout });
      pieces.push(...boxPieces(box, layout));
      y = laid.bottom + GAP;
    }
  for (const each of prose.after) block(each);
  const h = y + 80;
  const wall = scenery('wall', [
    solid(rect(-1, TABS_H, NARROW_W + 2, h), place === 'shelter' ? 'paper' : 'g1'),
    solid(rrect(0, 0, NARROW_W, TABS_H, 0), 'cut'),
    line(seg(0, h - 70, NARROW_W, h - 70), FINE, 'ink', { snap: true }),
  ]);
  return { pieces: [wall, ...pieces], layouts, blocks, h };
}
