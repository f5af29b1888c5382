/** The messages bay in the whole view: every box small and live. */
import { blades } from '../faces/blades.ts';
import { jackOps } from '../faces/jack.ts';
import { keyboard } from '../faces/keyboard.ts';
import { lamp } from '../faces/lamp.ts';
import { limpet } from '../faces/limpet.ts';
import { page } from '../faces/page.ts';
import { printer } from '../faces/printer.ts';
import { reader } from '../faces/tape.ts';
import { tiller } from '../faces/tiller.ts';
import type { Sight } from '../host.ts';
import { EDGE, shape, solid } from '../kit/ops.ts';
import { rect } from '../kit/path.ts';
import { signalTrack } from '../layout/tracks.ts';
import { thrown } from '../motion.ts';
import { tapeRack } from '../props/bench.ts';
import { rail } from '../props/slab.ts';
import { facePiece, live, type Piece, scenery } from '../tiles.ts';
import { lit, share, slab, wordAt } from './shelter-small.ts';

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
