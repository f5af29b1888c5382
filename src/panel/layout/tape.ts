/** Tape set: the reader at the left, the punch at the right, a rack of pegs. */
import { punch } from '../faces/punch.ts';
import { type ReaderValue, reader, strip, tapeWidth } from '../faces/tape.ts';
import type { Sight } from '../host.ts';
import { type Op, words } from '../kit/ops.ts';
import { facePiece, live } from '../tiles.ts';
import type { BoxLayout, Spot } from './layout.ts';
import { printed } from './tape-print.ts';

const PITCH = 9.6;
const TOP = 408;
const READER = { x: 746, y: TOP, pitch: PITCH, w: 222, gate: 62, letters: true };
const PUNCH = { x: 1212, y: TOP, pitch: PITCH };
const CUT = { from: 990, to: PUNCH.x };
const ROW = 516;
const push = (x: number, label: string): Spot => ({ x, y: ROW, s: 26, label, drop: 26 });

/** Columns round the gate are enough to draw. */
function reading(s: Sight): ReaderValue {
  const tape = s.see('tape.reading') as { codes: number[]; at: number };
  const live = s.see('tape.lamp') === true;
  if (tape.codes.length === 0) return { codes: [], at: null, live: false };
  const first = Math.max(0, tape.at - 14);
  const codes = tape.codes.slice(first, tape.at + 26);
  return { codes, at: tape.at - first, live, print: printed(tape.codes.slice(0, tape.at + 26)).slice(first) };
}

const COLUMNS = Math.floor((CUT.to - CUT.from) / PITCH) - 1;

function punchedOps({ codes, print }: { codes: number[]; print: string[] }): Op[] {
  const x = PUNCH.x - (codes.length - 0.4) * PITCH;
  const from = Math.max(CUT.from, x - 6 * PITCH);
  const left = from > CUT.from ? 'arrow' : 'on';
  return [
    ...strip({ x, y: TOP, pitch: PITCH, from, to: PUNCH.x, left, right: 'on' }, codes),
    ...print.map((t, i) =>
      words(t, x + i * PITCH, TOP - 0.75 * PITCH - 7, { anchor: 'middle', bold: true, mono: true }),
    ),
  ];
}

export const tape: BoxLayout = {
  slab: { x: 736, y: 352, w: 520, h: 201, hooks: [], clip: 'none' },
  brow: (s) => {
    const peg = String(s.standing('tape.rack'));
    const found = new RegExp(`${peg}: ([^,]+)`).exec(String(s.see('tape.rackList')));
    return `reader ${s.see('tape.onReader') ?? 0}  peg ${peg} ${found?.[1]?.replace(' columns', '') ?? 'empty'}`;
  },
  controls: {
    run: { x: 781, y: ROW + 8, s: 26, label: 'reader', drop: 18 },
    rewind: push(836, 'rewind'),
    step: push(880, 'step'),
    load: push(918, 'load'),
    rack: { x: 974, y: ROW, s: 13, label: 'peg', drop: 26, more: { ring: true, from: -120, to: 120 } },
    keep: push(1032, 'keep'),
    tear: push(1078, 'tear'),
    feed: push(1122, 'feed'),
    back: push(1166, 'back'),
    punch: { x: 1222, y: ROW + 6, s: 19, label: 'punch', drop: 20, more: { words: undefined } },
  },
  indicators: {
    punched: { x: 0, y: 0, s: 0, as: 'none' },
    reading: { x: 0, y: 0, s: 0, as: 'none' },
    rackList: { x: 0, y: 0, s: 0, as: 'none' },
    count: { x: PUNCH.x + 3, y: 384, s: 37, h: 18, label: '', more: { frame: false, anchor: 'start' } },
    onReader: { x: 0, y: 0, s: 0, as: 'none' },
    slack: { x: 896, y: 366, s: 5, label: '' },
    lamp: { x: 826, y: 366, s: 5, label: '' },
  },
  under: [
    live(
      'tape.punched',
      { left: CUT.from - 2, top: TOP - 30, right: PUNCH.x + 2, bottom: TOP + tapeWidth(PITCH) + 8 },
      (s) => {
        // What lies past the punch, after a step back, is under it.
        const codes = ((s.see('tape.punched') as number[]) ?? []).slice(0, Number(s.see('tape.count') ?? 0));
        return { codes: codes.slice(-COLUMNS), print: printed(codes).slice(-COLUMNS) };
      },
      punchedOps,
    ),
    facePiece('tape.reading', reader, READER, reading),
    facePiece('tape.punchBlock', punch, PUNCH, (s) => (s.wires.punching ? (s.wires.read.codes.at(-1) ?? 0) : 0)),
  ],
  extra: [
    live(
      'tape/words',
      { left: 834, top: 356, right: 1010, bottom: 376 },
      (s) => [s.see('tape.lamp') === true, s.see('tape.slack') === true],
      ([runs, tight]) => [
        words('runs', 840, 371, { bold: runs ?? false, fill: runs ? 'ink' : 'ink2' }),
        words('tape tight', 910, 371, { bold: tight ?? false, fill: tight ? 'ink' : 'ink2' }),
      ],
    ),
  ],
};
