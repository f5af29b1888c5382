/** Aerial: what is done outside, beside the view of it. */
import type { BoxLayout, Spot } from './layout.ts';
import { signalTrack } from './tracks.ts';

const WHIP = 376;
const GROUND = 560;
const lever = (x: number, y: number, label: string): Spot => ({ x, y: y + 4, s: 54, label, drop: 44, over: true });
const knob = (x: number, y: number, label: string): Spot => ({ x, y, s: 28, label, drop: 50, value: 18, over: true });
const run = (y: number) => ({
  lines: [
    [
      [368, y],
      [934, y],
    ],
  ] as const,
  ends: [
    [368, y],
    [935, y],
  ] as const,
});

export const aerial: BoxLayout = {
  slab: { x: 366, y: 142, w: 570, h: 526, hooks: [80, 490] },
  brow: (s) => `whip ${s.see('aerial.height')} m`,
  controls: {
    look: { x: 452, y: 226, s: 42, label: 'Look up and round', drop: 44 },
    sections: { ...knob(452, WHIP, 'Whip sections'), more: { marks: 5 } },
    guard: lever(640, WHIP, 'Insulator guard'),
    earth: lever(824, WHIP, 'Earth spike'),
    counterpoise: { ...knob(452, GROUND, 'Counterpoise wires'), more: { marks: 5 } },
    second: lever(640, GROUND, 'Second whip'),
    spacing: knob(824, GROUND, 'Distance of second'),
  },
  indicators: {
    overhead: { x: 556, y: 216, s: 116, h: 28 },
    exhaust: { x: 696, y: 216, s: 116, h: 28 },
    foot: { x: 874, y: 222, s: 13, label: 'Foot live', drop: 46 },
    height: { x: 0, y: 0, s: 0, as: 'none' },
  },
  under: [
    signalTrack('aerial/whip', run(WHIP), (s) => s.wires.radiated_W > 0),
    signalTrack('aerial/ground', run(GROUND), (s) => s.wires.radiated_W > 0 && s.standing('aerial.second') === true),
  ],
};
