/** The close views: wall or desk, rails, boxes, and the bar of tabs over them. */
import { type Boxed, boxPieces } from '../boxes.ts';
import { BAYS, type PanelHost, type Place, type Sight } from '../host.ts';
import { line, type Op, shape, solid, words } from '../kit/ops.ts';
import { rect, rrect, seg } from '../kit/path.ts';
import type { BoxLayout } from '../layout/layout.ts';
import { signalTrack } from '../layout/tracks.ts';
import { battery, inverterDrum, reel, toolCase } from '../props/bench.ts';
import { outside } from '../props/outside.ts';
import { caution } from '../props/paper.ts';
import { boards, tabBar } from '../props/shelter.ts';
import { rail } from '../props/slab.ts';
import { ribbonPiece } from '../ribbon.ts';
import { facePiece, type Piece, scenery } from '../tiles.ts';

/** Boxes of a place in the order in which Tab meets them. */
export const BOXES_OF: Readonly<Record<Exclude<Place, 'shelter'>, readonly string[]>> = {
  power: ['feed', 'inverter'],
  radio: ['receiver', 'sender'],
  messages: ['printer', 'keyer', 'line', 'tape', 'cover'],
  desk: ['desk', 'hand'],
  outside: ['aerial'],
};

/** Column of the explain-card, where the place keeps one. */
export const COLUMN = { left: 966, top: 126, right: 1256, bottom: 670 };
export const HAS_COLUMN: Readonly<Record<Place, boolean>> = {
  shelter: false,
  power: true,
  radio: true,
  messages: false,
  desk: false,
  outside: true,
};

const tabs = BAYS.map(({ name }, i) => ({ key: String(i + 1), name }));

/** "0 Whole shelter" at the right end of the bar. */
function homeTab(): Op[] {
  return [
    line(rrect(1120, 97, 19, 18, 3), 1.1, 'onCut', { snap: true }),
    words('0', 1129.5, 110, { anchor: 'middle', fill: 'onCut' }),
    words('Whole shelter', 1256, 111, { size: 16, anchor: 'end', fill: 'onCut' }),
  ];
}

/** What the two reserved inks mean, and the name at the left; keys at the right are DOM. */
export function imprint(title: string): Op[] {
  return [
    words('Keydown', 24, 704, { bold: true }),
    words(title, 92, 704, { fill: 'ink2' }),
    solid(rect(548, 693, 34, 12), 'sea'),
    solid(rect(581, 690, 2, 18), 'sea'),
    words('signal is here', 592, 704, { fill: 'ink2' }),
    ...caution(714, 699, 15),
    words('radiates or can hurt', 730, 704, { fill: 'ink2' }),
  ];
}

const wall = (): Op[] => [solid(rect(-1, 118, 1282, 560), 'g1'), boards(0, 118, 1280, 560)];
const floor = (): Op[] => [solid(rect(-1, 676, 1282, 4), 'cut', { snap: true })];

const radiating = (s: Sight): boolean => s.wires.radiated_W > 0;
const looping = (s: Sight): boolean => s.wires.loop_mA >= 12 && s.wires.source === 'line';

/** Scenery behind the boxes of each bay. */
const BEHIND: Readonly<Record<Exclude<Place, 'shelter'>, () => Piece[]>> = {
  power: () => [
    scenery('power/wall', [...wall(), ...rail(-2, 126, 1284), ...rail(-2, 458, 1284)]),
    scenery('power/shelf', [
      solid(rect(616, 662, 320, 6), 'cut', { snap: true }),
      ...battery(632, 662),
      ...battery(680, 662),
      ...toolCase(742, 662),
      ...reel(900, 662),
    ]),
    facePiece(
      'power/drums',
      {
        natural: { w: 90, h: 40 },
        staticOps: () => [],
        liveOps: drumOps,
        tileBox: () => ({ left: 640, top: 560, right: 780, bottom: 612 }),
      },
      null,
      (s) => (s.see('inverter.lamp') === true ? String(s.standing('inverter.lever')) : ''),
    ),
  ],
  radio: () => [
    scenery('radio/wall', [...wall(), ...rail(-2, 126, 1284), ...rail(-2, 374, 1284)]),
    signalTrack(
      'radio/whip',
      {
        lines: [
          [
            [938, 662],
            [952, 662],
            [952, 676],
          ],
        ],
      },
      radiating,
    ),
  ],
  messages: () => [
    scenery('messages/wall', [...wall(), ...rail(720, 126, 564)]),
    signalTrack(
      'messages/loop',
      {
        lines: [
          [
            [1028, 240],
            [1042, 240],
          ],
          [
            [1111, 334],
            [1111, 352],
          ],
          [
            [724, 486],
            [736, 486],
          ],
        ],
        w: 5,
      },
      looping,
    ),
  ],
  desk: () => [
    scenery('desk/top', [
      solid(rect(-1, 118, 1282, 560), 'g1'),
      line(Array.from({ length: 30 }, (_, i) => seg(0, 130 + i * 18.3, 1280, 126 + i * 18.3)).join(''), 0.7, 'ink', {
        o: 0.35,
      }),
    ]),
  ],
  outside: () => [
    scenery('outside/wall', [
      ...wall(),
      ...rail(352, 126, 930),
      shape(rect(30, 130, 306, 538), 'paper', 2.4, 'ink', { snap: true }),
    ]),
    outsidePiece({ x: 30, y: 130, h: 538 }),
    scenery('outside/frame', [line(rect(30, 130, 306, 538), 2.4, 'ink', { snap: true })]),
  ],
};

function drumOps(_spec: null, running: string): Op[] {
  return [...inverterDrum(650, 604, running === 'A'), ...inverterDrum(716, 604, running === 'B')];
}

/** The view outside, live. */
export const outsidePiece = (spec: { x: number; y: number; h: number }): Piece =>
  facePiece('outside', outside, spec, (s) => ({
    sections: Number(s.standing('aerial.sections') ?? 0),
    guard: s.standing('aerial.guard') === true,
    spike: s.standing('aerial.earth') === true,
    counterpoise: Number(s.standing('aerial.counterpoise') ?? 0),
    radiating: radiating(s),
    phase: 0.1,
    overhead: s.see('aerial.overhead') === 'line near',
  }));

/** All that is drawn in a close view. */
export function bayPieces(
  place: Exclude<Place, 'shelter'>,
  boxes: readonly Boxed[],
  layoutOf: (box: Boxed) => BoxLayout,
  host: PanelHost,
  title: string,
): Piece[] {
  const here = boxesOf(place, boxes);
  return [
    ...BEHIND[place](),
    ...here.flatMap((b) => boxPieces(b, layoutOf(b))),
    scenery(`${place}/frame`, [
      ...tabBar(
        tabs,
        BAYS.findIndex((b) => b.place === place),
      ),
      ...homeTab(),
      ...floor(),
      ...imprint(title),
    ]),
    ribbonPiece(host.manner),
  ];
}

/** Boxes that stand in a place: those we placed, then any other of that bay. */
export function boxesOf(place: Exclude<Place, 'shelter'>, boxes: readonly Boxed[]): Boxed[] {
  const known = BOXES_OF[place].flatMap((id) => boxes.find((b) => b.id === id) ?? []);
  const placed = new Set(Object.values(BOXES_OF).flat());
  return [...known, ...boxes.filter((b) => b.bay === place && !placed.has(b.id))];
}
