/** The hour for which a sky-wave path is reckoned, and whose sun shines on it. */

/** Month, hour and solar activity; `reference` as in skyWave. */
export interface Conditions {
  /** 1..12. */
  readonly month: number;
  /** 0..24, hours UT. */
  readonly hour_UT: number;
  /** Twelve-month smoothed sunspot number, 0..311. */
  readonly R12: number;
  readonly reference: boolean;
}

/**
 * How many hours late the reference program's sun runs: it evaluates the maps at the hour named, the sun an hour before.
 * Against 8601 measured monthly medians of the ITU data bank D1 the sun at its own hour is nearer (rms 7.5 against 7.9 dB).
 */
export const REFERENCE_SUN_LAG_H = 1;

/** The hour (0..24) at which the sun is taken. */
export const sunHour = ({ hour_UT, reference }: Conditions): number =>
  (hour_UT + 24 - (reference ? REFERENCE_SUN_LAG_H : 0)) % 24;
