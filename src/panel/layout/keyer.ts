/** Keyer and terminal unit: the leaves, shift and sense, the loop's supply. */
import { words } from '../kit/ops.ts';
import { scenery } from '../tiles.ts';
import type { BoxLayout } from './layout.ts';

export const keyer: BoxLayout = {
  slab: { x: 736, y: 140, w: 284, h: 194, name: 'Keyer, terminal unit', hooks: [36, 246] },
  brow: (s) => `${s.see('keyer.dist') ?? '–'} %`,
  controls: {
    power: { x: 862, y: 212, s: 22, label: 'Power', drop: 26 },
    shift: { x: 926, y: 216, s: 17, label: '', more: { ring: true, from: -75, to: 75 } },
    hold: { x: 992, y: 212, s: 22, label: 'Hold', drop: 26 },
    sense: { x: 882, y: 302, s: 30, label: 'Mark is', drop: 22 },
    loop: { x: 950, y: 286, s: 16, label: 'Loop', drop: 36, more: { marks: 9 } },
  },
  indicators: {
    blades: { x: 748, y: 178, s: 84, h: 116, more: { names: ['mark', 'space'] } },
    lock: { x: 1000, y: 288, s: 8, label: 'Tone', drop: 34 },
    lamp: { x: 838, y: 188, s: 5, label: '' },
    dist: { x: 0, y: 0, s: 0, as: 'none' },
  },
  extra: [scenery('keyer/shift', [words('Shift, Hz', 926, 254, { bold: true, anchor: 'middle' })])],
};
