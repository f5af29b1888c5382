/** Page printer: the page behind, the platen, the keys. */
import { page } from '../faces/page.ts';
import { printer as printerFace } from '../faces/printer.ts';
import { facePiece, type Piece } from '../tiles.ts';
import type { BoxLayout } from './layout.ts';

const SLAB = { x: 26, y: 442, w: 688, h: 228 };
const KEYS = { x: 40, y: 520, w: 494, row: 36 };
/** All 72 places of a line, of 14 px 655, lie on the paper; the platen's scale has the 69 of a message. */
const pageFrom = (y: number) => ({ x: 34, y, w: 676, h: SLAB.y - y, size: 14, leading: 18, margin: 15 });
const PLATEN = { ...SLAB, h: 78, slab: SLAB.h, slot: { x: 10, y: 30, w: 660, h: 42 }, label: 'Printer' };

/** Carriage, slab, and as much of the paper over them as no slip covers. */
const LAP = { left: SLAB.x, top: SLAB.y - 6 * 18, right: SLAB.x + SLAB.w, bottom: SLAB.y + SLAB.h };

/** The lines that a page of so many can show at most. */
const SHOWN = 16;

/** Paper rises one line in 90 ms. */
const paperFrom = (y: number): Piece =>
  facePiece('printer.page', page, pageFrom(y), (s) => {
    const lines = s.see('printer.page');
    return { lines: Array.isArray(lines) ? lines.slice(-SHOWN).map(String) : [] };
  });

const platen: Piece = facePiece(
  'printer.platen',
  printerFace,
  PLATEN,
  (s) => ({
    column: Math.min(68, Number(s.see('printer.column') ?? 0)),
    wheel: (s.wires.read.codes.at(-1) ?? 0) * 11,
    live: false,
  }),
  { motion: carriage },
);

export const printer: BoxLayout = {
  brow: () => '',
  controls: {
    source: { x: 562, y: 574, s: 34, label: 'lever', drop: 22 },
    motor: { x: 562, y: 634, s: 24, label: 'motor', drop: 28, more: { words: undefined } },
    range: { x: 616, y: 562, s: 18, label: 'range', drop: 36, value: 15, more: { marks: 11 } },
    paper: { x: 674, y: 546, s: 26, label: 'paper' },
    tearOff: { x: 674, y: 606, s: 26, label: 'tear off' },
    key: { x: KEYS.x, y: KEYS.y, s: KEYS.w, h: KEYS.row, lap: LAP },
  },
  indicators: {
    page: { x: 0, y: 0, s: 0, as: 'none' },
    column: { x: 530, y: 447, s: 90, h: 20, label: '', before: 'column ', more: { frame: false, anchor: 'end' } },
    case: { x: 624, y: 447, s: 44, h: 20, label: '', more: { frame: false, bold: true, fill: 'ink' } },
    lamp: { x: 608, y: 634, s: 7, label: '' },
    speed: { x: 430, y: 447, s: 84, h: 20, label: '', more: { frame: false, anchor: 'end' } },
    paperLeft: { x: 280, y: 447, s: 130, h: 20, label: '', before: 'paper ', more: { frame: false, anchor: 'end' } },
  },
  under: [paperFrom(162), platen],
};

/** With the clip-board over it. */
export const printerUnderSlip: BoxLayout = { ...printer, under: [paperFrom(232), platen] };

type At = { column: number; wheel: number; live: boolean };

/** The carriage runs 240 places a second; the wheel turns with it. */
function carriage(was: { at: At; speed: number }, to: At, dt_s: number): { at: At; speed: number } | null {
  const left = to.column - was.at.column;
  const most = 240 * dt_s;
  if (Math.abs(left) <= Math.max(most, 1)) return null;
  return { at: { ...to, column: was.at.column + Math.sign(left) * most }, speed: 0 };
}
