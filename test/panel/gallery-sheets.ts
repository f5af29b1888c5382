import { blades } from '../../src/panel/faces/blades.ts';
import { cage } from '../../src/panel/faces/cage.ts';
import { clock } from '../../src/panel/faces/clock.ts';
import { drum } from '../../src/panel/faces/drum.ts';
import { filter } from '../../src/panel/faces/filter.ts';
import { fuse } from '../../src/panel/faces/fuse.ts';
import { handKey } from '../../src/panel/faces/handkey.ts';
import { cord, jackOps } from '../../src/panel/faces/jack.ts';
import { keyboard } from '../../src/panel/faces/keyboard.ts';
import { lamp } from '../../src/panel/faces/lamp.ts';
import { limb } from '../../src/panel/faces/limb.ts';
import { limpet, limpetPair } from '../../src/panel/faces/limpet.ts';
import { mic } from '../../src/panel/faces/mic.ts';
import { page } from '../../src/panel/faces/page.ts';
import { pins } from '../../src/panel/faces/pins.ts';
import { plunger } from '../../src/panel/faces/plunger.ts';
import { printer } from '../../src/panel/faces/printer.ts';
import { punch } from '../../src/panel/faces/punch.ts';
import { reeds } from '../../src/panel/faces/reeds.ts';
import { sail } from '../../src/panel/faces/sail.ts';
import { reader } from '../../src/panel/faces/tape.ts';
import { tiller } from '../../src/panel/faces/tiller.ts';
import { readout } from '../../src/panel/faces/window.ts';
import { LINE, type Op, shape, words } from '../../src/panel/kit/ops.ts';
import { rrect } from '../../src/panel/kit/path.ts';
import { codeCard } from '../../src/panel/props/codecard.ts';
import { codes, put, SCENES } from './gallery-scenes.ts';

/** A card of the gallery's grid, as on a specimen sheet. */
function card(i: number, title: string, draw: (x: number, y: number) => Op[]): Op[] {
  const [x, y] = [24 + (i % 4) * 310.7, 60 + Math.floor(i / 4) * 212];
  return [
    shape(rrect(x, y, 301, 200, 7), 'sheet', LINE, 'ink', { snap: true }),
    words(title, x + 14, y + 24, { bold: true, size: 16 }),
    ...draw(x, y),
  ];
}

const heading = (text: string): Op[] => [words(text, 24, 40, { bold: true, size: 24 })];

function controls(): Op[] {
  const lever = ['OUT', 'STEADY', 'IN'];
  const meter = { s: 125, min: 0, max: 100, step: 4, numbers: [0, 50, 100], unit: 'W' };
  return [
    ...heading('Controls'),
    ...card(0, 'Tiller', (x, y) => [
      ...put(tiller, { x: x + 80, y: y + 148, length: 46, words: lever }, 0),
      ...put(tiller, { x: x + 222, y: y + 148, length: 46, words: lever }, 1),
    ]),
    ...card(1, 'Limpet', (x, y) => [
      ...put(limpet, { x: x + 86, y: y + 104, r: 46 }, 0.64),
      ...put(limpetPair, { x: x + 216, y: y + 104, r: 40, label: 'coarse, fine' }, { coarse: 300, fine: 90 }),
    ]),
    ...card(2, 'Drum', (x, y) => [
      ...[0, 4.3, 7, 1].flatMap((v, i) => put(drum, { x: x + 26 + 52 * i, y: y + 62, w: 36, h: 78 }, v)),
      ...put(drum, { x: x + 238, y: y + 76, w: 26, h: 52 }, 8),
    ]),
    ...card(3, 'Sail', (x, y) => [
      ...put(sail, { ...meter, x: x + 24, y: y + 42 }, 62),
      ...put(
        sail,
        { x: x + 176, y: y + 58, s: 106, min: 0, max: 10, step: 0.5, numbers: [0, 9], unit: 'A', stop: [8, 10] },
        8.8,
      ),
    ]),
    ...card(4, 'Lamp', (x, y) => {
      const said = { dark: 'dark', lit: 'lit', radiating: 'radiating' };
      return (['dark', 'lit', 'radiating'] as const).flatMap((state, i) =>
        put(lamp, { x: x + 56 + 92 * i, y: y + 96, r: 14, words: said }, { state }),
      );
    }),
    ...card(5, 'Cage', (x, y) => {
      const said = { guarded: 'guarded', open: 'cage up', pressed: 'pressed' };
      return (['guarded', 'open', 'pressed'] as const).flatMap((state, i) =>
        put(cage, { x: x + 56 + 95 * i, y: y + 104, r: 30, words: said }, state),
      );
    }),
    ...card(6, 'Plunger', (x, y) => {
      const said = { in: 'in', out: 'out', tripped: 'tripped' };
      return (['in', 'out', 'tripped'] as const).flatMap((state, i) =>
        put(plunger, { x: x + 60 + 92 * i, y: y + 118, w: 43, words: said }, state),
      );
    }),
    ...card(7, 'Jack and cord', (x, y) => [
      ...jackOps({ x: x + 48, y: y + 96, r: 20, label: 'open', side: 'under' }),
      ...jackOps({ x: x + 116, y: y + 96, r: 20 }),
      ...jackOps({ x: x + 176, y: y + 96, r: 20 }),
      ...put(cord, { a: [x + 116, y + 96], b: [x + 176, y + 96], r: 20 }, 'live'),
      ...jackOps({ x: x + 222, y: y + 76, r: 13 }),
      ...jackOps({ x: x + 272, y: y + 106, r: 13 }),
      ...put(cord, { a: [x + 222, y + 76], b: [x + 272, y + 106], r: 13 }, 'patched'),
    ]),
    ...card(8, 'Detents', (x, y) => [
      ...put(
        limpet,
        {
          x: x + 80,
          y: y + 108,
          r: 22,
          ring: true,
          label: 'Stored setting',
          words: ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
          labelDrop: -70,
        },
        3,
      ),
      ...put(
        limpet,
        {
          x: x + 200,
          y: y + 108,
          r: 22,
          ring: true,
          from: -100,
          to: 92,
          words: ['N0N', 'A1A', 'A3E', 'F1B', 'A3E+F1B'],
          label: 'Emission',
        },
        3,
      ),
    ]),
    ...card(9, 'Small limpets and drums', (x, y) => [
      ...[0, 0.3, 0.6, 1].flatMap((v, i) =>
        put(limpet, { x: x + 50 + 66 * i, y: y + 80, r: 22, disc: true, label: 'AF gain' }, v),
      ),
      ...[0, 0.3, 0.6, 1].flatMap((v, i) => put(limpet, { x: x + 40 + 34 * i, y: y + 160, r: 12, marks: 0 }, v)),
      ...[0, 4, 7].flatMap((v, i) => put(drum, { x: x + 180 + 24 * i, y: y + 146, w: 15, h: 26 }, v)),
    ]),
    ...card(10, 'Levers of 2, 4 and 5', (x, y) => [
      ...put(tiller, { x: x + 74, y: y + 140, length: 46, words: ['low', 'full'], label: 'Power' }, 1),
      ...put(
        tiller,
        { x: x + 220, y: y + 140, length: 40, words: ['off', 'heat', 'wait', 'send'], label: 'Readiness' },
        1.4,
      ),
    ]),
    ...card(11, 'Board of pins, small sails', (x, y) => [
      ...put(
        pins,
        { x: x + 4, y: y + 50, words: ['hand', '1', '2', '3', '4', '5', '6', '7', '8'], pitch: 18, row: 32 },
        3,
      ),
      ...put(sail, { ...meter, x: x + 130, y: y + 60, s: 62, numbers: [], unit: '', step: 10 }, 0),
      ...put(sail, { ...meter, x: x + 210, y: y + 60, s: 62, numbers: [], unit: '', step: 10 }, 55),
      ...put(lamp, { x: x + 40, y: y + 150, r: 5 }, { state: 'lit' }),
      ...put(lamp, { x: x + 70, y: y + 150, r: 5 }, { state: 'radiating' }),
      ...put(lamp, { x: x + 100, y: y + 150, r: 5 }, { state: 'dark' }),
      ...put(cage, { x: x + 140, y: y + 160, r: 12 }, 'guarded'),
      ...put(plunger, { x: x + 180, y: y + 160, w: 18 }, 'in'),
      ...put(tiller, { x: x + 230, y: y + 170, length: 34, words: ['A', '', 'B'], size: 0 }, 2),
    ]),
  ];
}

function machines(): Op[] {
  const text = 'SAY AGAIN WORD AFTER';
  const printed = ['QV4M DE QV7K', 'NR 7 PRIORITY 061352Z', 'BRING 40 BLANJETS'];
  const slab = { x: 60, y: 480, w: 574, h: 96, slab: 246, slot: { x: 16, y: 36, w: 396, h: 50 }, label: 'Printer' };
  return [
    ...heading('Machines'),
    ...put(
      page,
      { x: 90, y: 190, w: 446, h: 290, size: 19, leading: 29 },
      { lines: ['FM TERN NESS', ...printed], rings: [{ line: 3, column: 13 }] },
    ),
    ...put(printer, slab, { column: 17, wheel: 12, live: true }),
    ...put(keyboard, { x: 72, y: 576, w: 550, row: 36 }, { down: ['K', 'SPACE'], figures: false }),
    ...put(page, { x: 90, y: 60, w: 96, h: 120, size: 4, leading: 9, margin: 10 }, { lines: [...printed, ...printed] }),
    ...put(
      printer,
      { x: 76, y: 180, w: 128, h: 72, slot: { x: 10, y: 26, w: 108, h: 38 } },
      { column: 30, wheel: 0, live: false },
    ),
    ...put(
      reader,
      { x: 690, y: 100, pitch: 18.6, w: 500, gate: 90, letters: true },
      { codes: codes(text), at: 3, live: true, print: [...text] },
    ),
    ...put(punch, { x: 1190, y: 100, pitch: 18.6 }, 9),
    ...put(reader, { x: 690, y: 280, pitch: 12, w: 260, gate: 130 }, { codes: codes('AGAIN'), at: 4, live: false }),
    ...put(reader, { x: 980, y: 280, pitch: 7, w: 110, gate: 54 }, { codes: codes(text), at: 8, live: true }),
    ...put(reader, { x: 1130, y: 280, pitch: 7, w: 110, gate: 54 }, { codes: [], at: null, live: false }),
    ...put(handKey, { x: 690, y: 470, w: 112, words: { up: 'up', down: 'down' } }, false),
    ...put(handKey, { x: 830, y: 470, w: 112, words: { up: 'up', down: 'down' } }, true),
    ...put(mic, { x: 1000, y: 410, h: 94, words: { open: 'open', pressed: 'pressed' } }, false),
    ...put(mic, { x: 1130, y: 410, h: 94, words: { open: 'open', pressed: 'pressed' } }, true),
    ...codeCard({ x: 545, y: 200, sent: { letter: 'K', code: 15 }, printed: { letter: 'J', code: 11 } }),
    ...put(clock, { x: 720, y: 600, r: 45 }, 13 * 3600 + 54 * 60 + 20),
    ...put(
      filter,
      { x: 800, y: 570, w: 76, h: 54, label: 'Filter, fan' },
      { fitted: true, dirt: 0, fan: 0, running: true },
    ),
    ...put(
      filter,
      { x: 900, y: 570, w: 76, h: 54, label: 'dirty' },
      { fitted: true, dirt: 0.8, fan: 30, running: true },
    ),
    ...put(
      filter,
      { x: 1000, y: 570, w: 76, h: 54, label: 'out' },
      { fitted: false, dirt: 0, fan: 10, running: false },
    ),
  ];
}

function instruments(): Op[] {
  const leaves = { w: 116, h: 150, names: ['mark', 'space'] as [string, string] };
  return [
    ...heading('Instruments'),
    ...put(blades, { ...leaves, x: 40, y: 80 }, { mark: 1, space: 1, lean: 0 }),
    ...put(blades, { ...leaves, x: 180, y: 80 }, { mark: 0.7, space: 0.95, lean: 0.4 }),
    ...put(blades, { ...leaves, x: 320, y: 80 }, { mark: 0.1, space: 0.4, lean: -1 }),
    ...put(blades, { x: 460, y: 80, w: 62, h: 62 }, { mark: 1, space: 0.9, lean: 0.1 }),
    ...put(
      limb,
      { x: 580, y: 90, w: 346, h: 46, bow: 27, span: 34, step: 1 },
      { middle: 4725, index: -7.4, low: 4000, wide: 2000 },
    ),
    ...put(
      limb,
      { x: 580, y: 200, w: 214, h: 30, bow: 12, span: 36, step: 1 },
      { middle: 4400, index: 2, low: 4000, wide: 2000 },
    ),
    ...put(reeds, { x: 60, y: 310, w: 130, h: 62, from: 46, to: 54, step: 1, numbers: true, label: 'Hertz' }, 50),
    ...put(reeds, { x: 220, y: 310, w: 130, h: 62, from: 46, to: 54, step: 1, numbers: true, label: 'Hertz' }, 48.6),
    ...put(reeds, { x: 380, y: 310, w: 69, h: 34, from: 46, to: 54, step: 1 }, 50),
    ...put(reeds, { x: 480, y: 310, w: 69, h: 34, from: 46, to: 54, step: 1 }, null),
    ...put(readout, { x: 600, y: 310, w: 110, h: 26, frame: true, label: 'Dial' }, '4 718.0'),
    ...put(readout, { x: 730, y: 310, w: 110, h: 18 }, '1 044 pF'),
    ...(['whole', 'blown', 'none'] as const).flatMap((state, i) =>
      put(fuse, { x: 620 + 110 * i, y: 400, w: 64, words: { whole: 'whole', blown: 'blown', none: 'empty' } }, state),
    ),
    ...(['whole', 'blown', 'none'] as const).flatMap((state, i) =>
      put(fuse, { x: 940 + 50 * i, y: 400, w: 28 }, state),
    ),
  ];
}

export const SHEETS: Record<string, () => Op[]> = { controls, machines, instruments, ...SCENES };
