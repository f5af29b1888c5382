/** Sender: what is sent above, how it reaches the whip along the track. */
import { type FilterValue, filter } from '../faces/filter.ts';
import { words } from '../kit/ops.ts';
import { facePiece, live } from '../tiles.ts';
import type { BoxLayout, Spot } from './layout.ts';
import { signalTrack } from './tracks.ts';

const ROW = 596;
const NAME = 46;
const FILTER = { x: 713, y: 572, w: 62, h: 46 };
const lever = (x: number, label: string, s = 48): Spot => ({ x, y: ROW + 2, s, label, drop: NAME - 2, over: true });
const push = (y: number, label: string): Spot => ({ x: 466, y, s: 28, label, more: { side: 'right' } });

export const sender: BoxLayout = {
  slab: { x: 30, y: 390, w: 906, h: 278, hooks: [109, 797] },
  brow: (s) => `${watts(s.see('sender.out'))} W out   ${watts(s.see('sender.back'))} W back`,
  controls: {
    frequency: { x: 52, y: 452, s: 27, h: 50, label: 'Frequency' },
    setting: { x: 318, y: 440, s: 21.5, h: 33, label: 'Stored setting', drop: -7 },
    keep: push(470, 'keep'),
    seek: push(512, 'seek'),
    emission: { x: 592, y: 488, s: 21, label: 'Emission', drop: -55, more: { ring: true, from: -100, to: 92 } },
    readiness: lever(110, 'Readiness', 50),
    power: lever(268, 'Power'),
    loading: { x: 346, y: ROW, s: 26, label: 'Loading', drop: NAME, value: 17, over: true },
    side: { x: 428, y: ROW + 4, s: 34, label: 'Side', drop: NAME - 4, over: true },
    coil: { x: 508, y: ROW, s: 26, label: 'Whip coil', drop: NAME, value: 17, over: true },
    cage: { x: 588, y: ROW, s: 22, as: 'none', hit: { left: 564, top: 546, right: 612, bottom: 578 } },
    carrier: {
      x: 588,
      y: ROW,
      s: 21,
      label: 'Test carrier',
      drop: NAME,
      over: true,
      hit: { left: 564, top: 578, right: 612, bottom: 628 },
    },
    filter: { x: FILTER.x, y: FILTER.y, s: FILTER.w, as: 'none', hit: box(FILTER.x, FILTER.y, FILTER.w, FILTER.h) },
    clean: { x: 798, y: 610, s: 26, label: 'clean', more: { side: 'right' } },
    fan: { x: 798, y: 576, s: 20, label: 'fan', more: { side: 'right', words: undefined } },
    meter: { x: 884, y: 649, s: 10, label: '', more: { from: -55, to: 55 } },
  },
  indicators: {
    out: { x: 708, y: 428, s: 96, label: 'Power out', drop: 19, more: { numbers: [0, 75, 150], step: 7.5, long: 10 } },
    back: {
      x: 822,
      y: 428,
      s: 96,
      label: 'Power back',
      drop: 18,
      more: { numbers: [0, 25, 50], step: 2.5, long: 10 },
    },
    small: { x: 860, y: 552, s: 72, label: '' },
    ready: { x: 128, y: 404, s: 6, label: '' },
    motors: { x: 196, y: 404, s: 6, label: '' },
    trip: { x: 294, y: 404, s: 6, label: '' },
    radiating: { x: 667, y: ROW, s: 10, label: 'Radiating', drop: NAME, over: true },
    kHz: { x: 184, y: 423, s: 110, h: 22, label: '' },
    filterState: { x: 713, y: 632, s: 104, h: 24, label: '' },
    seeking: { x: 440, y: 528, s: 96, h: 22, label: '', more: { frame: false } },
  },
  under: [
    signalTrack(
      'sender/track',
      {
        lines: [
          [
            [32, ROW],
            [704, ROW],
            [704, 662],
            [934, 662],
          ],
        ],
        ends: [
          [32, ROW],
          [935, 662],
        ],
      },
      (s) => s.wires.radiated_W > 0,
    ),
  ],
  extra: [
    live(
      'sender/lampWords',
      { left: 100, top: 392, right: 380, bottom: 416 },
      (s) => ['ready', 'motors', 'trip'].map((id) => s.see(`sender.${id}`) === true),
      (on) =>
        ['hot', 'motors', 'tripped'].map((text, i) =>
          words(text, [146, 214, 312][i]!, 409, { bold: on[i] ?? false, fill: on[i] ? 'ink' : 'ink2' }),
        ),
    ),
    live(
      'sender/tuned',
      { left: 136, top: 424, right: 182, bottom: 444 },
      () => null,
      () => [],
      [words('tuned', 142, 438, { fill: 'ink2' })],
    ),
    live(
      'sender/cageWord',
      { left: 546, top: 528, right: 630, bottom: 548 },
      (s) => (s.standing('sender.cage') === true ? 'cage open' : 'cage shut'),
      (text) => [words(text, 588, 543, { anchor: 'middle', fill: 'ink2' })],
    ),
    facePiece('sender.filter', filter, FILTER, (s): FilterValue => {
      const state = String(s.see('sender.filterState'));
      return {
        fitted: !state.startsWith('out'),
        dirt: state.endsWith('dirty') ? 0.75 : 0,
        fan: 14,
        running: s.standing('sender.fan') === true && s.wires.live.sender,
      };
    }),
  ],
};

const watts = (v: unknown): string => String(Math.round(Number(v ?? 0)));

function box(x: number, y: number, w: number, h: number) {
  return { left: x, top: y, right: x + w, bottom: y + h };
}
