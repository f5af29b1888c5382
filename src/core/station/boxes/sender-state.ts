/** What the sender remembers: plain data, and the few readings that all its parts share. */
import type { MatchSearch } from '../../physics/match-servo.ts';
import type { Cooling } from '../../physics/thermal.ts';
import type { Edge, Json } from '../../signals.ts';
import { atRest, type BoxState, type Found } from '../box.ts';
import { markAt } from '../wave.ts';
import type { Wires } from '../wires.ts';
import { SENDER_CONTROLS, SETTINGS } from './sender-controls.ts';
import { type Reading, storedSetting, type Travel, type Tuning, tuningAt } from './sender-match.ts';

/** The relay lets the whip go back to the receiver this long after the last carrier. */
export const RELAY_US = 100_000;
/** Celsius of the air that cools. */
export const AMBIENT_C = 20;
/** Dirt of a filter that is found dirty. */
const FOUND_DIRT = 0.8;

/** Dirt in a filter that a scenario calls `dirty`, or anything else: none. */
export const dirtOf = (word: Json | undefined): number => (word === 'dirty' ? FOUND_DIRT : 0);

/** State of the sender. */
export type SenderState = BoxState & {
  at: Tuning;
  travel: Travel | null;
  seek: MatchSearch | null;
  /** Phase of the search, or what became of the last one. */
  sought: string;
  settings: (Tuning | null)[];
  cooling: Cooling;
  /** Temperature of the output stage, Celsius. */
  stage_C: number;
  /** A stored setting that the motors have yet to go to, for want of supply. */
  wanted: number | null;
  /** Hot when the drill begins. */
  foundHot: boolean;
  /** When the heaters came on. */
  heaters_us: number;
  /** Drive stages are switched on since; null at off and heat. */
  driven_us: number | null;
  /** High tension stands on the valves, and when it last went. */
  tension: boolean;
  tensionEnd_us: number | null;
  /** Times that hot valves were switched off. */
  hurts: number;
  bareUntil_us: number | null;
  /** Since when too much comes back without a break. */
  back_us: number | null;
  /** Carrier up (mark) and down: history and plan. */
  carrier: Edge[];
  /** Next instant at which the carrier or the relay changes by itself. */
  wake_us: number | null;
  reading: Reading | null;
  lastBack_W: number;
};

/** A trip has taken the high tension off. */
export const tripped = (s: SenderState): boolean => s.mode === 'trippedBack' || s.mode === 'trippedHeat';
/** Where drums and match stand at an instant, on the way or at rest. */
export const tuningNow = (s: SenderState, now_us: number): Tuning => (s.travel ? tuningAt(s.travel, now_us) : s.at);
/** Frequency in kHz to the nearest hertz. */
export const kHzNow = (s: SenderState, now_us: number): number => Math.round(tuningNow(s, now_us).kHz * 1000) / 1000;
/** Motors or servo are at work. */
export const busy = (s: SenderState): boolean => s.travel !== null || s.seek !== null;
/** The carrier is up. */
export const radiating = (s: SenderState, now_us: number): boolean => markAt(s.carrier, now_us);

/** The heaters have supply. */
export const lit = (s: SenderState, w: Wires): boolean => w.live.sender && s.set['readiness'] !== 'off';

/** The knobs stand where the motors took them, to their nearest step. */
export function dials(s: SenderState, now_us: number): void {
  const t = tuningNow(s, now_us);
  s.set['frequency'] = Math.round(t.kHz * 10) / 10;
  s.set['coil'] = Math.round(t.coil_uH * 20) / 20;
  s.set['loading'] = Math.round(t.loading_pF / 5) * 5;
  s.set['side'] = t.side;
}

/** As found: knobs as the scenario left them; at a stored setting the tuning is the stored one unless the scenario says otherwise. */
export function asFound(found: Found): SenderState {
  const set = atRest(SENDER_CONTROLS, found);
  const drift_pct = typeof found.inner['drift'] === 'number' ? found.inner['drift'] : 0;
  const list = Array.isArray(found.inner['settings']) ? (found.inner['settings'] as Json[]) : [];
  const settings = SETTINGS.map((_, i) => storedSetting(list[i], drift_pct));
  const stored = set['setting'] === 'hand' ? null : (settings[Number(set['setting']) - 1] ?? null);
  const told = found.controls;
  const at: Tuning = {
    kHz: told['frequency'] === undefined && stored ? stored.kHz : (set['frequency'] as number),
    coil_uH: told['coil'] === undefined && stored ? stored.coil_uH : (set['coil'] as number),
    loading_pF: told['loading'] === undefined && stored ? stored.loading_pF : (set['loading'] as number),
    side: told['side'] === undefined && stored ? stored.side : (set['side'] as Tuning['side']),
  };
  const s: SenderState = {
    mode: '',
    set,
    at,
    travel: null,
    seek: null,
    sought: 'idle',
    settings,
    cooling: {
      fan: false,
      filter: 'fitted',
      dirt: dirtOf(found.inner['filter']),
      dust: 0,
    },
    stage_C: AMBIENT_C,
    wanted: null,
    foundHot: found.inner['hot'] === true && set['readiness'] !== 'off',
    heaters_us: 0,
    driven_us: null,
    tension: false,
    tensionEnd_us: null,
    hurts: 0,
    bareUntil_us: null,
    back_us: null,
    carrier: [{ t_us: -RELAY_US, mark: false }],
    wake_us: null,
    reading: null,
    lastBack_W: 0,
  };
  dials(s, 0);
  return s;
}
