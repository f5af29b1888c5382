/** The signal meter: IARU Region 1 Technical Recommendation R.1 (1981): quasi-peak, S9 at 50 microvolts below 30 MHz, 6 dB an S unit. */
import { exp } from '../numeric/elementary.ts';
import { ratioToDb } from '../quantity/quantity.ts';

/** Attack and decay of the meter, seconds, as time constants (R.1: 10 ms, and at least 500 ms). */
export const METER_ATTACK_s = 0.01;
export const METER_DECAY_s = 0.5;
/** S9: 50 microvolts across a receiver of 50 ohm (R.1), which an EMF of twice that behind 50 ohm puts there, microvolts. */
export const S9_EMF_uV = 2 * 50;
/** Decibels between two S units. */
export const S_UNIT_dB = 6;

/** Where the meter stands, microvolts. Plain JSON. */
export interface MeterState {
  readonly uV: number;
}

/** The meter after a block of complex microvolts. */
export function meterRun(state: MeterState, re: Float64Array, im: Float64Array, rate: number): MeterState {
  const up = 1 - exp(-1 / (METER_ATTACK_s * rate));
  const down = 1 - exp(-1 / (METER_DECAY_s * rate));
  let { uV } = state;
  for (let i = 0; i < re.length; i++) {
    const now = Math.sqrt(re[i]! * re[i]! + im[i]! * im[i]!);
    uV += (now > uV ? up : down) * (now - uV);
  }
  return { uV };
}

/** S units 0..9 and decibels over S9 (0 below it) for an EMF behind 50 ohm, as the receiver's levels are, microvolts. */
export function sUnits(emf_uV: number): { readonly s: number; readonly over_dB: number } {
  const over = 2 * ratioToDb(Math.max(1e-6, emf_uV) / S9_EMF_uV);
  return { s: Math.min(9, Math.max(0, 9 + over / S_UNIT_dB)), over_dB: Math.max(0, over) };
}
