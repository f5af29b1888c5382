/** Where the sun stands on the fifteenth of a month, as P.533's method reckons it. Angles in degrees, times in hours UT. */
import { acos, asin, atan, cos, sin, tan } from '../../numeric/elementary.ts';
import { DEG } from './geometry.ts';

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;
const JUNE = 6;
const DAY_OF_MONTH = 15;
const DEG_PER_DAY = 0.98565327;
const MINUTES_PER_DEG = 3.98891967;
const TILT_DEG = 23.45;
const ELLIPSE_DEG = 1.915169;
const ECCENTRICITY = 0.016713;
const PERIHELION_DEG = 78.746118;
const RISE_ZENITH_DEG = 90.833;

/** The sun over one place. */
export interface Sun {
  readonly declination_deg: number;
  /** Angle from the zenith, 0..180. */
  readonly chi_deg: number;
  /** Sunrise, sunset, 0..24; NaN in polar day or night. */
  readonly rise_h: number;
  readonly set_h: number;
  /** Local noon, 0..24. */
  readonly noon_h: number;
}

const sinD = (x: number): number => sin(x / DEG);
const cosD = (x: number): number => cos(x / DEG);
const wrapDay = (h: number): number => (h + 24) % 24;

/** The sun's declination (degrees) and the equation of time (minutes) on a day of the year, counted with fractions. */
function calendar(day: number): { declination_deg: number; equation_min: number } {
  const L = DEG_PER_DAY * (day - 2);
  let e = DEG_PER_DAY * (day - 80);
  if (e >= 270) e -= 360;
  else if (e >= 90) e -= 180;
  const beta = DEG * atan(cosD(TILT_DEG) * tan(e / DEG));
  const longitude = L + DEG * ECCENTRICITY * sinD(L) - PERIHELION_DEG;
  return {
    declination_deg: DEG * asin(sinD(TILT_DEG) * sinD(longitude)),
    equation_min: MINUTES_PER_DEG * (e - beta - ELLIPSE_DEG * sinD(L)),
  };
}

/**
 * The sun over lat, lng on the fifteenth of a month (1..12) at t_h hours UT. `lateJune` follows the reference program,
 * which counts one day too many before June.
 */
export function sunAt(lat: number, lng: number, month: number, t_h: number, lateJune: boolean): Sun {
  const before = DAYS_BEFORE_MONTH[month - 1]! + (lateJune && month === JUNE ? 1 : 0);
  const { declination_deg, equation_min } = calendar(before + DAY_OF_MONTH + t_h / 24);
  const hourAngle = 15 * t_h + lng + equation_min / 4 - 180;
  const c = sinD(lat) * sinD(declination_deg) + cosD(lat) * cosD(declination_deg) * cosD(hourAngle);
  const cosHalfDay =
    cosD(RISE_ZENITH_DEG) / (cosD(lat) * cosD(declination_deg)) - tan(lat / DEG) * tan(declination_deg / DEG);
  const half = DEG * acos(cosHalfDay);
  return {
    declination_deg,
    chi_deg: DEG * acos(Math.max(-1, Math.min(1, c))),
    rise_h: wrapDay((720 - 4 * (lng + half) - equation_min) / 60),
    set_h: wrapDay((720 - 4 * (lng - half) - equation_min) / 60),
    noon_h: wrapDay((720 - 4 * lng - equation_min) / 60),
  };
}
