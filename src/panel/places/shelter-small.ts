/** How controls and readings look in the whole view, where every box is small. */
import type { Sight } from '../host.ts';
import { textWidth } from '../kit/metrics.ts';
import { slabOps, slabValue } from '../props/slab.ts';
import { live, type Piece, scenery } from '../tiles.ts';

/** Whether a switch or push stands at its second place. */
export const on = (name: string) => (s: Sight) => s.standing(name) === true;
/** A lamp: dark, lit, or, where it means that something radiates, hot. */
export const lit =
  (name: string, hot = false) =>
  (s: Sight) => ({
    state: s.see(name) === true ? ((hot ? 'radiating' : 'lit') as 'lit') : ('dark' as const),
  });
/** A reading in whole steps, so that less than a step inks nothing. */
export const num =
  (name: string, step = 0.5) =>
  (s: Sight) =>
    Math.round(Number(s.see(name) ?? 0) / step) * step;
/** How far a knob is turned between two ends, 0 to 1. */
export const share = (name: string, min: number, max: number) => (s: Sight) =>
  (Number(s.standing(name)) - min) / (max - min);
/** Which of its words a control stands at. */
export const wordAt = (name: string, words: readonly string[]) => (s: Sight) =>
  Math.max(0, words.indexOf(String(s.standing(name))));

/** A box's slab with its name, and a word of its value on the brow. */
export function slab(
  id: string,
  spec: { x: number; y: number; w: number; h: number; name: string; brow?: number; hooks?: number[]; clip?: 'right' },
  value: (s: Sight) => string,
): Piece[] {
  const from = spec.x + 14 + textWidth(spec.name, 16);
  return [
    scenery(id, slabOps({ brow: 24, ...spec })),
    live(
      `${id}/brow`,
      { left: from, top: spec.y + 3, right: spec.x + spec.w - 3, bottom: spec.y + 23 },
      value,
      (text) => slabValue({ brow: 24, ...spec }, text),
    ),
  ];
}
