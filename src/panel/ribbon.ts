/** The ribbon along the top: ten links with the wave at each, the lit part as far as the signal gets. */
import { type RibbonSpec, ribbon, type Wave, windowBox } from './faces/ribbon.ts';
import type { PanelHost, Sight } from './host.ts';
import type { Op } from './kit/ops.ts';
import { LINKS, markAt, type Reach, reachOf } from './reach.ts';
import { live, type Piece } from './tiles.ts';

export const RIBBON: RibbonSpec = { x: 24, y: 10, w: 1232, names: [...LINKS] };

/** What is drawn: the reach and a wave a lit link. */
export type RibbonView = { reach: Reach; waves: Wave[] };

const POINTS = 60;
const LAST_US = 300_000;

/** The loop over the last 0.3 s, as a pulse train. */
function pulses(edges: Parameters<typeof markAt>[0], now_us: number): number[] {
  return Array.from({ length: POINTS }, (_, i) =>
    markAt(edges, now_us - LAST_US + (LAST_US * i) / (POINTS - 1)) ? 0.8 : -0.8,
  );
}

/** A carrier shifted by the loop, far slower than it is, so that the eye can see two tones. */
function shifted(edges: Parameters<typeof markAt>[0], now_us: number, slow: number, size: number): number[] {
  let phase = 0;
  return pulses(edges, now_us).flatMap((v) =>
    [0, 1, 2].map(() => {
      phase += v > 0 ? slow : slow * 1.8;
      return size * Math.sin(phase);
    }),
  );
}

function wave(i: number, sight: Sight): Wave {
  const { wires: w, now_us } = sight;
  switch (i) {
    case 0:
      return { kind: 'holes', codes: w.read.codes.slice(-4), now: Math.min(3, w.read.codes.length - 1) };
    case 1:
      return { kind: 'trace', samples: pulses(w.loop, now_us) };
    case 2:
      return { kind: 'trace', samples: shifted(w.keyed, now_us, 0.5, 0.75) };
    case 3:
      return { kind: 'trace', samples: shifted(w.keyed, now_us, 0.9, 1) };
    case 4:
      return { kind: 'field', phase: 0.2 };
    case 5:
      return { kind: 'bars', heights: [0.95, 0.9, 0.82, 0.74, 0.66, 0.6] };
    case 6:
      return { kind: 'trace', samples: shifted(w.decided, now_us, 0.7, 0.3) };
    case 7:
      return { kind: 'trace', samples: shifted(w.decided, now_us, 0.7, 0.6) };
    case 8:
      return { kind: 'trace', samples: pulses(w.decided, now_us) };
    default: {
      const last = w.read.codes.at(-1);
      return last === undefined ? { kind: 'idle' } : { kind: 'holes', codes: [last], now: 0 };
    }
  }
}

/** What the ribbon shows now. */
export function ribbonView(sight: Sight, manner: PanelHost['manner']): RibbonView {
  const reach = reachOf(sight, manner);
  const isHidden = (i: number) => reach.hidden !== null && i >= reach.hidden[0] && i <= reach.hidden[1];
  return { reach, waves: LINKS.map((_, i) => (i < reach.lit && !isHidden(i) ? wave(i, sight) : { kind: 'idle' })) };
}

function inked({ reach, waves }: RibbonView): Op[] {
  const { hidden, lit, from, to } = reach;
  const names = LINKS.map((n, i) => (hidden && i >= hidden[0] && i <= hidden[1] ? '' : n));
  return ribbon.liveOps({ ...RIBBON, names }, { from, to, lit, waves });
}

/** The ribbon as a piece. */
export const ribbonPiece = (manner: PanelHost['manner']): Piece =>
  live('ribbon', ribbon.tileBox(RIBBON), (s) => ribbonView(s, manner), inked);

/** Where a link's window and name are, for what looks inside it. */
export function linkBox(i: number): { left: number; top: number; right: number; bottom: number } {
  const { x, y, w } = windowBox(RIBBON, i);
  return { left: x - 12, top: y - 4, right: x + w + 12, bottom: y + 56 };
}

/** The ribbon in words. */
export function ribbonWords({ reach }: RibbonView): string {
  if (reach.lit === 0) return 'No signal.';
  const last = LINKS[reach.lit - 1]!;
  return `Signal from ${reach.from} gets as far as ${last}, link ${reach.lit} of ${LINKS.length}.`;
}
