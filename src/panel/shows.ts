/** From an indicator and its spot to what is drawn. One entry a face. */
import type { Json } from '../core/signals.ts';
import type { Indicator } from '../core/station/box.ts';
import { blades } from './faces/blades.ts';
import { type LampState, lamp } from './faces/lamp.ts';
import { type LimbValue, limb } from './faces/limb.ts';
import { reeds } from './faces/reeds.ts';
import { sail, sailPrint } from './faces/sail.ts';
import { readout } from './faces/window.ts';
import type { Sight } from './host.ts';
import type { Op } from './kit/ops.ts';
import type { Spot } from './layout/layout.ts';
import { glows, needle } from './motion.ts';
import { labelOf, over } from './mounts.ts';
import { facePiece, live, type Piece } from './tiles.ts';
import { capital, unitText } from './words.ts';

type Pieces = Piece[];
type Show = (full: string, i: Indicator<never>, spot: Spot) => Pieces;

const round = (v: Json, step: number): number => Math.round(Number(v ?? 0) / step) * step;
const HOT = new Set(['sender.radiating', 'aerial.foot']);

/** How the receiver's rim and index stand. */
export const limbOf = (s: Sight): LimbValue => {
  const index = Number(s.standing('receiver.index'));
  const middle = round(Number(s.see('receiver.scale')) - index, 0.005);
  return { middle, index, low: 1000 * Number(s.standing('receiver.band')), wide: 2000 };
};

type Scaled = Pick<Indicator<never>, 'scaleAt'>;

/** The scale that the control of a meter with several has set; null of a meter with one. */
export function scaleInForce(full: string, { scaleAt }: Scaled, s: Sight): { max: number; unit: string } | null {
  if (!scaleAt) return null;
  return scaleAt.scales[String(s.standing(`${full.slice(0, full.indexOf('.'))}.${scaleAt.control}`))] ?? null;
}

/** A meter with several scales: needle and ticks in per cent of any, numbers and unit of the one in force. */
function scaledSail(full: string, i: Indicator<never>, spot: Spot): Pieces {
  const isBig = spot.s > 90;
  const ticks = { min: 0, max: 100, step: isBig ? 6.25 : 12.5, long: 4 };
  const spec = { x: spot.x, y: spot.y, s: spot.s, ...ticks, ...labelOf(i.name, spot), ...spot.more };
  const share = (s: Sight) => round((100 * Number(s.see(full))) / (scaleInForce(full, i, s)?.max ?? 100), 0.1);
  const print = ({ max, unit }: { max: number; unit: string }): Op[] =>
    sailPrint({ ...spec, max, numbers: isBig ? [0, max / 2, max] : [0, max], unit: unitText(unit) });
  return [
    facePiece(full, sail, spec, share, { motion: needle(100) }),
    live(
      `${full}/scale`,
      sail.tileBox(spec),
      (s) => scaleInForce(full, i, s),
      (on) => (on ? print(on) : []),
    ),
  ];
}

const SHOWS: Readonly<Record<string, Show>> = {
  sail: (full, i, spot) => {
    if (i.scaleAt) return scaledSail(full, i, spot);
    const [min, max] = [i.min ?? 0, i.max ?? 100];
    const unit = i.unit ? { unit: unitText(i.unit) } : {};
    const stop = i.stop === undefined ? {} : { stop: [i.stop, max] as const };
    const spec = {
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
    };
    const look = (s: Sight) => round(s.see(full), (max - min) / 400);
    return [facePiece(full, sail, spec, look, { motion: needle(max - min) })];
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
        (s) => `${spot.before ?? ''}${tersely(full, windowText(s.see(full)))}${s.see(full) === null ? '' : unit}`,
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
      limb,
      { x: spot.x, y: spot.y, w: spot.s, h: spot.h ?? 46, bow: 30, span: 36, step: 1, ...(spot.more as object) },
      limbOf,
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
