/**
 * Automatic gain control in decibels, ahead of the detector: up quickly with a time constant, down at a steady rate, as
 * an amplifier does whose gain in decibels follows the voltage of a capacitor that is charged fast and drained slowly.
 */
import { exp, log10, pow } from '../numeric/elementary.ts';

/** Off, or how long a strong signal is remembered. */
export type Agc = 'off' | 'fast' | 'slow';

/** Time constant of the rise, seconds (common practice: a few milliseconds). */
export const AGC_ATTACK_s: Readonly<Record<Exclude<Agc, 'off'>, number>> = { fast: 0.002, slow: 0.005 };
/** How fast it lets go, dB a second: 60 dB in 0.2 s for Morse and print, in 2.4 s for speech (common practice). */
export const AGC_RELEASE_dB_s: Readonly<Record<Exclude<Agc, 'off'>, number>> = { fast: 300, slow: 25 };
/** Gain with nothing to hold down, dB, and the level from which it holds, dB above 1 microvolt. */
export const AGC_GAIN_dB = 50;
export const AGC_FROM_dBuV = 10;
/** So many decibels in make one out above that level: 3 dB out for 60 dB in. */
export const AGC_SLOPE = 20;

/** Lowest level it can stand at, dB above 1 microvolt: silence. */
const FLOOR_dBuV = -60;

/** Where the control stands: the level it believes in, dB above 1 microvolt. Plain JSON. */
export interface AgcState {
  readonly level_dBuV: number;
}

/** Nothing heard. */
export const agcAtRest = (): AgcState => ({ level_dBuV: FLOOR_dBuV });

/** Gain for a level, dB. With AGC off it is 0: the RF gain alone sets the level then. */
export function agcGain_dB(level_dBuV: number, agc: Agc): number {
  if (agc === 'off') return 0;
  return AGC_GAIN_dB - Math.max(0, level_dBuV - AGC_FROM_dBuV) * (1 - 1 / AGC_SLOPE);
}

/** Puts the gain on a block of complex microvolts in place. The level is followed with AGC off as well, so that it is there when switched on. */
export function agcInPlace(state: AgcState, re: Float64Array, im: Float64Array, rate: number, agc: Agc): AgcState {
  const speed = agc === 'off' ? 'fast' : agc;
  const rise = 1 - exp(-1 / (AGC_ATTACK_s[speed] * rate));
  const fall = AGC_RELEASE_dB_s[speed] / rate;
  let level = state.level_dBuV;
  for (let i = 0; i < re.length; i++) {
    const power = re[i]! * re[i]! + im[i]! * im[i]!;
    const now = power > 1e-6 ? 10 * log10(power) : FLOOR_dBuV;
    level = now > level ? level + rise * (now - level) : Math.max(now, level - fall);
    if (agc === 'off') continue;
    const gain = pow(10, agcGain_dB(level, agc) / 20);
    re[i] = re[i]! * gain;
    im[i] = im[i]! * gain;
  }
  return { level_dBuV: level };
}
