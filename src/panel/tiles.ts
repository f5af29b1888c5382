/** Pieces of a place: what never moves is printed on the sheet, what does has a tile of its own. */

import type { Sight } from './host.ts';
import { type Box, grow, inkBox, join } from './kit/bounds.ts';
import type { Face } from './kit/face.ts';
import type { Op } from './kit/ops.ts';
import type { Motion } from './motion.ts';

/** One drawn thing. */
export interface Piece<V = unknown> {
  readonly id: string;
  /** Printed once. */
  readonly fixed: readonly Op[];
  /** Bounds of the live ink in sheet units; null for scenery. */
  readonly box: Box | null;
  /** What it shows now, as plain data; equal data is not inked again. */
  look(sight: Sight): V;
  ink(value: V): Op[];
  /** How it comes to a new value; without, at once. */
  readonly motion?: Motion<V>;
}

/** Scenery. */
export const scenery = (id: string, fixed: readonly Op[]): Piece<null> => ({
  id,
  fixed,
  box: null,
  look: () => null,
  ink: () => [],
});

/** Ops that depend on what is seen, within fixed bounds. */
export const live = <V>(
  id: string,
  box: Box,
  look: (s: Sight) => V,
  ink: (v: V) => Op[],
  fixed: Op[] = [],
): Piece<V> => ({
  id,
  fixed,
  box,
  look,
  ink,
});

/** A face in its place. */
export function facePiece<S, V>(
  id: string,
  face: Face<S, V>,
  spec: S,
  look: (s: Sight) => V,
  more: { motion?: Motion<V>; over?: boolean } = {},
): Piece<V> {
  const fixed = face.staticOps(spec);
  const box = face.tileBox(spec);
  const motion = more.motion ? { motion: more.motion } : {};
  // On a track, which is live itself, what never moves is inked with the tile so that the track stays beneath it.
  if (more.over && fixed.length > 0)
    return {
      id,
      fixed: [],
      box: join(box, grow(inkBox(fixed), 1)),
      look,
      ink: (v) => [...fixed, ...face.liveOps(spec, v)],
      ...motion,
    };
  return { id, fixed, box, look, ink: (v) => face.liveOps(spec, v), ...motion };
}
