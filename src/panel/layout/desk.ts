/** Desk: clock, cards, log. The papers themselves are DOM tables laid on it (places/papers.ts). */
import { clock } from '../faces/clock.ts';
import { facePiece } from '../tiles.ts';
import type { BoxLayout } from './layout.ts';

/** Seconds of the day of `HH MM SS`. */
export function seconds(utc: unknown): number {
  const [h = 0, m = 0, s = 0] = String(utc).split(' ').map(Number);
  return h * 3600 + m * 60 + s;
}

export const desk: BoxLayout = {
  controls: {
    order: { x: 164, y: 132, s: 0, as: 'none', hit: { left: 164, top: 132, right: 424, bottom: 372 } },
    cards: { x: 92, y: 342, s: 40, label: 'Cards', drop: 28 },
    sign: { x: 500, y: 400, s: 28, label: 'sign', more: { side: 'right' } },
    handover: { x: 584, y: 400, s: 28, label: 'hand over', more: { side: 'right' } },
  },
  indicators: {
    signed: { x: 464, y: 400, s: 7, label: '' },
    utc: { x: 0, y: 0, s: 0, as: 'none' },
    logLines: { x: 0, y: 0, s: 0, as: 'none' },
    cardsState: { x: 0, y: 0, s: 0, as: 'none' },
    orderText: { x: 0, y: 0, s: 0, as: 'none' },
  },
  extra: [facePiece('desk.utc', clock, { x: 92, y: 182, r: 42 }, (s) => seconds(s.see('desk.utc')))],
};
