/** Keyer and terminal unit: the leaves, shift and sense, the loop's supply. */
import { words } from '../kit/ops.ts';
import { scenery } from '../tiles.ts';
import type { BoxLayout } from './layout.ts';

export const keyer: BoxLayout = {
  slab: { x: 736, y: 140, w: 292, h: 194, name: 'Keyer and unit', hooks: [36, 256] },
  brow: (s) => {
    const percent = s.see('keyer.dist');
    return percent === null ? '' : `distortion ${percent} %`;
  },
  controls: {
    power: { x: 872, y: 298, s: 22, label: 'Power', drop: 26, more: { words: undefined } },
    shift: { x: 926, y: 214, s: 16, label: '', more: { ring: true, from: -62, to: 62 } },
    loop: { x: 1000, y: 200, s: 13, label: 'Loop', drop: 34, value: 16, more: { marks: 9 } },
    sense: { x: 930, y: 305, s: 25, label: 'Mark is', drop: 19 },
    hold: { x: 1000, y: 298, s: 22, label: 'Hold', drop: 26, more: { words: undefined } },
  },
  indicators: {
    blades: { x: 748, y: 178, s: 86, h: 114 },
    lock: { x: 854, y: 191, s: 7, label: 'tone', drop: 25 },
    lamp: { x: 872, y: 258, s: 5, label: '' },
    dist: { x: 0, y: 0, s: 0, as: 'none' },
  },
  extra: [
    scenery('keyer/names', [
      words('Shift, Hz', 926, 250, { bold: true, anchor: 'middle' }),
      words('mark', 769, 311, { bold: true, anchor: 'middle' }),
      words('space', 812, 311, { bold: true, anchor: 'middle' }),
    ]),
  ],
};
