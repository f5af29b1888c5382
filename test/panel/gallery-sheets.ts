import { cage } from '../../src/panel/faces/cage.ts';
import { drum } from '../../src/panel/faces/drum.ts';
import { cord, jackOps } from '../../src/panel/faces/jack.ts';
import { lamp } from '../../src/panel/faces/lamp.ts';
import { limpet, limpetPair } from '../../src/panel/faces/limpet.ts';
import { plunger } from '../../src/panel/faces/plunger.ts';
import { sail } from '../../src/panel/faces/sail.ts';
import { tiller } from '../../src/panel/faces/tiller.ts';
import type { Face } from '../../src/panel/kit/face.ts';
import { LINE, type Op, shape, words } from '../../src/panel/kit/ops.ts';
import { rrect } from '../../src/panel/kit/path.ts';

const put = <S, V>(face: Face<S, V>, spec: S, value: V): Op[] => [...face.staticOps(spec), ...face.liveOps(spec, value)];

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
      ...put(tiller, { x: x + 86, y: y + 148, length: 70, words: lever }, 0),
      ...put(tiller, { x: x + 222, y: y + 148, length: 70, words: lever }, 1),
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
      ...put(sail, { x: x + 176, y: y + 58, s: 106, min: 0, max: 10, step: 0.5, numbers: [0, 9], unit: 'A', stop: [8, 10] }, 8.8),
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
        { x: x + 80, y: y + 108, r: 22, ring: true, label: 'Stored setting', words: ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'], labelDrop: -70 },
        3,
      ),
      ...put(
        limpet,
        { x: x + 200, y: y + 108, r: 22, ring: true, from: -100, to: 92, words: ['N0N', 'A1A', 'A3E', 'F1B', 'A3E+F1B'], label: 'Emission' },
        3,
      ),
    ]),
    ...card(9, 'Small limpets and drums', (x, y) => [
      ...[0, 0.3, 0.6, 1].flatMap((v, i) => put(limpet, { x: x + 50 + 66 * i, y: y + 80, r: 22, disc: true, label: 'AF gain' }, v)),
      ...[0, 0.3, 0.6, 1].flatMap((v, i) => put(limpet, { x: x + 40 + 34 * i, y: y + 160, r: 12, marks: 0 }, v)),
      ...[0, 4, 7].flatMap((v, i) => put(drum, { x: x + 180 + 24 * i, y: y + 146, w: 15, h: 26 }, v)),
    ]),
    ...card(10, 'Levers of 2, 4 and 5', (x, y) => [
      ...put(tiller, { x: x + 60, y: y + 140, length: 54, words: ['low', 'full'], label: 'Power' }, 1),
      ...put(tiller, { x: x + 208, y: y + 140, length: 54, words: ['off', 'heat', 'wait', 'send'], label: 'Readiness' }, 1.4),
    ]),
    ...card(11, 'Word drum, small sails', (x, y) => [
      ...put(drum, { x: x + 20, y: y + 60, w: 74, h: 53, size: 18, faces: ['0 to 2', '2 to 4', '4 to 6'] }, 1),
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

export const SHEETS: Record<string, () => Op[]> = { controls };
