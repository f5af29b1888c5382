import type { Control } from '../core/station/box.ts';
import { heldKeys } from './controls/held-keys.ts';
import { type CageState, cage } from './faces/cage.ts';
import { drum } from './faces/drum.ts';
import { fuse } from './faces/fuse.ts';
import { handKeyPlan } from './faces/handkeyplan.ts';
import { jackOps } from './faces/jack.ts';
import { keyboard } from './faces/keyboard.ts';
import { type LimpetSpec, limpet } from './faces/limpet.ts';
import { mic } from './faces/mic.ts';
import { type PinsSpec, pins } from './faces/pins.ts';
import { type PlungerState, plunger } from './faces/plunger.ts';
import { push } from './faces/push.ts';
import { type TillerSpec, tiller } from './faces/tiller.ts';
import { type Op, solid, words } from './kit/ops.ts';
import { rrect } from './kit/path.ts';
import type { Spot } from './layout/layout.ts';
import { detent, rolled, thrown } from './motion.ts';
import { facePiece, live, type Piece, scenery } from './tiles.ts';
import { capital, valueText } from './words.ts';

type Pieces = Piece[];
type Mount = (full: string, control: Control, spot: Spot) => Pieces;

/** Label and its place, for a face. */
export const labelOf = (name: string, spot: Spot): { label?: string; labelDrop?: number } => ({
  ...(spot.label === '' ? {} : { label: spot.label ?? capital(name) }),
  ...(spot.drop === undefined ? {} : { labelDrop: spot.drop }),
});
/** Whether it stands on a track. */
export const over = (spot: Spot): { over?: boolean } => (spot.over ? { over: true } : {});
const wordsOf = ({ range }: Control): readonly string[] =>
  range.kind === 'words' || range.kind === 'switch' ? range.words : [];

/** Index of the word, of a switch's position, or share of the sweep. */
export function position(control: Control, value: unknown): number {
  const r = control.range;
  if (r.kind === 'words') return Math.max(0, r.words.indexOf(String(value)));
  if (r.kind === 'number') return (Number(value) - r.min) / (r.max - r.min);
  return value === true ? 1 : 0;
}

/** The value in words under a face. */
function valueLine(full: string, control: Control, { x, y, drop = 0, value }: Spot): Pieces {
  if (value === undefined) return [];
  const base = y + drop + value;
  const box = { left: x - 56, top: base - 13, right: x + 56, bottom: base + 4 };
  return [
    live(
      `${full}/value`,
      box,
      (sight) => valueText(control, sight.standing(full)),
      (text) => [words(text, x, base, { anchor: 'middle', mono: true, fill: 'ink2' })],
    ),
  ];
}

/** A lever as it is drawn at its spot. */
export const tillerAt = (control: Control, spot: Spot): TillerSpec => ({
  x: spot.x,
  y: spot.y,
  length: spot.s,
  words: wordsOf(control),
  ...labelOf(control.name, spot),
  ...spot.more,
});

/** A knob as it is drawn at its spot. */
export const limpetAt = (control: Control, spot: Spot): LimpetSpec => ({
  x: spot.x,
  y: spot.y,
  r: spot.s,
  ...(control.range.kind === 'words' ? { words: control.range.words } : {}),
  ...labelOf(control.name, spot),
  ...(spot.over ? { disc: true } : {}),
  ...spot.more,
});

/** A board of pins as it is drawn at its spot. */
export const pinsAt = (control: Control, spot: Spot): PinsSpec => ({
  x: spot.x,
  y: spot.y,
  words: wordsOf(control),
  pitch: spot.s,
  row: spot.h ?? 34,
  ...labelOf(control.name, spot),
  ...spot.more,
});

const MOUNTS: Readonly<Record<string, Mount>> = {
  tiller: (full, control, spot) => [
    facePiece(full, tiller, tillerAt(control, spot), (s) => position(control, s.standing(full)), {
      motion: thrown,
      ...over(spot),
    }),
  ],
  limpet: (full, control, spot) => {
    const spec = limpetAt(control, spot);
    const motion = control.range.kind === 'words' ? { motion: detent } : {};
    return [facePiece(full, limpet, spec, (s) => position(control, s.standing(full)), { ...motion, ...over(spot) })];
  },
  pins: (full, control, spot) => [
    facePiece(full, pins, pinsAt(control, spot), (s) => position(control, s.standing(full))),
  ],
  plunger: (full, control, spot) => {
    const [out, inn] = wordsOf(control) as [string, string];
    const box = full.slice(0, full.indexOf('.'));
    return [
      facePiece(
        full,
        plunger,
        {
          x: spot.x,
          y: spot.y,
          w: spot.s,
          words: { in: inn ?? 'in', out: out ?? 'out', tripped: 'tripped' },
          ...labelOf(control.name, spot),
          ...spot.more,
        },
        (s): PlungerState => {
          if (s.standing(full) === true) return 'in';
          const tripped = box === 'feed' && String(s.see('feed.tripped')).split(' ').includes(control.id);
          return tripped ? 'tripped' : 'out';
        },
        over(spot),
      ),
    ];
  },
  push: (full, control, spot) => [
    facePiece(
      full,
      push,
      { x: spot.x, y: spot.y, w: spot.s, ...labelOf(control.name, spot), ...spot.more },
      (s) => s.standing(full) === true,
      over(spot),
    ),
  ],
  caged: (full, control, spot) => [
    facePiece(
      full,
      cage,
      { x: spot.x, y: spot.y, r: spot.s, ...labelOf(control.name, spot), ...spot.more },
      (s): CageState =>
        s.standing(full) === true ? 'pressed' : s.standing('sender.cage') === true ? 'open' : 'guarded',
      over(spot),
    ),
  ],
  jack: (full, control, spot) => {
    const { x, y, s } = spot;
    const socket = scenery(full, jackOps({ x, y, r: s, ...labelOf(control.name, spot), ...spot.more }));
    // In the line box by hand the cords show what is plugged; alone, the plug and a word do.
    if (s <= 14) return [socket];
    const bounds = { left: x - 40, top: y - s - 2, right: x + 40, bottom: y + s + 24 };
    const ink = (isIn: boolean): Op[] => [
      ...(isIn ? [solid(rrect(x - 0.4 * s, y - 0.9 * s, 0.8 * s, 1.8 * s, 0.2 * s), 'ink')] : []),
      words(wordsOf(control)[isIn ? 1 : 0] ?? '', x, y + s + 18, {
        anchor: 'middle',
        bold: isIn,
        fill: isIn ? 'ink' : 'ink2',
      }),
    ];
    return [socket, live(`${full}/plug`, bounds, (sight) => sight.standing(full) === true, ink)];
  },
  key: (full, control, spot) => [
    facePiece(
      full,
      handKeyPlan,
      { x: spot.x, y: spot.y, h: spot.s, ...labelOf(control.name, spot) },
      (s) => s.standing(full) === true,
    ),
  ],
  microphone: (full, control, spot) => [
    facePiece(
      full,
      mic,
      { x: spot.x, y: spot.y, h: spot.s, ...labelOf(control.name, spot), ...spot.more },
      (s) => s.standing(full) === true,
    ),
  ],
  drums: (full, control, spot) => {
    const title =
      spot.label === ''
        ? []
        : [scenery(`${full}/name`, [words(spot.label ?? capital(control.name), spot.x, spot.y - 14, { bold: true })])];
    const digits = drumBoxes(spot).map(({ x, y, w, h }, i) =>
      facePiece(
        `${full}/${i}`,
        drum,
        { x, y, w, h },
        (s) => Number((s.drafts.get(full) ?? drumText(Number(s.standing(full))))[i]),
        {
          motion: rolled,
        },
      ),
    );
    return [...title, ...digits];
  },
  keyboard: (full, _control, spot) => [
    facePiece(full, keyboard, { x: spot.x, y: spot.y, w: spot.s, row: spot.h ?? 36 }, (s) => ({
      ...heldKeys(s.drafts.get(full) ?? ''),
      figures: s.see('printer.case') === 'FIGS',
    })),
  ],
  fuse: (full, _control, spot) => [
    facePiece(
      full,
      fuse,
      {
        x: spot.x,
        y: spot.y,
        w: spot.s,
        label: spot.label ?? '',
        words: { whole: 'good', blown: 'blown', none: 'none' },
      },
      (s) => (new RegExp(`${full.slice(-1)} blown`).test(String(s.see('feed.fuses'))) ? 'blown' : 'whole'),
    ),
  ],
};

/** Six digits of a frequency: 01234.5. */
export const drumText = (kHz: number): string =>
  Math.round(kHz * 10)
    .toString()
    .padStart(6, '0');

/** Windows of the six drums; s is a drum's width, h its height. */
export function drumBoxes({ x, y, s, h = 53 }: Spot): { x: number; y: number; w: number; h: number }[] {
  const pitch = s + 0.2 * h;
  return [0, 1, 2, 3, 4, 5].map((i) => ({
    x: x + pitch * i + (i > 1 ? 0.15 * h : 0) + (i > 4 ? 0.24 * h : 0),
    y,
    w: s,
    h,
  }));
}

/** What a control looks like at its spot. */
export function mountControl(full: string, control: Control, spot: Spot): Pieces {
  const face = spot.as ?? (control.face === 'fine' ? 'limpet' : control.face);
  const drawn = MOUNTS[face]?.(full, control, spot) ?? [];
  return [...drawn, ...valueLine(full, control, spot)];
}
