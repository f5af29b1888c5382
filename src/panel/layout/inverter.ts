/** Inverter pair: the lever chooses, the start runs it up, the reeds tell. */
import type { BoxLayout } from './layout.ts';
import { powerBar } from './tracks.ts';

const BAR = 596;

export const inverter: BoxLayout = {
  slab: { x: 30, y: 474, w: 560, h: 194, hooks: [80, 480] },
  brow: (s) => `${Math.round(Number(s.see('inverter.volts')))} V`,
  controls: {
    lever: { x: 118, y: BAR + 4, s: 58, label: 'Inverter', drop: 40, over: true },
    start: { x: 232, y: BAR, s: 36, drop: 44, over: true },
  },
  indicators: {
    volts: { x: 292, y: 516, s: 112, label: 'Mains', more: { numbers: [0, 130, 260], step: 13 } },
    hertz: { x: 430, y: 520, s: 138, h: 62, label: 'Hertz' },
    lamp: { x: 452, y: 626, s: 9 },
    warm: { x: 534, y: 626, s: 9 },
  },
  under: [
    powerBar(
      'inverter/bar',
      [
        [
          [32, BAR],
          [296, BAR],
        ],
      ],
      [[32, BAR]],
      (s) => s.standing('feed.inverter') === true && Number(s.see('feed.volts')) > 1,
    ),
  ],
};
