/** The ribbon along the top: ten links with the wave at each, the lit part as far as the signal gets. */

import { LINKS } from '../core/drill.ts';
import { type RibbonSpec, ribbon, type Wave, windowBox } from './faces/ribbon.ts';
import type { PanelHost, Sight } from './host.ts';
import type { Op } from './kit/ops.ts';
import { type Reach, reachOf, stretchOf } from './reach.ts';
import { live, type Piece } from './tiles.ts';
import { Waves } from './waves.ts';

export const RIBBON: RibbonSpec = { x: 24, y: 10, w: 1232, names: [...LINKS] };

/** What is drawn: the reach and a wave a lit link. */
type RibbonView = { reach: Reach; waves: Wave[] };

function inked({ reach, waves }: RibbonView): Op[] {
  const { hidden, lit, from, to } = reach;
  const names = LINKS.map((n, i) => (hidden && i >= hidden[0] && i <= hidden[1] ? '' : n));
  return ribbon.liveOps({ ...RIBBON, names }, { from, to, lit, waves });
}

/** The ribbon as a piece. */
export function ribbonPiece(manner: PanelHost['manner']): Piece {
  const waves = new Waves();
  const look = (sight: Sight): RibbonView => {
    const reach = reachOf(sight, manner);
    return { reach, waves: waves.of(sight, reach) };
  };
  return live('ribbon', ribbon.tileBox(RIBBON), look, inked);
}

/** Where a link's window and name are, for what looks inside it. */
export function linkBox(i: number): { left: number; top: number; right: number; bottom: number } {
  const { x, y, w } = windowBox(RIBBON, i);
  return { left: x - 12, top: y - 4, right: x + w + 12, bottom: y + 56 };
}

/** The ribbon in words. */
export function ribbonWords(reach: Reach): string {
  const on = stretchOf(reach);
  if (!on) return 'No signal.';
  const [first, last] = on;
  const begins = first === 0 ? '' : ` begins at ${LINKS[first]} and`;
  return `Signal from ${reach.from}${begins} gets as far as ${LINKS[last]}, link ${last + 1} of ${LINKS.length}.`;
}
