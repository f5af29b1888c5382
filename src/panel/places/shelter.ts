import { clock } from '../faces/clock.ts';
import { handKeyPlan } from '../faces/handkeyplan.ts';
import { mic } from '../faces/mic.ts';
import type { PanelHost, Place } from '../host.ts';
import type { Box } from '../kit/bounds.ts';
import { shortened } from '../kit/metrics.ts';
import { type Op, words } from '../kit/ops.ts';
import { seconds } from '../layout/desk.ts';
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
  toolCase,
} from '../props/bench.ts';
import { logEntries, logSheet, orderOps, slipOps } from '../props/paper.ts';
import { deskOps, plateTab, SECTION, shelterOps } from '../props/shelter.ts';
import { tie } from '../props/track.ts';
import { ribbonPiece } from '../ribbon.ts';
import { facePiece, live, type Piece, scenery } from '../tiles.ts';
import { imprint, outsidePiece } from './bays.ts';
import { power, radio } from './shelter-bays.ts';
import { messages } from './shelter-messages.ts';
import { on } from './shelter-small.ts';

/** Where each bay is touched. */
export const TARGETS: Readonly<Record<Exclude<Place, 'shelter'>, Box>> = {
  power: { left: 36, top: 104, right: 240, bottom: 500 },
  radio: { left: 246, top: 104, right: 577, bottom: 500 },
  messages: { left: 584, top: 104, right: 986, bottom: 500 },
  desk: { left: 24, top: 552, right: 964, bottom: 674 },
  outside: { left: 1004, top: 100, right: 1254, bottom: 545 },
};

function underBench(): Op[] {
  const f = SECTION.floor;
  return [
    ...battery(46, f),
    ...battery(92, f),
    ...boots(286, f),
    ...headset(354, 447),
    ...stool(422, f),
    ...reel(492, f),
    ...extinguisher(544, f),
    ...paperBox(604, f),
    ...toolCase(684, f),
    ...basket(872, f),
  ];
}

const LOG = { x: 490, y: 557, w: 330, h: 112, leading: 20 };
/** So many characters stand in a row of the small log. */
const LOG_CHARS = 26;

function deskTop(): Piece[] {
  return [
    scenery('s/desk', [
      tie([
        [36, 516],
        [36, 552],
      ]),
      tie([
        [988, 516],
        [988, 552],
      ]),
      ...deskOps('4', 'Desk'),
    ]),
    facePiece('s/clock', clock, { x: 92, y: 609, r: 42 }, (s) => seconds(s.see('desk.utc'))),
    facePiece('s/handKey', handKeyPlan, { x: 158, y: 570, h: 84 }, on('hand.key')),
    facePiece('s/mic', mic, { x: 244, y: 560, h: 84 }, on('hand.talk')),
    live(
      's/order',
      { left: 268, top: 556, right: 486, bottom: 676 },
      (s) => String(s.see('desk.orderText')) !== 'not read',
      (read) =>
        orderOps(
          { x: 278, y: 563, w: 196, h: 104 },
          'Order',
          read
            ? 'Read. It lies on the desk with the papers that belong to it.'
            : 'Not read yet. Come to the desk and read it first.',
        ),
    ),
    scenery('s/log', logSheet(LOG)),
    live(
      's/entries',
      { left: LOG.x + 2, top: LOG.y + 31, right: LOG.x + LOG.w - 3, bottom: LOG.y + LOG.h - 3 },
      (s) => ((s.see('desk.logLines') as string[] | null) ?? []).slice(-4),
      (lines) =>
        logEntries(
          LOG,
          lines.map((l) => ({ time: l.slice(0, 5), text: shortened(l.slice(8).trim(), LOG_CHARS) })),
        ),
    ),
    scenery('s/mug', [...mug(906, 597), ...pencil(836, 662, 66), ...papers()]),
  ];
}

/** The papers, one over the other. */
function papers(): Op[] {
  const at = { x: 1006, y: 565, w: 216, h: 98 };
  const lines = ['Frequency chart', 'Call signs, recognition card', 'Message form'];
  return [
    ...slipOps({ ...at, x: at.x - 12, y: at.y + 2, tilt: -3 }),
    ...slipOps({ ...at, tilt: 1.6 }, [
      words('Papers', at.x + 14, at.y + 24, { bold: true, size: 16 }),
      ...lines.map((text, i) => words(text, at.x + 14, at.y + 46 + 19 * i, { fill: 'ink2' })),
    ]),
  ];
}

/** All that is drawn in the whole view. */
export function shelterPieces(host: PanelHost, title: string): Piece[] {
  const tab = plateTab(1150, 103, '5', 'Outside');
  const tabs = ['Power', 'Radio', 'Messages'].map((name, i) => ({ key: String(i + 1), name }));
  return [
    outsidePiece({ x: 1000, y: 98, h: 450 }),
    scenery('s/shelter', [...tab.ops, ...shelterOps(tabs), ...underBench()]),
    live(
      's/drums',
      { left: 130, top: 455, right: 242, bottom: 501 },
      (s) => (s.see('inverter.lamp') === true ? String(s.standing('inverter.lever')) : ''),
      (running) => [
        ...inverterDrum(145, SECTION.floor, running === 'A'),
        ...inverterDrum(193, SECTION.floor, running === 'B'),
      ],
    ),
    ...power(),
    ...radio(),
    ...messages(),
    ...deskTop(),
    scenery('s/imprint', imprint(title)),
    ribbonPiece(host.manner),
  ];
}
