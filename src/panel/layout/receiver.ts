/** Receiver: the scale above, the row of controls in the order in which the signal meets them. */
import { limpetPair } from '../faces/limpet.ts';
import { readout } from '../faces/window.ts';
import { words } from '../kit/ops.ts';
import { facePiece, live } from '../tiles.ts';
import type { BoxLayout, Spot } from './layout.ts';
import { signalTrack } from './tracks.ts';

const ROW = 288;
const NAME = 37;
const knob = (x: number, label: string): Spot => ({ x, y: ROW, s: 21, label, drop: NAME, value: 17, over: true });
const switched = (x: number, label: string): Spot => ({ x, y: ROW + 3, s: 24, label, drop: NAME - 3, over: true });
const PAIR = { x: 562, y: 213, r: 34 };

export const receiver: BoxLayout = {
  slab: { x: 30, y: 142, w: 906, h: 208, hooks: [109, 797] },
  // Lit figures: dark with the rest. The rim below stands where it stands.
  brow: (s) => (s.see('receiver.lamp') === true ? `${kHz(Number(s.see('receiver.scale')))} kHz` : ''),
  controls: {
    power: switched(62, 'Power'),
    band: { x: 76, y: 212, s: 23, label: '', more: { ring: true, size: 0, from: -150, to: 150 } },
    dial: { x: PAIR.x, y: PAIR.y, s: PAIR.r, as: 'none', hit: around(PAIR.x, PAIR.y, 44) },
    fine: { x: PAIR.x, y: PAIR.y, s: 17, as: 'none', hit: around(PAIR.x, PAIR.y, 18) },
    index: { x: 712, y: 211, s: 21, label: '', more: { marks: 11 } },
    trim: knob(142, 'Aerial trim'),
    rfGain: knob(224, 'RF gain'),
    bandwidth: { ...knob(306, 'Bandwidth'), more: { size: 0 } },
    limiter: switched(384, 'Limiter'),
    agc: { x: 456, y: ROW + 8, s: 38, label: 'AGC', drop: NAME - 8, value: 17, over: true, more: { size: 0 } },
    calibrator: switched(534, 'Calibrator'),
    bfo: switched(602, 'BFO'),
    pitch: knob(676, 'BFO pitch'),
    afGain: knob(762, 'AF gain'),
  },
  indicators: {
    scale: { x: 174, y: 184, s: 330, h: 46, label: '', more: { bow: 27, span: 34 } },
    level: { x: 816, y: 178, s: 108, label: 'Level', drop: 26, more: { numbers: [0, 50, 100], step: 5, long: 4 } },
    note: { x: 0, y: 0, s: 0, as: 'none' },
    lamp: { x: 128, y: 156, s: 6, label: '' },
  },
  under: [
    signalTrack(
      'receiver/track',
      {
        lines: [
          [
            [32, ROW],
            [826, ROW],
          ],
        ],
        ends: [
          [32, ROW],
          [828, ROW],
        ],
      },
      (s) => s.see('receiver.lamp') === true && !s.wires.rx.quiet && !s.wires.rx.deaf,
    ),
  ],
  extra: [
    live(
      'receiver.band/value',
      { left: 114, top: 208, right: 164, bottom: 226 },
      (s) => Number(s.standing('receiver.band')),
      (low) => [words(`${low}–${low + 2}`, 116, 221, { mono: true, fill: 'ink2' })],
    ),
    // What the ring under the scale begins and ends with.
    live(
      'receiver.band/ends',
      { left: 146, top: 240, right: 536, bottom: 262 },
      (s) => Number(s.standing('receiver.band')),
      (low) => [
        words(`${low}`, 172, 258, { anchor: 'end', fill: 'ink2' }),
        words(`${low + 2}`, 506, 258, { fill: 'ink2' }),
      ],
    ),
    live(
      'receiver.index/value',
      { left: 744, top: 214, right: 812, bottom: 232 },
      (s) => Number(s.standing('receiver.index')).toFixed(2).replace('-', '−'),
      (text) => [words(text, 746, 228, { mono: true, fill: 'ink2' })],
    ),
    facePiece('receiver.dial', limpetPair, PAIR, (s) => ({
      coarse: Number(s.standing('receiver.dial')) * 3.6,
      fine: Number(s.standing('receiver.fine')) * 180,
    })),
    live(
      'receiver/kHz',
      { left: 108, top: 172, right: 210, bottom: 242 },
      () => null,
      () => [],
      [
        words('kHz', 176, 192, { fill: 'ink2' }),
        words('Band', 116, 203, { bold: true }),
        words('MHz', 116, 238, { fill: 'ink2' }),
        words('Dial,', 610, 210, { bold: true }),
        words('fine', 610, 228, { bold: true }),
        words('Index', 746, 210, { bold: true }),
      ],
    ),
    facePiece('receiver.note', readout, { x: 256, y: 147, w: 330, h: 18, anchor: 'start' }, (s) => {
      const note = s.see('receiver.note');
      return note === null ? '' : `beat note ${note} Hz`;
    }),
  ],
};

function kHz(v: number): string {
  const [whole = '', part = ''] = v.toFixed(2).split('.');
  return `${whole.length > 3 ? `${whole.slice(0, -3)} ` : ''}${whole.slice(-3)}.${part}`;
}

function around(x: number, y: number, r: number) {
  return { left: x - r, top: y - r, right: x + r, bottom: y + r };
}
