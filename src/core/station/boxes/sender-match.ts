/** Where the sender's drums, coil, loading and relay stand, how its motors drive them, and what the whip then takes. */
import { COIL_MAX_UH, LOADING_MAX_PF, MATCH_POSITIONS } from '../../physics/match-motors.ts';
import { type LoadingSide, lMatch, type Match, matchBudget, withGround } from '../../physics/matching.ts';
import { type WhipImpedance, whipImpedance, whipProblem } from '../../physics/whip.ts';
import type { Json } from '../../signals.ts';
import type { Wires } from '../wires.ts';

/** One tuning of the sender: frequency in kHz, and the match. */
export type Tuning = { kHz: number; coil_uH: number; loading_pF: number; side: LoadingSide };

/** Motors on their way since `from_us`. */
export type Travel = { from_us: number; from: Tuning; to: Tuning };

/** Lowest frequency, kHz. */
export const KHZ_MIN = 1800;
/** Highest frequency, kHz. */
export const KHZ_MAX = 17_000;
/** The frequency motor crosses the whole range in this time, and so do coil and loading. */
const FULL_TRAVEL_US = 8e6;

/** The standard fit that a stored setting was made for: four sections, earth spike, four wires (table of values). */
const STANDARD = { h_m: 5.2, a_m: 0.01, ground_ohm: 10 };

const KHZ_A_US = (KHZ_MAX - KHZ_MIN) / FULL_TRAVEL_US;
const POSITIONS_A_US = MATCH_POSITIONS / FULL_TRAVEL_US;

const coilAt = (coil_uH: number): number => MATCH_POSITIONS * Math.sqrt(coil_uH / COIL_MAX_UH);
const loadingAt = (loading_pF: number): number => MATCH_POSITIONS * Math.sqrt(loading_pF / LOADING_MAX_PF);
const squared = (position: number): number => (position / MATCH_POSITIONS) * (position / MATCH_POSITIONS);

function along(from: number, to: number, reach: number): number {
  return to > from ? Math.min(to, from + reach) : Math.max(to, from - reach);
}

/** How long the motors need from one tuning to another, microseconds: up to 8 s. */
export function travelTime_us({ from, to }: Travel): number {
  return Math.ceil(
    Math.max(
      Math.abs(to.kHz - from.kHz) / KHZ_A_US,
      Math.abs(coilAt(to.coil_uH) - coilAt(from.coil_uH)) / POSITIONS_A_US,
      Math.abs(loadingAt(to.loading_pF) - loadingAt(from.loading_pF)) / POSITIONS_A_US,
    ),
  );
}

/** Where the motors stand at `t_us`: each at its own steady speed (coil and loading evenly along their scales), the relay over at once. */
export function tuningAt(travel: Travel, t_us: number): Tuning {
  const gone_us = Math.max(0, t_us - travel.from_us);
  const { from, to } = travel;
  if (gone_us >= travelTime_us(travel)) return to;
  const coil = along(coilAt(from.coil_uH), coilAt(to.coil_uH), POSITIONS_A_US * gone_us);
  const loading = along(loadingAt(from.loading_pF), loadingAt(to.loading_pF), POSITIONS_A_US * gone_us);
  return {
    kHz: along(from.kHz, to.kHz, KHZ_A_US * gone_us),
    coil_uH: COIL_MAX_UH * squared(coil),
    loading_pF: LOADING_MAX_PF * squared(loading),
    side: to.side,
  };
}

/** Share of the forward power that comes back and share that is radiated, and of what whip and tuning. */
export type Reading = {
  back: number;
  radiated: number;
  z: WhipImpedance;
  sections: number;
  ground_ohm: number;
  at: Tuning;
};

const alike = (a: Tuning, b: Tuning): boolean =>
  a.coil_uH === b.coil_uH && a.loading_pF === b.loading_pF && a.side === b.side;

/** Reads the match. With no whip fitted everything comes back. Whatever has not changed since `last` is taken from there. */
export function readMatch(t: Tuning, whip: Wires['whip'], last: Reading | null): Reading {
  const { sections, ground_ohm } = whip;
  const sameRod = last !== null && last.at.kHz === t.kHz && last.sections === sections;
  if (sameRod && last.ground_ohm === ground_ohm && alike(last.at, t)) return last;
  const shape = { f_MHz: t.kHz / 1000, h_m: whip.height_m, a_m: whip.radius_m };
  const about = { sections, ground_ohm, at: { ...t } };
  if (sections === 0 || whipProblem(shape)) return { back: 1, radiated: 0, z: { R_ohm: 0, X_ohm: 0 }, ...about };
  const z = sameRod ? last.z : whipImpedance(shape);
  const b = matchBudget(shape.f_MHz, z, ground_ohm, t, 1);
  return { back: b.reflected_W, radiated: b.radiated_W, z, ...about };
}

/** The match for the standard fit at a frequency; null where coil or loading would not reach. */
export function standardMatch(kHz: number): Match | null {
  const load = withGround(whipImpedance({ f_MHz: kHz / 1000, ...STANDARD }), STANDARD.ground_ohm);
  const match = lMatch(kHz / 1000, load);
  return match && match.coil_uH <= COIL_MAX_UH && match.loading_pF <= LOADING_MAX_PF ? match : null;
}

/**
 * A stored setting as the scenario gives it: `kHz`, and coil, loading and side or none of them (then those of the standard
 * fit). `drift_pct` moves the stored coil, as another ground or an ageing coil does. Null for an empty peg.
 */
export function storedSetting(found: Json | undefined, drift_pct: number): Tuning | null {
  if (found === null || typeof found !== 'object' || Array.isArray(found)) return null;
  const { kHz, coil_uH, loading_pF, side } = found as { [k: string]: Json };
  if (typeof kHz !== 'number' || !(kHz >= KHZ_MIN && kHz <= KHZ_MAX)) return null;
  const standard = standardMatch(kHz) ?? { coil_uH: 0, loading_pF: 0, side: 'sender' as const };
  const coil = (typeof coil_uH === 'number' ? coil_uH : standard.coil_uH) * (1 + drift_pct / 100);
  const loading = typeof loading_pF === 'number' ? loading_pF : standard.loading_pF;
  return {
    kHz,
    coil_uH: Math.max(0, Math.min(COIL_MAX_UH, coil)),
    loading_pF: Math.max(0, Math.min(LOADING_MAX_PF, loading)),
    side: side === 'whip' || side === 'sender' ? side : standard.side,
  };
}
