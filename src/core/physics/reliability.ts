/** Reliability of a circuit for one hour and frequency, by medians and deciles of signal and noise: the way of ITU-R P.842 and P.533. */
import { upperTail } from '../numeric/special.ts';
import { type NoiseFigure, noiseField_dBuV_per_m } from './noise/noise.ts';

/** How far a level's upper and lower decile lie from its median, dB, from 0 up. */
export interface Deciles {
  readonly Du_dB: number;
  readonly Dl_dB: number;
}

/**
 * Day-to-day deciles of a sky-wave signal by f over basic MUF, below and from 60 degrees of geomagnetic latitude up
 * (ITU-R P.842 and P.533; from memory).
 */
const DAY_TO_DAY: readonly (readonly [ratio: number, Dl: number, Du: number, DlHigh: number, DuHigh: number])[] = [
  [0.8, 8, 6, 11, 9],
  [1.0, 12, 8, 16, 11],
  [1.2, 13, 12, 17, 12],
  [1.4, 10, 13, 13, 13],
  [1.6, 8, 12, 11, 12],
  [1.8, 8, 9, 11, 9],
  [2.0, 8, 9, 11, 9],
  [3.0, 7, 8, 9, 8],
  [4.0, 6, 7, 8, 7],
  [5.0, 5, 7, 7, 7],
];
/** Deciles of a fading signal within the hour (P.842, from memory). */
const WITHIN_HOUR: Deciles = { Du_dB: 5, Dl_dB: 8 };
const HIGH_LATITUDE_DEG = 60;
const DECILE_OF_UNIT_NORMAL = 1.2815515655446004;

const rootSum = (...xs: readonly number[]): number => Math.sqrt(xs.reduce((sum, x) => sum + x * x, 0));

/** Deciles of a sky-wave signal, day to day and within the hour together; linear between the table's ratios of f to basic MUF, held beyond its ends. */
export function skySignalDeciles(f_MHz: number, MUF_MHz: number, geomagneticLatitude_deg: number): Deciles {
  const ratio = f_MHz / MUF_MHz;
  if (!(ratio > 0)) throw new RangeError(`f over MUF must be above 0, got ${f_MHz} / ${MUF_MHz}`);
  const next = DAY_TO_DAY.findIndex(([r]) => r >= ratio);
  const above = DAY_TO_DAY[next < 0 ? DAY_TO_DAY.length - 1 : next]!;
  const below = DAY_TO_DAY[next < 0 ? DAY_TO_DAY.length - 1 : Math.max(0, next - 1)]!;
  const share = above === below ? 0 : (ratio - below[0]) / (above[0] - below[0]);
  const high = geomagneticLatitude_deg >= HIGH_LATITUDE_DEG ? 2 : 0;
  const at = (column: 1 | 2) => {
    const [low, top] = [below[column + high]!, above[column + high]!];
    return low + share * (top - low);
  };
  return { Dl_dB: rootSum(at(1), WITHIN_HOUR.Dl_dB), Du_dB: rootSum(at(2), WITHIN_HOUR.Du_dB) };
}

/** A ground wave stays where it is from day to day; its noise does not. */
export const STEADY: Deciles = { Du_dB: 0, Dl_dB: 0 };

/** A circuit at one hour and frequency. */
export interface CircuitQuestion {
  /** Median field of the signal, dB above 1 uV/m. */
  readonly E_dBuV_per_m: number;
  /** Spread of the signal: `skySignalDeciles`, or STEADY for a ground wave. */
  readonly signal: Deciles;
  /** External noise, of a short monopole. */
  readonly noise: NoiseFigure;
  readonly f_MHz: number;
  /** Bandwidth of the noise, Hz, above 0. */
  readonly b_Hz: number;
  readonly required_SNR_dB: number;
}

/** Median signal-to-noise ratio of a circuit, dB, and its deciles: a strong signal with little noise makes the upper one. */
export function signalToNoise(question: Omit<CircuitQuestion, 'required_SNR_dB'>): Deciles & { SNR_dB: number } {
  const { E_dBuV_per_m, signal, noise, f_MHz, b_Hz } = question;
  return {
    SNR_dB: E_dBuV_per_m - noiseField_dBuV_per_m(noise.Fam_dB, f_MHz, b_Hz),
    Du_dB: rootSum(signal.Du_dB, noise.Dl_dB),
    Dl_dB: rootSum(signal.Dl_dB, noise.Du_dB),
  };
}

/**
 * Probability 0..1 that the signal-to-noise ratio is at least the one required, on the days of the month. The ratio is
 * taken as log-normal with its own spread on either side of the median; P.842's rational curve meets it at 10, 50 and 90 %.
 */
export function reliability(question: CircuitQuestion): number {
  const { SNR_dB, Du_dB, Dl_dB } = signalToNoise(question);
  const margin_dB = SNR_dB - question.required_SNR_dB;
  if (!Number.isFinite(margin_dB)) throw new RangeError(`margin must be finite, got ${margin_dB} dB`);
  const decile_dB = margin_dB >= 0 ? Dl_dB : Du_dB;
  if (decile_dB === 0) return margin_dB >= 0 ? 1 : 0;
  return upperTail((-DECILE_OF_UNIT_NORMAL * margin_dB) / decile_dB);
}
