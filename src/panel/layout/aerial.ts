/** Aerial: what is done outside, beside the view of it. */
import type { BoxLayout, Spot } from './layout.ts';

const lever = (x: number, y: number, label: string): Spot => ({ x, y, s: 52, label, drop: 36 });
const knob = (x: number, y: number, label: string): Spot => ({ x, y, s: 27, label, drop: 56, value: 17 });

export const aerial: BoxLayout = {
  slab: { x: 366, y: 142, w: 570, h: 526, hooks: [80, 490] },
  brow: (s) => `${s.see('aerial.height')} m`,
  controls: {
    look: { x: 424, y: 226, s: 40, label: 'Look up and round', drop: 40 },
    sections: { ...knob(446, 352, 'Whip sections'), more: { marks: 5 } },
    guard: lever(640, 366, 'Insulator guard'),
    earth: lever(824, 366, 'Earth spike'),
    counterpoise: { ...knob(446, 496, 'Counterpoise wires'), more: { marks: 5 } },
    second: lever(640, 510, 'Second whip'),
    spacing: knob(824, 496, 'Distance of second'),
  },
  indicators: {
    overhead: { x: 524, y: 214, s: 124, h: 28 },
    exhaust: { x: 664, y: 214, s: 124, h: 28 },
    foot: { x: 862, y: 222, s: 13, label: 'Foot live' },
    height: { x: 390, y: 606, s: 110, h: 28, label: 'Whip height' },
  },
};
