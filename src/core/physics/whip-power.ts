import { log10 } from '../numeric/elementary.ts';
import type { WhipImpedance } from './whip.ts';

/** Where a sender's watts go at the base of a tuned whip. */
export type WhipPower = {
  /** Share of the power that is radiated, 0 to 1. */
  readonly efficiency: number;
  /** The same in dB, never above 0. */
  readonly efficiency_dB: number;
  /** Base current, amperes rms. */
  readonly baseCurrent_A: number;
  /** Voltage from base to earth across whip and earth loss, volts rms: thousands at low frequencies, hence the guard. */
  readonly baseVolts_V: number;
};

/** Power budget of a tuned whip that takes `power_W` (from 0) into radiation, earth loss and coil loss in series (ohms, from 0). Throws RangeError on a negative or unbounded number. */
export function whipPower(z: WhipImpedance, groundLoss_ohm: number, coilLoss_ohm: number, power_W: number): WhipPower {
  const total_ohm = z.R_ohm + groundLoss_ohm + coilLoss_ohm;
  if (
    !(groundLoss_ohm >= 0 && coilLoss_ohm >= 0 && power_W >= 0 && z.R_ohm > 0 && Number.isFinite(total_ohm + power_W))
  )
    throw new RangeError(
      `whip power needs ohms and watts from 0, got ${z.R_ohm}, ${groundLoss_ohm}, ${coilLoss_ohm}, ${power_W}`,
    );
  const efficiency = z.R_ohm / total_ohm;
  const baseCurrent_A = Math.sqrt(power_W / total_ohm);
  const load_ohm = z.R_ohm + groundLoss_ohm;
  return {
    efficiency,
    efficiency_dB: 10 * log10(efficiency),
    baseCurrent_A,
    baseVolts_V: baseCurrent_A * Math.sqrt(load_ohm * load_ohm + z.X_ohm * z.X_ohm),
  };
}
