/** Line box: the lever, the patching of the loop, its current. */
import { LINE, type Op, solid, line as stroke, words } from '../kit/ops.ts';
import { rrect, seg } from '../kit/path.ts';
import { live, type Piece, scenery } from '../tiles.ts';
import type { BoxLayout, Spot } from './layout.ts';

const JACK = { y: 294, r: 11 };
const FOOT = 333;
const jack = (x: number, label: string): Spot => ({
  x,
  y: JACK.y,
  s: JACK.r,
  label,
  hit: { left: x - 16, top: JACK.y - 26, right: x + 16, bottom: FOOT },
});

/** A cord comes up through the foot of the box: its plug is in the jack, or lies before it. */
function cordOps(x: number, state: 'in' | 'live' | 'out'): Op[] {
  const top = state === 'out' ? JACK.y + 20 : JACK.y - 9;
  const plug = rrect(x - 4.5, top, 9, 18, 2.5);
  return [
    stroke(seg(x, top + 16, x, FOOT), 6.6, 'ink', { cap: 'butt' }),
    stroke(seg(x, top + 16, x, FOOT), 3.4, state === 'live' ? 'sea' : 'sheet', { cap: 'butt' }),
    solid(plug, 'ink'),
    stroke(seg(x - 2, top + 4, x + 2, top + 4), LINE, 'onCut', { cap: 'butt' }),
  ];
}

const cordTo = (id: string, x: number): Piece =>
  live(
    `line.${id}/cord`,
    { left: x - 8, top: JACK.y - 12, right: x + 8, bottom: FOOT + 1 },
    (s) =>
      (s.standing(`line.${id}`) === true ? (s.wires.loop_mA >= 12 ? 'live' : 'in') : 'out') as 'in' | 'live' | 'out',
    (state) => cordOps(x, state),
  );

export const line: BoxLayout = {
  slab: { x: 1042, y: 140, w: 214, h: 194, hooks: [30, 184], clip: 'left' },
  brow: (s) => `${Math.round(Number(s.see('line.meter')))} mA`,
  controls: {
    lever: { x: 1111, y: 298, s: 44, label: '', hit: { left: 1062, top: 228, right: 1154, bottom: 318 } },
    keys: jack(1173, 'keys'),
    tape: jack(1207, 'tape'),
    far: jack(1240, 'far'),
  },
  indicators: {
    meter: { x: 1182, y: 173, s: 66, label: '', more: { numbers: [0, 40], step: 2, long: 5 } },
    lamp: { x: 1066, y: 188, s: 7, label: 'holds', drop: 24 },
  },
  extra: [
    cordTo('keys', 1173),
    cordTo('tape', 1207),
    cordTo('far', 1240),
    scenery('line/names', [words('Loop', 1182, 190, { bold: true, anchor: 'end' })]),
  ],
};
