/** Feed: from the battery along the bus to a breaker a load. */
import { words } from '../kit/ops.ts';
import { live, scenery } from '../tiles.ts';
import type { BoxLayout, Spot } from './layout.ts';
import { powerBar } from './tracks.ts';

const BUS = 384;
const breaker = (x: number, label: string): Spot => ({ x, y: BUS, s: 28, label, drop: 36, over: true });
const lever = { y: BUS + 6, s: 46, drop: 30, over: true };

export const feed: BoxLayout = {
  slab: { x: 30, y: 142, w: 906, h: 300, hooks: [109, 797] },
  brow: (s) => `${Number(s.see('feed.volts')).toFixed(1)} V`,
  controls: {
    isolator: { x: 104, label: 'Battery isolator', ...lever },
    engine: { x: 238, label: 'Engine', ...lever },
    vent: breaker(348, 'Vent fan'),
    master: { x: 470, label: 'Master', ...lever },
    inverter: breaker(600, 'Inverter'),
    sender: breaker(688, 'Sender'),
    receiver: breaker(776, 'Receiver'),
    terminal: breaker(864, 'Terminal'),
    fuseA: { x: 716, y: 220, s: 64, as: 'fuse', label: 'Fuse A' },
    fuseB: { x: 832, y: 220, s: 64, as: 'fuse', label: 'Fuse B' },
  },
  indicators: {
    volts: { x: 56, y: 184, s: 104, label: 'Bus', more: { numbers: [0, 16, 32], step: 1, long: 4 } },
    amps: { x: 190, y: 184, s: 104, label: 'Battery', drop: 18, more: { numbers: [-100, 0, 100], step: 10, long: 5 } },
    charge: { x: 348, y: 212, s: 11, label: 'Alternator' },
    gas: { x: 438, y: 212, s: 11, label: 'Exhaust gas' },
    tripped: { x: 504, y: 206, s: 140, h: 28, label: 'Tripped' },
    fuses: { x: 0, y: 0, s: 0, as: 'none' },
  },
  under: [
    powerBar(
      'feed/bank',
      [
        [
          [32, BUS],
          [470, BUS],
        ],
      ],
      [[32, BUS]],
      (s) => Number(s.see('feed.volts')) > 1,
    ),
    powerBar(
      'feed/bus',
      [
        [
          [470, BUS],
          [934, BUS],
        ],
      ],
      [[935, BUS]],
      (s) => s.standing('feed.master') === true && Number(s.see('feed.volts')) > 1,
    ),
  ],
  extra: [
    scenery('feed/sides', [words('− discharge, + charge', 242, 322, { anchor: 'middle', fill: 'ink2' })]),
    live(
      'feed/spares',
      { left: 700, top: 160, right: 860, bottom: 198 },
      (s) => /(\d+) spare/.exec(String(s.see('feed.fuses')))?.[1] ?? '0',
      (n) => [words(`Inverter fuses, ${n} spare`, 774, 192, { anchor: 'middle', fill: 'ink2' })],
    ),
  ],
};
