/** Cover adaptor: plain or cover, which key tape, from which group. */
import type { BoxLayout } from './layout.ts';

export const cover: BoxLayout = {
  slab: { x: 736, y: 567, w: 520, h: 103, name: 'Cover adaptor', hooks: [], clip: 'right' },
  brow: (s) => `group ${s.standing('cover.group')}   place ${s.see('cover.step')}`,
  controls: {
    cover: { x: 806, y: 654, s: 32, label: '', more: {} },
    tapeNo: { x: 944, y: 628, s: 14, label: 'Key tape', drop: 32, more: { from: -90, to: 90 } },
    group: { x: 1034, y: 624, s: 15, label: 'Start group', drop: 36, more: { marks: 0 } },
    set: { x: 1116, y: 624, s: 30, label: 'Set', drop: 36 },
  },
  indicators: {
    step: { x: 0, y: 0, s: 0, as: 'none' },
    lamp: { x: 1188, y: 624, s: 9, label: 'Covering', drop: 36 },
  },
};
