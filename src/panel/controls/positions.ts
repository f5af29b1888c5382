/** The positions that a lever or a knob has round it: a touch of a name, or nearest a notch, goes there. */
import type { Control } from '../../core/station/box.ts';
import { limpetAngles, limpetWords } from '../faces/limpet.ts';
import { pinCells, pinHoles } from '../faces/pins.ts';
import { tillerAngles, tillerWords } from '../faces/tiller.ts';
import { type Box, grow } from '../kit/bounds.ts';
import { at, type Point } from '../kit/path.ts';
import type { Spot } from '../layout/layout.ts';
import { limpetAt, pinsAt, tillerAt } from '../mounts.ts';

/** What is printed round one control, in the order of its positions. Sheet units. */
export interface Positions {
  /** Where each name is touched; none when no names are printed. */
  readonly names: readonly Box[];
  /** A point of every position: the middle of its name, or its notch. */
  readonly points: readonly Point[];
  /** Which position a touch means while the control stands at `present`; null when it means none, as on a hub or a knob's body. */
  meant(x: number, y: number, present: number): number | null;
}

/** Names get at least so much for a finger, where nothing else lies over them. */
const LEAST = 32;

function fingerwide(word: Box): Box {
  const [dx, dy] = [LEAST - (word.right - word.left), LEAST - (word.bottom - word.top)].map((d) => Math.max(2, d / 2));
  return { left: word.left - dx!, top: word.top - dy!, right: word.right + dx!, bottom: word.bottom + dy! };
}

const inside = (b: Box, x: number, y: number): boolean => x >= b.left && x <= b.right && y >= b.top && y <= b.bottom;
const middle = (b: Box): Point => [(b.left + b.right) / 2, (b.top + b.bottom) / 2];
const compass = (dx: number, dy: number): number => (Math.atan2(dx, -dy) * 180) / Math.PI;
const apart = (a: number, b: number): number => Math.abs(((((a - b) % 360) + 540) % 360) - 180);

function nearest(angles: readonly number[], angle: number): number {
  const off = angles.map((a) => apart(a, angle));
  return off.indexOf(Math.min(...off));
}

const named = (words: readonly Box[], x: number, y: number): number => words.findIndex((w) => inside(grow(w, 3), x, y));

/** Shares of a lever's length: the hub ends, the grip begins and ends; and how wide the grip is seen from the hub, degrees. */
const HUB = 0.3;
const GRIP = [0.74, 1.2] as const;
const GRIP_DEG = 13;
/** Farther past the last notch than this nothing is meant, degrees. */
const PAST_DEG = 50;

function ofLever(control: Control, spot: Spot): Positions {
  const spec = tillerAt(control, spot);
  const { x: hx, y: hy, length } = spec;
  const angles = tillerAngles(spec);
  const words = spec.size === 0 ? [] : tillerWords(spec);
  const isPair = angles.length === 2;
  const meant: Positions['meant'] = (x, y, present) => {
    const name = named(words, x, y);
    if (name >= 0) return name;
    const share = Math.hypot(x - hx, y - hy) / length;
    const angle = compass(x - hx, y - hy);
    const to = nearest(angles, angle);
    if (share < HUB || apart(angles[to]!, angle) > PAST_DEG) return null;
    // Of two positions the middle means the other one, and so does the grip; of more the grip means where it is.
    const middled = isPair && Math.abs(apart(angles[0]!, angle) - apart(angles[1]!, angle)) < 8;
    const gripped = share > GRIP[0] && share < GRIP[1] && apart(angles[present]!, angle) < GRIP_DEG;
    if (middled || (isPair && gripped)) return null;
    return gripped ? present : to;
  };
  const points = words.length ? words.map(middle) : angles.map((a): Point => at(hx, hy, 0.61 * length, a));
  return { names: words.map(fingerwide), points, meant };
}

/** Share of a knob's radius that is its body. */
const BODY = 0.85;

function ofKnob(control: Control, spot: Spot): Positions | null {
  const spec = limpetAt(control, spot);
  const words = limpetWords(spec);
  if (words.length === 0) return null;
  const { x: cx, y: cy, r } = spec;
  const angles = limpetAngles(spec);
  const meant: Positions['meant'] = (x, y) => {
    const name = named(words, x, y);
    if (name >= 0) return name;
    return Math.hypot(x - cx, y - cy) < BODY * r ? null : nearest(angles, compass(x - cx, y - cy));
  };
  return { names: words.map(fingerwide), points: words.map(middle), meant };
}

function ofPins(control: Control, spot: Spot): Positions {
  const spec = pinsAt(control, spot);
  const cells = pinCells(spec);
  const meant: Positions['meant'] = (x, y) => {
    const cell = cells.findIndex((c) => inside(c, x, y));
    return cell < 0 ? null : cell;
  };
  return { names: cells.map(fingerwide), points: pinHoles(spec), meant };
}

/** The positions of a control at its spot; null when none are printed. */
export function positionsOf(control: Control, spot: Spot): Positions | null {
  const face = spot.as ?? control.face;
  const { kind } = control.range;
  if (face === 'tiller' && (kind === 'words' || kind === 'switch')) return ofLever(control, spot);
  if (face === 'pins') return ofPins(control, spot);
  return face === 'limpet' && kind === 'words' ? ofKnob(control, spot) : null;
}
