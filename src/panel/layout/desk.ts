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
    order: { x: 164, y: 132, s: 0, as: 'none', hit: { left: 164, top: 132, right: 384, bottom: 372 } },
    cards: { x: 84, y: 336, s: 34, label: 'Cards', drop: 28 },
    sign: { x: 0, y: 0, s: 0, as: 'none', text: 'Sign the log', hit: { left: 438, top: 388, right: 554, bottom: 420 } },
    handover: {
      x: 0,
      y: 0,
      s: 0,
      as: 'none',
      text: 'Hand over',
      hit: { left: 562, top: 388, right: 680, bottom: 420 },
    },
  },
  indicators: {
    signed: { x: 0, y: 0, s: 0, as: 'none' },
    utc: { x: 0, y: 0, s: 0, as: 'none' },
    logLines: { x: 0, y: 0, s: 0, as: 'none' },
    cardsState: { x: 0, y: 0, s: 0, as: 'none' },
    orderText: { x: 0, y: 0, s: 0, as: 'none' },
  },
  extra: [facePiece('desk.utc', clock, { x: 92, y: 182, r: 42 }, (s) => seconds(s.see('desk.utc')))],
};
