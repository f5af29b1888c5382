/** Line box: the lever, the patching of the loop, its current. */
import { cord } from '../faces/jack.ts';
import { facePiece } from '../tiles.ts';
import type { BoxLayout } from './layout.ts';

const JACKS = { y: 312, r: 11 };
const HUB: [number, number] = [1112, 292];
const jack = (x: number, label: string) => ({ x, y: JACKS.y, s: JACKS.r, label });
const cordTo = (id: string, x: number) =>
  facePiece(`line.${id}/cord`, cord, { a: [x, JACKS.y], b: [x - 11, JACKS.y - 14], r: 8, slack: 2.2 }, (s) =>
    s.standing(`line.${id}`) === true ? (s.wires.loop_mA >= 12 ? 'live' : 'patched') : 'out',
  );

export const line: BoxLayout = {
  slab: { x: 1034, y: 140, w: 222, h: 194, hooks: [30, 192], clip: 'right' },
  brow: (s) => `${Math.round(Number(s.see('line.meter')))} mA`,
  controls: {
    lever: { x: HUB[0], y: HUB[1], s: 46, label: '', more: {} },
    keys: jack(1180, 'keys'),
    tape: jack(1212, 'tape'),
    far: jack(1243, 'far'),
  },
  indicators: {
    meter: { x: 1174, y: 178, s: 72, label: 'Loop', drop: 86, more: { numbers: [], step: 2, long: 5 } },
    lamp: { x: 1056, y: 190, s: 7, label: 'holds', drop: 24 },
  },
  extra: [cordTo('keys', 1180), cordTo('tape', 1212), cordTo('far', 1243)],
};
