/** The bays of the whole view: every box small and live. */
import { blades } from '../faces/blades.ts';
import { cage } from '../faces/cage.ts';
import { drum } from '../faces/drum.ts';
import { jackOps } from '../faces/jack.ts';
import { keyboard } from '../faces/keyboard.ts';
import { lamp } from '../faces/lamp.ts';
import { limb } from '../faces/limb.ts';
import { limpet } from '../faces/limpet.ts';
import { page } from '../faces/page.ts';
import { plunger } from '../faces/plunger.ts';
import { printer } from '../faces/printer.ts';
import { reeds } from '../faces/reeds.ts';
import { sail } from '../faces/sail.ts';
import { reader } from '../faces/tape.ts';
import { tiller } from '../faces/tiller.ts';
import type { Sight } from '../host.ts';
import { textWidth } from '../kit/metrics.ts';
import { EDGE, shape, solid } from '../kit/ops.ts';
import type { Point } from '../kit/path.ts';
import { rect } from '../kit/path.ts';
import { signalTrack } from '../layout/tracks.ts';
import { needle, thrown } from '../motion.ts';
import { drumText } from '../mounts.ts';
import { tapeRack } from '../props/bench.ts';
import { rail, slabOps, slabValue } from '../props/slab.ts';
import { limbOf } from '../shows.ts';
import { facePiece, live, type Piece, scenery } from '../tiles.ts';

/** Whether a switch or push stands at its second place. */
export const on = (name: string) => (s: Sight) => s.standing(name) === true;
const lit =
  (name: string, hot = false) =>
  (s: Sight) => ({
    state: s.see(name) === true ? ((hot ? 'radiating' : 'lit') as 'lit') : ('dark' as const),
  });
const num =
  (name: string, step = 0.5) =>
  (s: Sight) =>
    Math.round(Number(s.see(name) ?? 0) / step) * step;
const share = (name: string, min: number, max: number) => (s: Sight) => (Number(s.standing(name)) - min) / (max - min);
const wordAt = (name: string, words: readonly string[]) => (s: Sight) =>
  Math.max(0, words.indexOf(String(s.standing(name))));

function slab(
  id: string,
  spec: { x: number; y: number; w: number; h: number; name: string; brow?: number; hooks?: number[]; clip?: 'right' },
  value: (s: Sight) => string,
): Piece[] {
  const from = spec.x + 14 + textWidth(spec.name, 16);
  return [
    scenery(id, slabOps({ brow: 24, ...spec })),
    live(
      `${id}/brow`,
      { left: from, top: spec.y + 3, right: spec.x + spec.w - 3, bottom: spec.y + 23 },
      value,
      (text) => slabValue({ brow: 24, ...spec }, text),
    ),
  ];
}

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
    ...slab(
      's/receiver',
      { x: 254, y: 150, w: 312, h: 114, name: 'Receiver', hooks: [38, 274] },
      (s) => `${kHz(Number(s.see('receiver.scale')))} kHz`,
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
    facePiece('s/setting', limpet, { x: 450, y: 345, r: 14, marks: 0 }, (s) =>
      s.standing('sender.setting') === 'hand' ? 0 : Number(s.standing('sender.setting')) / 12,
    ),
    facePiece('s/out', sail, { x: 490, y: 328, s: 65, min: 0, max: 150, step: 15, numbers: [] }, num('sender.out', 1), {
      motion: needle(150),
    }),
    signalTrack('s/path', { lines: [PATH], w: 4.6, onCut: true }, (s) => s.wires.radiated_W > 0),
    facePiece(
      's/readiness',
      tiller,
      { x: 296, y: 411, length: 34, words: ['', '', '', ''], size: 0 },
      wordAt('sender.readiness', ['off', 'heat', 'wait', 'send']),
      { motion: thrown },
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

/** Keyer, line, printer and tape set, small. */
export function messages(): Piece[] {
  const looping = (s: Sight) => s.wires.loop_mA >= 12 && s.wires.source === 'line';
  return [
    scenery('s/messageRails', [...rail(583, 138, 139), ...rail(583, 288, 139)]),
    ...slab(
      's/keyer',
      { x: 592, y: 150, w: 122, h: 108, name: 'Keyer', hooks: [22, 100] },
      (s) => `${s.standing('keyer.shift')}`,
    ),
    facePiece(
      's/blades',
      blades,
      { x: 602, y: 184, w: 62, h: 62 },
      (s) => s.see('keyer.blades') as { mark: number; space: number; lean: number },
    ),
    facePiece('s/loopKnob', limpet, { x: 690, y: 206, r: 15, marks: 0 }, share('keyer.loop', 0, 40)),
    facePiece('s/keyerLamp', lamp, { x: 690, y: 238, r: 5.5 }, lit('keyer.lamp')),
    ...slab('s/line', { x: 592, y: 300, w: 122, h: 124, name: 'Line', hooks: [22, 100] }, (s) =>
      String(s.standing('line.lever')),
    ),
    signalTrack(
      's/loop',
      {
        lines: [
          [
            [640, 258],
            [640, 299],
          ],
          // Behind the brow of the line box, which has words.
          [
            [640, 326],
            [640, 338],
            [618, 338],
            [618, 356],
          ],
          [
            [652, 408],
            [718, 408],
            [718, 425],
            [920, 425],
            [920, 396],
          ],
        ],
        w: 5,
      },
      looping,
    ),
    facePiece(
      's/lineLever',
      tiller,
      { x: 652, y: 408, length: 46, words: ['OUT', 'STEADY', 'IN'], size: 0 },
      wordAt('line.lever', ['OUT', 'STEADY', 'IN']),
      { motion: thrown },
    ),
    scenery('s/jacks', [...jackOps({ x: 690, y: 346, r: 9 }), ...jackOps({ x: 690, y: 376, r: 9 })]),
    facePiece('s/page', page, { x: 740, y: 166, w: 96, h: 152, size: 5, leading: 11, margin: 8 }, (s) => ({
      lines: ((s.see('printer.page') as string[] | null) ?? []).slice(-14).map((l) => l.slice(0, 24)),
    })),
    facePiece(
      's/printer',
      printer,
      { x: 724, y: 316, w: 128, h: 73, slot: { x: 10, y: 26, w: 108, h: 40 }, label: 'Printer' },
      (s) => ({ column: Number(s.see('printer.column') ?? 0), wheel: 0, live: false }),
      { over: true },
    ),
    facePiece('s/motor', lamp, { x: 834, y: 330, r: 5 }, lit('printer.lamp')),
    scenery('s/typing', [shape('M731 390L845 390L854 431L722 431Z', 'sheet', EDGE - 0.6)]),
    facePiece('s/keys', keyboard, { x: 744, y: 395, w: 92, row: 9 }, () => ({ down: [], figures: false })),
    scenery('s/foot', [solid(rect(722, 430, 132, 7), 'cut')]),
    ...slab('s/tape', { x: 862, y: 316, w: 116, h: 116, name: 'Tape set', clip: 'right', hooks: [] }, () => ''),
    facePiece('s/reader', reader, { x: 864, y: 350, pitch: 5.6, w: 104, gate: 56 }, (s) => {
      const t = s.see('tape.reading') as { codes: number[]; at: number } | null;
      if (!t || t.codes.length === 0) return { codes: [], at: null, live: false };
      const first = Math.max(0, t.at - 12);
      return { codes: t.codes.slice(first, t.at + 12), at: t.at - first, live: s.see('tape.lamp') === true };
    }),
    rack(),
  ];
}

/** As many tapes as hang on the rack, as long as they are. */
function rack(): Piece {
  return live(
    's/rack',
    { left: 858, top: 154, right: 988, bottom: 300 },
    (s) => [...String(s.see('tape.rackList')).matchAll(/(\d+) columns/g)].map((m) => Number(m[1])),
    (lengths) =>
      tapeRack(
        862,
        158,
        120,
        lengths.slice(0, 4).map((n) => Array.from({ length: Math.min(24, n) }, (_, i) => (i * 11 + n) % 32)),
      ),
  );
}
