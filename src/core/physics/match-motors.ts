/** The matcher's two motors and relay: what a position means, and how fast it changes. */
import type { LoadingSide, Match } from './matching.ts';

/** Motor positions run from 0 to this, both ends included. */
export const MATCH_POSITIONS = 4000;
/** One tick of the motors, milliseconds. */
export const MATCH_TICK_MS = 20;
/** Largest coil, microhenries: 143 are needed by the whole whip at 1.8 MHz. */
export const COIL_MAX_UH = 150;
/** Largest loading capacitor, picofarads: 3200 are needed at 1.8 MHz over the best earth. */
export const LOADING_MAX_PF = 4000;

const FULL_TRAVEL_MS = 8000;
const POSITIONS_A_TICK = (MATCH_POSITIONS * MATCH_TICK_MS) / FULL_TRAVEL_MS;

/** Where coil and loading motors stand, whole positions 0 to MATCH_POSITIONS, and which end the loading hangs on. */
export type MatchPosition = { readonly coil: number; readonly loading: number; readonly side: LoadingSide };

function share(position: number): number {
  if (!Number.isInteger(position) || position < 0 || position > MATCH_POSITIONS)
    throw new RangeError(`motor position must be a whole number 0 to ${MATCH_POSITIONS}, got ${position}`);
  return (position * position) / (MATCH_POSITIONS * MATCH_POSITIONS);
}

/** Nearest position for a share of the largest value; shares outside 0 to 1 give the end of travel. */
const position = (part: number): number => Math.round(MATCH_POSITIONS * Math.sqrt(Math.max(0, Math.min(1, part))));

/** Coil and capacitor at a position: both grow with the square of the travel, fine near zero where high frequencies need it. Throws RangeError off the scale. */
export function matchAt({ coil, loading, side }: MatchPosition): Match {
  return { coil_uH: COIL_MAX_UH * share(coil), loading_pF: LOADING_MAX_PF * share(loading), side };
}

/** Nearest position to a setting; a setting beyond an end of travel gives that end. */
export function nearestPosition({ coil_uH, loading_pF, side }: Match): MatchPosition {
  return { coil: position(coil_uH / COIL_MAX_UH), loading: position(loading_pF / LOADING_MAX_PF), side };
}

/** Whether coil and capacitor are large enough for a setting. */
export const withinReach = ({ coil_uH, loading_pF }: Match): boolean =>
  coil_uH >= 0 && coil_uH <= COIL_MAX_UH && loading_pF >= 0 && loading_pF <= LOADING_MAX_PF;

const towards = (from: number, to: number): number =>
  from + Math.max(-POSITIONS_A_TICK, Math.min(POSITIONS_A_TICK, to - from));

/** One tick of both motors toward a goal; the relay moves at once. Full travel takes 8 s. */
export function motorStep(at: MatchPosition, goal: MatchPosition): MatchPosition {
  return { coil: towards(at.coil, goal.coil), loading: towards(at.loading, goal.loading), side: goal.side };
}

/** Whether the motors and the relay stand where they should. */
export const arrived = (at: MatchPosition, goal: MatchPosition): boolean =>
  at.coil === goal.coil && at.loading === goal.loading && at.side === goal.side;
