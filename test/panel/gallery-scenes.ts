import { blades } from '../../src/panel/faces/blades.ts';
import { cage } from '../../src/panel/faces/cage.ts';
import { clock } from '../../src/panel/faces/clock.ts';
import { drum } from '../../src/panel/faces/drum.ts';
import { filter } from '../../src/panel/faces/filter.ts';
import { handKeyPlan } from '../../src/panel/faces/handkeyplan.ts';
import { cord, jackOps } from '../../src/panel/faces/jack.ts';
import { keyboard } from '../../src/panel/faces/keyboard.ts';
import { lamp } from '../../src/panel/faces/lamp.ts';
import { limb } from '../../src/panel/faces/limb.ts';
import { limpet, limpetPair } from '../../src/panel/faces/limpet.ts';
import { mic } from '../../src/panel/faces/mic.ts';
import { page } from '../../src/panel/faces/page.ts';
import { plunger } from '../../src/panel/faces/plunger.ts';
import { printer } from '../../src/panel/faces/printer.ts';
import { reeds } from '../../src/panel/faces/reeds.ts';
import { type RibbonValue, ribbon, type Wave } from '../../src/panel/faces/ribbon.ts';
import { sail } from '../../src/panel/faces/sail.ts';
import { reader } from '../../src/panel/faces/tape.ts';
import { tiller } from '../../src/panel/faces/tiller.ts';
import { readout } from '../../src/panel/faces/window.ts';
import type { Face } from '../../src/panel/kit/face.ts';
import { EDGE, type Op, shape, solid, words } from '../../src/panel/kit/ops.ts';
import { rect } from '../../src/panel/kit/path.ts';
import {
  basket,
  battery,
  boots,
  extinguisher,
  headset,
  inverterDrum,
  mug,
  paperBox,
  pencil,
  reel,
  stool,
  tapeRack,
  toolCase,
} from '../../src/panel/props/bench.ts';
import { insideOps } from '../../src/panel/props/inside.ts';
import { type OutsideValue, outside } from '../../src/panel/props/outside.ts';
import { caution, focusOps, keyCap, logEntries, logSheet, nowOps, orderOps } from '../../src/panel/props/paper.ts';
import { pictureOps } from '../../src/panel/props/picture.ts';
import { boards, deskOps, plateTab, SECTION, shelterOps, tabBar } from '../../src/panel/props/shelter.ts';
import { rail, slabOps, slabValue } from '../../src/panel/props/slab.ts';
import { titleStrip } from '../../src/panel/props/titlestrip.ts';
import { tie, trackOps } from '../../src/panel/props/track.ts';

export const put = <S, V>(face: Face<S, V>, spec: S, value: V): Op[] => [
  ...face.staticOps(spec),
  ...face.liveOps(spec, value),
];

/** Codes of a text in the alphabet of ITU-T Rec. S.1, letters case, unit 1 = bit 0. */
const ITA2: Readonly<Record<string, number>> = {
  ...Object.fromEntries(
    [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].map((c, i) => [
      c,
      [3, 25, 14, 9, 1, 13, 26, 20, 6, 11, 15, 18, 28, 12, 24, 22, 23, 10, 5, 16, 7, 30, 19, 29, 21, 17][i]!,
    ]),
  ),
  ' ': 4,
};
export const codes = (text: string): number[] => [...text].map((c) => ITA2[c]!);

const LINKS = ['keys', 'loop', 'keyer', 'sender', 'whip', 'ether', 'far whip', 'receiver', 'terminal unit', 'print'];
const samples = (n: number, f: (t: number) => number): number[] => Array.from({ length: n }, (_, i) => f(i / (n - 1)));
const WAVES: Wave[] = [
  { kind: 'holes', codes: codes('VKER'), now: 2 },
  { kind: 'trace', samples: samples(160, (t) => (Math.floor(t * 7 + 0.3) % 2 ? -0.8 : 0.8)) },
  { kind: 'trace', samples: samples(200, (t) => 0.75 * Math.sin(t * 60 + 12 * Math.sin(t * 9))) },
  { kind: 'trace', samples: samples(300, (t) => Math.sin(t * 170 + 12 * Math.sin(t * 9))) },
  { kind: 'field', phase: 0.2 },
  { kind: 'bars', heights: [0.95, 0.9, 0.82, 0.74, 0.66, 0.6] },
  { kind: 'trace', samples: samples(200, (t) => 0.25 * Math.sin(t * 120) + 0.1 * Math.sin(t * 411)) },
  {
    kind: 'trace',
    samples: samples(200, (t) => 0.5 * Math.sin(t * 90 + 9 * Math.sin(t * 9)) + 0.2 * Math.sin(t * 511)),
  },
  { kind: 'decision', samples: samples(60, (t) => 0.7 * Math.sin(t * 15)), of: 60, marks: [6, 18, 30, 44, 55] },
  { kind: 'letter', text: 'F' },
];
const ribbonAt = (n: number, from = 'you', to = 'QV7K'): Op[] => {
  const lit = LINKS.map((_, i) => i < n);
  return put(ribbon, { x: 24, y: 10, w: 1232, names: LINKS }, { from, to, lit, waves: WAVES } satisfies RibbonValue);
};

const OUT: OutsideValue = {
  sections: 4,
  guard: true,
  spike: true,
  counterpoise: 4,
  radiating: true,
  phase: 0.1,
  overhead: false,
};
const TABS = ['Power', 'Radio', 'Messages'].map((name, i) => ({ key: String(i + 1), name }));

function imprint(line: string): Op[] {
  return [
    words('Keydown', 24, 704, { bold: true }),
    words(line, 90, 704, { fill: 'ink2' }),
    solid(rect(548, 693, 34, 12), 'sea'),
    solid(rect(581, 690, 2, 18), 'sea'),
    words('signal is here', 592, 704, { fill: 'ink2' }),
    ...caution(714, 698, 17),
    words('radiates or can hurt', 730, 704, { fill: 'ink2' }),
    ...keyCap('?', 1192, 704).ops,
    words('keys', 1226, 704, { fill: 'ink2' }),
  ];
}

function powerBay(): Op[] {
  const feed = { x: 46, y: 150, w: 184, h: 136, name: 'Feed', brow: 24, hooks: [22, 162] };
  const inv = { x: 46, y: 306, w: 184, h: 118, name: 'Inverter', brow: 24, hooks: [22, 162] };
  const meter = { s: 55, min: 0, max: 30, step: 2 };
  return [
    ...rail(36, 138, 204),
    ...rail(36, 294, 204),
    ...slabOps(feed),
    ...slabValue(feed, '27.6 V'),
    ...put(sail, { ...meter, x: 56, y: 183 }, 20),
    ...put(sail, { ...meter, x: 118, y: 183 }, 13),
    ...put(limpet, { x: 203, y: 209, r: 16, marks: 3, from: -90, to: 90 }, 1),
    ...[68, 96, 124, 152, 180, 208].flatMap((x, i) => put(plunger, { x, y: 268, w: 18 }, i === 4 ? 'tripped' : 'in')),
    ...slabOps(inv),
    ...slabValue(inv, '230 V'),
    ...put(tiller, { x: 98, y: 413, length: 46, words: ['1', 'off', '2'], size: 14 }, 0),
    ...put(reeds, { x: 152, y: 340, w: 68, h: 34, from: 46, to: 54, step: 1 }, 50.2),
    ...put(lamp, { x: 166, y: 400, r: 6 }, { state: 'lit' }),
    ...put(limpet, { x: 205, y: 399, r: 13, marks: 0 }, 0.3),
  ];
}

function radioBay(): Op[] {
  const rx = { x: 254, y: 150, w: 312, h: 114, name: 'Receiver', brow: 24, hooks: [38, 274] };
  const tx = { x: 254, y: 298, w: 312, h: 126, name: 'Sender', brow: 24, hooks: [38, 274] };
  return [
    ...rail(245, 138, 333),
    ...rail(245, 286, 333),
    ...slabOps(rx),
    ...slabValue(rx, '4 718.0 kHz'),
    ...put(
      limb,
      { x: 268, y: 181, w: 214, h: 30, bow: 12, span: 36, step: 1 },
      { middle: 4718, index: 0, low: 4000, wide: 2000 },
    ),
    ...put(sail, { x: 500, y: 180, s: 55, min: 0, max: 80, step: 8 }, 0),
    ...trackOps(
      {
        lines: [
          [
            [255, 244],
            [565, 244],
          ],
        ],
        w: 5,
      },
      false,
    ),
    ...[280, 318, 356, 394, 432, 470].flatMap((x, i) => put(limpet, { x, y: 244, r: 12, marks: 0 }, i / 6)),
    ...slabOps(tx),
    ...slabValue(tx, '62 W out'),
    ...[0, 4, 7, 1, 8, 0].flatMap((v, i) =>
      put(drum, { x: 266 + 25 * i + (i > 1 ? 6 : 0) + (i > 4 ? 6 : 0), y: 331, w: 17, h: 28 }, v),
    ),
    ...put(limpet, { x: 450, y: 345, r: 14, marks: 0 }, 0.7),
    ...put(sail, { x: 490, y: 328, s: 65, min: 0, max: 120, step: 10 }, 62),
    ...trackOps(
      {
        lines: [
          [
            [584, 236],
            [584, 276],
            [250, 276],
            [250, 398],
            [572, 398],
            [572, 441],
            [994, 441],
            [994, 482],
            [1120, 482],
          ],
        ],
        w: 4.6,
        onCut: true,
      },
      true,
    ),
    ...put(tiller, { x: 284, y: 411, length: 34, words: ['', '', '', ''], size: 0 }, 3),
    ...put(limpet, { x: 334, y: 396, r: 14, disc: true, marks: 0 }, 0.2),
    ...put(limpet, { x: 382, y: 396, r: 14, disc: true, marks: 0 }, 0.6),
    ...put(cage, { x: 432, y: 396, r: 13 }, 'guarded'),
    ...put(lamp, { x: 474, y: 398, r: 7 }, { state: 'radiating' }),
  ];
}

function messageBay(): Op[] {
  const key = { x: 592, y: 150, w: 122, h: 108, name: 'Keyer', brow: 24, hooks: [22, 100] };
  const line = { x: 592, y: 300, w: 122, h: 124, name: 'Line', brow: 24, hooks: [22, 100] };
  const set = { x: 862, y: 316, w: 116, h: 116, name: 'Tape set', brow: 26, clip: 'right' as const, hooks: [] };
  const lines = [
    'QV4M DE QV7K',
    'NR 7 PRIORITY 061352Z',
    'FM TERN NESS',
    'TO CONVOY TWO',
    '=',
    'ROAD TO SAND QUAY',
    'BRING 40 BLANKETS',
    'DIESEL',
  ];
  return [
    ...rail(583, 138, 139),
    ...rail(583, 288, 139),
    ...slabOps(key),
    ...slabValue(key, '400 Hz'),
    ...put(blades, { x: 602, y: 184, w: 62, h: 62 }, { mark: 1, space: 0.96, lean: 0.05 }),
    ...put(limpet, { x: 690, y: 206, r: 15, marks: 0 }, 0.4),
    ...put(lamp, { x: 690, y: 238, r: 5.5 }, { state: 'lit' }),
    ...slabOps(line),
    ...slabValue(line, 'OUT'),
    ...trackOps(
      {
        lines: [
          [
            [656, 258],
            [656, 338],
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
      true,
    ),
    ...put(tiller, { x: 652, y: 408, length: 46, words: ['OUT', 'STEADY', 'IN'], size: 0 }, 0),
    ...jackOps({ x: 690, y: 346, r: 9 }),
    ...jackOps({ x: 690, y: 376, r: 9 }),
    ...put(page, { x: 740, y: 166, w: 96, h: 152, size: 5, leading: 11, margin: 10 }, { lines }),
    ...put(
      printer,
      { x: 724, y: 316, w: 128, h: 73, slot: { x: 10, y: 26, w: 108, h: 40 }, label: 'Printer' },
      { column: 36, wheel: 10, live: false },
    ),
    shape('M731 390L845 390L854 431L722 431Z', 'sheet', EDGE - 0.6),
    ...put(keyboard, { x: 744, y: 395, w: 92, row: 9 }, { down: [], figures: false }),
    solid(rect(722, 430, 132, 7), 'cut'),
    ...slabOps(set),
    ...slabValue(set, 'R'),
    ...put(
      reader,
      { x: 864, y: 350, pitch: 5.6, w: 104, gate: 56 },
      { codes: codes('SAY AGAIN WORD AFTER FORTY'), at: 8, live: true },
    ),
    ...tapeRack(862, 158, 120, [
      codes('ROAD TO SAND QUAY'),
      codes('BRING BLANKETS TO KELP ISLE'),
      codes('FERRY'),
      codes('DIESEL AND WATER'),
    ]),
  ];
}

function shelter(): Op[] {
  const f = SECTION.floor;
  const log = { x: 490, y: 562, w: 330, h: 116 };
  const tab = plateTab(1150, 103, '5', 'Outside');
  return [
    ...ribbonAt(5),
    ...put(outside, { x: 1000, y: 98, h: 450 }, OUT),
    ...tab.ops,
    ...shelterOps(TABS),
    ...powerBay(),
    ...radioBay(),
    ...messageBay(),
    ...battery(46, f),
    ...battery(92, f),
    ...inverterDrum(145, f, true),
    ...inverterDrum(193, f, false),
    ...boots(286, f),
    ...headset(354, 447),
    ...stool(422, f),
    ...reel(492, f),
    ...extinguisher(544, f),
    ...paperBox(604, f),
    ...toolCase(684, f),
    ...basket(872, f),
    tie([
      [36, 516],
      [36, 552],
    ]),
    tie([
      [988, 516],
      [988, 552],
    ]),
    ...deskOps('4', 'Desk'),
    ...put(clock, { x: 92, y: 612, r: 45 }, 13 * 3600 + 54 * 60 + 20),
    ...put(handKeyPlan, { x: 158, y: 574, h: 84 }, false),
    ...put(mic, { x: 244, y: 562, h: 84 }, false),
    ...orderOps(
      { x: 278, y: 567, w: 196, h: 106 },
      'Order 3',
      'Send NR 14 by tape to Tern Ness before 14 20. Log each turn.',
    ),
    ...logSheet({ ...log, leading: 21 }),
    ...logEntries({ ...log, leading: 21 }, [
      { time: '13 47', text: 'sender on, 4 718' },
      { time: '13 51', text: 'called QV7K, answered' },
      { time: '13 53', text: 'sending NR 14' },
    ]),
    ...mug(924, 600),
    ...pencil(830, 670),
    ...nowOps(
      { x: 980, y: 564, w: 262, h: 112 },
      'Now',
      'step 9 of 12',
      'The tape runs, the whip radiates. Reflected power 3 W is fair. Past 20 W, stop and match again.',
    ),
    ...imprint('First traffic, guided'),
  ];
}

function radio(): Op[] {
  const rx = { x: 30, y: 142, w: 906, h: 216, name: 'Receiver', hooks: [109, 797] };
  const tx = { x: 30, y: 386, w: 906, h: 282, name: 'Sender', hooks: [109, 797] };
  const row = { r: 22, disc: true };
  const spec = (x: number, label: string) => ({ ...row, x, y: 291, label, labelDrop: 39 });
  const coil = { x: 566, y: 594, r: 28, disc: true, label: 'Whip coil', labelDrop: 48 };
  const many = [...TABS, { key: '4', name: 'Desk' }, { key: '5', name: 'Outside' }];
  return [
    ...ribbonAt(10, 'QV7K', 'you'),
    ...tabBar(many, 1),
    solid(rect(0, 118, 1280, 560), 'g1'),
    boards(0, 118, 1280, 560),
    ...rail(-2, 126, 1284),
    ...rail(-2, 370, 1284),
    ...slabOps(rx),
    ...slabValue(rx, '4 718.0 kHz'),
    ...put(limpet, { x: 76, y: 212, r: 23, words: ['0', '2', '4', '6'], size: 0, ring: true }, 2),
    ...put(
      limb,
      { x: 168, y: 184, w: 346, h: 46, bow: 27, span: 34, step: 1 },
      { middle: 4725, index: -7.4, low: 4000, wide: 2000 },
    ),
    ...put(limpetPair, { x: 742, y: 214, r: 38, label: 'Dial, fine', labelDrop: 57 }, { coarse: 120, fine: 325 }),
    ...put(
      sail,
      {
        x: 812,
        y: 178,
        s: 112,
        min: 0,
        max: 80,
        step: 4,
        numbers: [0, 40, 80],
        unit: 'dB',
        label: 'Level',
        labelDrop: 40,
      },
      3,
    ),
    ...trackOps(
      {
        lines: [
          [
            [32, 291],
            [770, 291],
          ],
        ],
        ends: [[32, 291]],
      },
      false,
    ),
    ...put(limpet, spec(84, 'Aerial trim'), 0.4),
    ...put(limpet, spec(172, 'RF gain'), 0.7),
    ...put(limpet, spec(258, 'Bandwidth'), 0.35),
    solid(rect(326, 270, 36, 40), 'sheet'),
    ...put(plunger, { x: 344, y: 293, w: 24, label: 'Limiter', words: { in: 'in', out: 'out' }, labelDrop: 37 }, 'out'),
    ...put(tiller, { x: 428, y: 299, length: 40, words: ['fast', 'slow'], size: 0, label: 'AGC', labelDrop: 31 }, 0.4),
    ...put(
      plunger,
      { x: 512, y: 293, w: 24, label: 'Calibrator', words: { in: 'in', out: 'off' }, labelDrop: 37 },
      'in',
    ),
    ...put(limpet, spec(598, 'BFO pitch'), 0.55),
    ...put(limpet, spec(684, 'AF gain'), 0.65),
    ...jackOps({ x: 770, y: 291, r: 13 }),
    words('Phones', 770, 330, { bold: true, anchor: 'middle' }),
    ...slabOps(tx),
    ...slabValue(tx, '62 W out   3 W back'),
    words('Frequency, kHz', 56, 436, { bold: true }),
    ...[0, 4, 7, 1, 8, 0].flatMap((v, i) =>
      put(drum, { x: 56 + 40 * i + (i > 1 ? 8 : 0) + (i > 4 ? 12 : 0), y: 450, w: 29, h: 53 }, v),
    ),
    ...trackOps(
      {
        lines: [
          [
            [32, 594],
            [934, 594],
          ],
          [
            [56, 512],
            [312, 512],
          ],
          [
            [252, 512],
            [252, 594],
          ],
        ],
        ends: [
          [32, 594],
          [935, 594],
        ],
      },
      true,
    ),
    ...put(
      tiller,
      { x: 128, y: 594, length: 54, words: ['off', 'heat', 'wait', 'send'], label: 'Readiness', labelDrop: 48 },
      3,
    ),
    ...put(tiller, { x: 324, y: 594, length: 54, words: ['low', 'full'], label: 'Power', labelDrop: 48 }, 1),
    ...put(limpet, { ...coil, x: 448, label: 'Loading' }, 0.25),
    ...put(limpet, coil, 0.65),
    ...put(readout, { x: 506, y: 646, w: 120, h: 18 }, '21.8 µH'),
    ...put(readout, { x: 388, y: 646, w: 120, h: 18 }, '1 044 pF'),
    solid(rect(650, 560, 56, 66), 'sheet'),
    ...put(cage, { x: 678, y: 592, r: 22, label: 'Test carrier', labelDrop: 50 }, 'guarded'),
    solid(rect(754, 570, 44, 48), 'sheet'),
    ...put(lamp, { x: 776, y: 594, r: 10, label: 'Radiating', labelDrop: 48 }, { state: 'radiating' }),
    ...put(
      filter,
      { x: 838, y: 568, w: 76, h: 54, label: 'Filter, fan' },
      { fitted: true, dirt: 0.1, fan: 20, running: true },
    ),
    ...put(
      limpet,
      {
        x: 408,
        y: 488,
        r: 22,
        ring: true,
        words: ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
        label: 'Stored setting',
        labelDrop: -58,
      },
      3,
    ),
    ...put(
      limpet,
      {
        x: 566,
        y: 490,
        r: 22,
        ring: true,
        from: -100,
        to: 92,
        words: ['N0N', 'A1A', 'A3E', 'F1B', 'A3E+F1B'],
        label: 'Emission',
        labelDrop: -60,
      },
      3,
    ),
    ...put(
      limpet,
      {
        x: 746,
        y: 496,
        r: 20,
        from: -118,
        to: 62,
        words: ['volts', 'heat', 'out', 'back'],
        label: 'Meter shows',
        labelDrop: -66,
      },
      2,
    ),
    ...put(sail, { x: 812, y: 424, s: 112, min: 0, max: 120, step: 4, numbers: [0, 60, 120], unit: 'W' }, 62),
    ...focusOps({ left: 520, top: 556, right: 612, bottom: 662 }),
    ...imprint('First traffic, guided'),
  ];
}

function first(): Op[] {
  const h = 106;
  return [
    ...titleStrip({ x: 24, y: 22, w: 1224, h }),
    words('Keydown', 228, 56, { bold: true, size: 32 }),
    words('a trainer for the operator of a radio-teleprinter station', 372, 56, { size: 18 }),
    words('Those holes are the name, in the five-unit alphabet you are about to meet.', 228, 102, {
      size: 16,
      fill: 'ink2',
    }),
    ...pictureOps({ x: 24, y: 150, w: 612, name: 'Marram 4' }),
    ...pictureOps({ x: 664, y: 150, w: 374, h: 200, name: 'Marram 4' }),
    ...insideOps({ x: 664, y: 420, w: 560, h: 240, tab: { x: 900, w: 122 } }),
  ];
}

function outdoors(): Op[] {
  const at = (i: number) => ({ x: 24 + 262 * (i % 5), y: 60 + 0 * i, h: 430 });
  return [
    words('Outside', 24, 40, { bold: true, size: 24 }),
    ...put(outside, at(0), { ...OUT, sections: 0, guard: false, spike: false, counterpoise: 0, radiating: false }),
    ...put(outside, at(1), { ...OUT, sections: 2, guard: false, radiating: false, counterpoise: 2 }),
    ...put(outside, at(2), { ...OUT, radiating: false, overhead: true }),
    ...put(outside, at(3), { ...OUT, phase: 0.35 }),
    ...put(outside, at(4), { ...OUT, phase: 0.7, overhead: true }),
    ...put(cord, { a: [100, 560], b: [160, 560], r: 16 }, 'live'),
  ];
}

export const SCENES: Record<string, () => Op[]> = { shelter, radio, first, outdoors };
