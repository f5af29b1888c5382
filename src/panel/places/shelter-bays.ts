/** Power and radio in the whole view: every box small and live. */
import { cage } from '../faces/cage.ts';
import { drum } from '../faces/drum.ts';
import { lamp } from '../faces/lamp.ts';
import { limb } from '../faces/limb.ts';
import { limpet } from '../faces/limpet.ts';
import { pins } from '../faces/pins.ts';
import { plunger } from '../faces/plunger.ts';
import { reeds } from '../faces/reeds.ts';
import { sail } from '../faces/sail.ts';
import { tiller } from '../faces/tiller.ts';
import type { Sight } from '../host.ts';
import type { Point } from '../kit/path.ts';
import { signalTrack } from '../layout/tracks.ts';
import { needle, thrown } from '../motion.ts';
import { drumText } from '../mounts.ts';
import { rail } from '../props/slab.ts';
import { limbOf } from '../shows.ts';
import { facePiece, type Piece, scenery } from '../tiles.ts';
import { lit, num, on, share, slab, wordAt } from './shelter-small.ts';

/** Feed and inverter, small. */
export function power(): Piece[] {
  const meter = { y: 184, s: 54, numbers: [] };
  const breakers = ['vent', 'inverter', 'sender', 'receiver', 'terminal', 'master'];
  return [
    scenery('s/rails', [...rail(36, 138, 204), ...rail(36, 292, 204)]),
    ...slab(
      's/feed',
      { x: 46, y: 150, w: 184, h: 136, name: 'Feed', hooks: [22, 162] },
      (s) => `${Number(s.see('feed.volts')).toFixed(1)} V`,
    ),
    facePiece('s/volts', sail, { ...meter, x: 56, min: 0, max: 32, step: 4 }, num('feed.volts'), {
      motion: needle(32),
    }),
    facePiece('s/amps', sail, { ...meter, x: 118, min: -100, max: 100, step: 20 }, num('feed.amps', 1), {
      motion: needle(200),
    }),
    facePiece(
      's/isolator',
      tiller,
      { x: 204, y: 232, length: 32, words: ['', ''], size: 0 },
      (s) => (on('feed.isolator')(s) ? 1 : 0),
      { motion: thrown },
    ),
    ...breakers.map((id, i) =>
      facePiece(`s/${id}`, plunger, { x: 68 + 28 * i, y: 270, w: 16 }, (s) => (on(`feed.${id}`)(s) ? 'in' : 'out')),
    ),
    ...slab(
      's/inverter',
      { x: 46, y: 306, w: 184, h: 118, name: 'Inverter', hooks: [22, 162] },
      (s) => `${Math.round(Number(s.see('inverter.volts')))} V`,
    ),
    facePiece(
      's/lever',
      tiller,
      { x: 98, y: 412, length: 42, words: ['A', '', 'B'] },
      wordAt('inverter.lever', ['A', 'off', 'B']),
      { motion: thrown },
    ),
    facePiece('s/reeds', reeds, { x: 152, y: 340, w: 69, h: 34, from: 45, to: 55, step: 1 }, (s) =>
      Number(s.see('inverter.hertz')) > 0 ? num('inverter.hertz', 0.1)(s) : null,
    ),
    facePiece('s/running', lamp, { x: 166, y: 400, r: 5.5 }, lit('inverter.lamp')),
    facePiece('s/warm', lamp, { x: 206, y: 400, r: 5.5 }, lit('inverter.warm')),
  ];
}

const PATH: readonly Point[] = [
  [592, 236],
  [584, 236],
  [584, 276],
  [250, 276],
  [250, 398],
  [572, 398],
  [572, 441],
  [994, 441],
  [994, 482],
  [1120, 482],
];

/** The board of stored settings is too small for words. */
const PLACES: readonly string[] = Array.from({ length: 13 }, () => '');

/** Receiver and sender, small. */
export function radio(): Piece[] {
  const knobs = [
    share('receiver.trim', 0, 10),
    share('receiver.rfGain', 0, 10),
    share('receiver.pitch', -3, 3),
    share('receiver.index', -10, 10),
    share('receiver.afGain', 0, 10),
    (s: Sight) => (on('receiver.power')(s) ? 0.8 : 0.1),
  ];
  return [
    scenery('s/radioRails', [...rail(245, 138, 333), ...rail(245, 286, 333)]),
    ...slab('s/receiver', { x: 254, y: 150, w: 312, h: 114, name: 'Receiver', hooks: [38, 274] }, (s) =>
      s.see('receiver.lamp') === true ? `${kHz(Number(s.see('receiver.scale')))} kHz` : '',
    ),
    facePiece('s/scale', limb, { x: 268, y: 181, w: 214, h: 30, bow: 12, span: 36, step: 1 }, limbOf),
    facePiece(
      's/level',
      sail,
      { x: 500, y: 180, s: 55, min: 0, max: 100, step: 10, numbers: [] },
      num('receiver.level', 1),
      { motion: needle(100) },
    ),
    signalTrack(
      's/receiverTrack',
      {
        lines: [
          [
            [255, 244],
            [565, 244],
          ],
        ],
        w: 5,
      },
      (s) => s.see('receiver.lamp') === true && !s.wires.rx.quiet && !s.wires.rx.deaf,
    ),
    ...knobs.map((look, i) =>
      facePiece(
        `s/knob${i}`,
        limpet,
        { x: 280 + 38 * i, y: 244, r: 12, marks: 0, disc: true },
        (s) => Math.round(look(s) * 200) / 200,
        { over: true },
      ),
    ),
    ...slab(
      's/sender',
      { x: 254, y: 298, w: 312, h: 126, name: 'Sender', hooks: [38, 274] },
      (s) => `${Math.round(Number(s.see('sender.out')))} W out`,
    ),
    ...[0, 1, 2, 3, 4, 5].map((i) =>
      facePiece(
        `s/drum${i}`,
        drum,
        { x: 266 + 25 * i + (i > 1 ? 6 : 0) + (i > 4 ? 6 : 0), y: 331, w: 17, h: 28 },
        (s) => Number(drumText(Number(s.standing('sender.frequency')))[i]),
      ),
    ),
    facePiece('s/setting', pins, { x: 434, y: 333, words: PLACES, pitch: 6, row: 8, size: 0 }, (s) =>
      s.standing('sender.setting') === 'hand' ? 0 : Number(s.standing('sender.setting')),
    ),
    facePiece('s/out', sail, { x: 490, y: 328, s: 65, min: 0, max: 150, step: 15, numbers: [] }, num('sender.out', 1), {
      motion: needle(150),
    }),
    signalTrack('s/path', { lines: [PATH], w: 4.6, onCut: true }, (s) => s.wires.radiated_W > 0),
    facePiece(
      's/readiness',
      tiller,
      { x: 284, y: 411, length: 34, words: ['', '', '', ''], size: 0 },
      wordAt('sender.readiness', ['off', 'heat', 'wait', 'send']),
      { motion: thrown, over: true },
    ),
    facePiece('s/loading', limpet, { x: 334, y: 396, r: 14, disc: true, marks: 0 }, share('sender.loading', 0, 4000), {
      over: true,
    }),
    facePiece('s/coil', limpet, { x: 382, y: 396, r: 14, disc: true, marks: 0 }, share('sender.coil', 0, 150), {
      over: true,
    }),
    facePiece('s/cage', cage, { x: 432, y: 396, r: 13 }, (s) =>
      on('sender.carrier')(s) ? 'pressed' : on('sender.cage')(s) ? 'open' : 'guarded',
    ),
    facePiece('s/radiating', lamp, { x: 474, y: 398, r: 7 }, lit('sender.radiating', true), { over: true }),
  ];
}

function kHz(v: number): string {
  const text = v.toFixed(1);
  return text.length > 5 ? `${text.slice(0, -5)} ${text.slice(-5)}` : text;
}
