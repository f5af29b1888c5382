/** From a control or an indicator and its spot to what is drawn. One entry a face. */
import type { Json } from '../core/signals.ts';
import type { Control, Indicator } from '../core/station/box.ts';
import { blades } from './faces/blades.ts';
import { type CageState, cage } from './faces/cage.ts';
import { dial } from './faces/dial.ts';
import { drum } from './faces/drum.ts';
import { fuse } from './faces/fuse.ts';
import { handKeyPlan } from './faces/handkeyplan.ts';
import { jackOps } from './faces/jack.ts';
import { keyboard } from './faces/keyboard.ts';
import { type LampState, lamp } from './faces/lamp.ts';
import { type LimpetSpec, limpet } from './faces/limpet.ts';
import { mic } from './faces/mic.ts';
import { type PlungerState, plunger } from './faces/plunger.ts';
import { push } from './faces/push.ts';
import { reeds } from './faces/reeds.ts';
import { sail } from './faces/sail.ts';
import { tiller } from './faces/tiller.ts';
import { readout } from './faces/window.ts';
import type { Sight } from './host.ts';
import { type Box, grow, inkBox, join } from './kit/bounds.ts';
import { textWidth } from './kit/metrics.ts';
import { type Op, solid, words } from './kit/ops.ts';
import { rrect } from './kit/path.ts';
import type { Spot } from './layout/layout.ts';
import { detent, glows, needle, rolled, thrown } from './motion.ts';
import { facePiece, live, type Piece, scenery } from './tiles.ts';
import { capital, unitText, valueText } from './words.ts';

type Pieces = Piece[];
type Mount = (full: string, control: Control, spot: Spot) => Pieces;

const labelOf = (name: string, spot: Spot): { label?: string; labelDrop?: number } => ({
  ...(spot.label === '' ? {} : { label: spot.label ?? capital(name) }),
  ...(spot.drop === undefined ? {} : { labelDrop: spot.drop }),
});
const over = (spot: Spot): { over?: boolean } => (spot.over ? { over: true } : {});
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

const MOUNTS: Readonly<Record<string, Mount>> = {
  tiller: (full, control, spot) => [
    facePiece(
      full,
      tiller,
      { x: spot.x, y: spot.y, length: spot.s, words: wordsOf(control), ...labelOf(control.name, spot), ...spot.more },
      (s) => position(control, s.standing(full)),
      { motion: thrown, ...over(spot) },
    ),
  ],
  limpet: (full, control, spot) => {
    const said = control.range.kind === 'words' ? { words: control.range.words } : {};
    const spec: LimpetSpec = {
      x: spot.x,
      y: spot.y,
      r: spot.s,
      ...said,
      ...labelOf(control.name, spot),
      ...(spot.over ? { disc: true } : {}),
      ...spot.more,
    };
    const motion = control.range.kind === 'words' ? { motion: detent } : {};
    return [facePiece(full, limpet, spec, (s) => position(control, s.standing(full)), { ...motion, ...over(spot) })];
  },
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
      down: (s.drafts.get(full) ?? '').split(' ').filter(Boolean),
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
  wheel: (full, control, spot) => [
    facePiece(
      full,
      drum,
      {
        x: spot.x,
        y: spot.y,
        w: spot.s,
        h: spot.h ?? 52,
        faces: wordsOf(control),
        ...(spot.label === '' ? {} : { label: spot.label ?? capital(control.name) }),
        ...spot.more,
      },
      (s) => position(control, s.standing(full)),
      { motion: detent },
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

type Show = (full: string, i: Indicator<never>, spot: Spot) => Pieces;

const round = (v: Json, step: number): number => Math.round(Number(v ?? 0) / step) * step;
const HOT = new Set(['sender.radiating', 'aerial.foot']);

const SHOWS: Readonly<Record<string, Show>> = {
  sail: (full, i, spot) => {
    const [min, max] = [i.min ?? 0, i.max ?? 100];
    const unit = i.unit ? { unit: unitText(i.unit) } : {};
    const stop = i.stop === undefined ? {} : { stop: [i.stop, max] as const };
    return [
      facePiece(
        full,
        sail,
        {
          x: spot.x,
          y: spot.y,
          s: spot.s,
          min,
          max,
          step: (max - min) / 20,
          numbers: [min, (min + max) / 2, max],
          ...unit,
          ...stop,
          ...labelOf(i.name, spot),
          ...spot.more,
        },
        (s: Sight) => round(s.see(full), (max - min) / 400),
        { motion: needle(max - min) },
      ),
    ];
  },
  lamp: (full, i, spot) => [
    facePiece(
      full,
      lamp,
      { x: spot.x, y: spot.y, r: spot.s, ...labelOf(i.name, spot), ...spot.more },
      (s) => ({ state: (s.see(full) === true ? (HOT.has(full) ? 'radiating' : 'lit') : 'dark') as LampState }),
      { motion: glows, ...over(spot) },
    ),
  ],
  window: (full, i, spot) => {
    const unit = i.unit ? ` ${unitText(i.unit)}` : '';
    return [
      facePiece(
        full,
        readout,
        {
          x: spot.x,
          y: spot.y,
          w: spot.s,
          h: spot.h ?? 26,
          frame: true,
          ...(spot.label === '' ? {} : { label: spot.label ?? capital(i.name) }),
          ...spot.more,
        },
        (s) => `${spot.before ?? ''}${tersely(full, windowText(s.see(full)))}${unit}`,
      ),
    ];
  },
  reeds: (full, i, spot) => [
    facePiece(
      full,
      reeds,
      {
        x: spot.x,
        y: spot.y,
        w: spot.s,
        h: spot.h ?? 62,
        from: i.min ?? 45,
        to: i.max ?? 55,
        step: 1,
        numbers: true,
        ...labelOf(i.name, spot),
        ...spot.more,
      },
      (s) => (Number(s.see(full)) > 0 ? round(s.see(full), 0.1) : null),
    ),
  ],
  blades: (full, _i, spot) => [
    facePiece(
      full,
      blades,
      { x: spot.x, y: spot.y, w: spot.s, h: spot.h ?? spot.s * 1.3, ...(spot.more as object) },
      (s) => s.see(full) as { mark: number; space: number; lean: number },
    ),
  ],
  scale: (full, _i, spot) => [
    facePiece(
      full,
      dial,
      {
        x: spot.x,
        y: spot.y,
        w: spot.s,
        h: spot.h ?? 52,
        span: 53,
        step: 1,
        min: -20,
        max: 28020,
        ...(spot.more as object),
      },
      (s) => round(s.see(full), 0.005),
    ),
  ],
};

/** Six pegs in one window. */
const tersely = (full: string, text: string): string =>
  full === 'tape.rackList' ? text.replaceAll(' columns', '').replaceAll('empty', '–').replace(/[:,]/g, '') : text;

/** What a window shows of a value. */
export const windowText = (v: Json): string =>
  v === null ? '–' : typeof v === 'string' || typeof v === 'number' ? String(v) : '';

/** What an indicator looks like at its spot. */
export const mountIndicator = (full: string, indicator: Indicator<never>, spot: Spot): Pieces =>
  SHOWS[spot.as ?? indicator.face]?.(full, indicator, spot) ?? [];

const LEAST = 32;

/** Where a face is touched: its ink, at least 32 square. */
export function hitBox(control: Control, spot: Spot): Box {
  if (spot.hit) return spot.hit;
  const { x, y, s } = spot;
  const face = spot.as ?? control.face;
  const around = (l: number, t: number, r: number, b: number): Box => ({
    left: x - l,
    top: y - t,
    right: x + r,
    bottom: y + b,
  });
  const box =
    face === 'tiller'
      ? around(0.95 * s, 1.15 * s + 6, 0.95 * s, 0.3 * s)
      : face === 'plunger'
        ? around(0.6 * s, 1.25 * s, 0.6 * s, 0.5 * s)
        : face === 'limpet' || face === 'fine'
          ? around(1.2 * s, 1.2 * s, 1.2 * s, 1.2 * s)
          : face === 'caged'
            ? around(s, s, s, 1.3 * s)
            : face === 'key'
              ? around(0, 0, 0.62 * s, s)
              : face === 'microphone'
                ? around(0.34 * s, 0, 0.34 * s, 1.05 * s)
                : face === 'fuse'
                  ? around(0.58 * s, 0.32 * s, 0.58 * s, 0.32 * s)
                  : face === 'wheel'
                    ? around(0, 0, s + 10, spot.h ?? 52)
                    : face === 'push'
                      ? around(0.55 * s, 0.55 * s, 0.55 * s, 0.55 * s)
                      : around(s, s, s, s);
  const [dx, dy] = [Math.max(0, LEAST - (box.right - box.left)) / 2, Math.max(0, LEAST - (box.bottom - box.top)) / 2];
  return { left: box.left - dx, top: box.top - dy, right: box.right + dx, bottom: box.bottom + dy };
}

/** Bounds of a printed line of text. */
export const lineBox = (x: number, base: number, text: string, size = 14): Box => ({
  left: x,
  top: base - size,
  right: x + textWidth(text, size),
  bottom: base + 0.3 * size,
});
export { grow, inkBox, join };
