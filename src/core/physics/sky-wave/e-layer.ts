/** Critical frequency of the E layer: ITU-R P.1239. */
import { cos, exp, pow } from '../../numeric/elementary.ts';
import { type Conditions, sunHour } from './conditions.ts';
import { DEG, type Place } from './geometry.ts';
import { cappedR12 } from './ionosphere.ts';
import { type Sun, sunAt } from './sun.ts';

const POLAR_LATITUDE = 72.5622;
const WINTER = [11, 12, 1];
const SUMMER = [5, 6, 7];

const cosD = (x: number): number => cos(x / DEG);

/** 10.7 cm flux that goes with a sunspot number. */
const flux = (R: number): number => 63.7 + 0.728 * R + 0.00089 * R * R;

/** B, by the latitude and season, times C, by latitude. */
function placeFactor(lat: number, declination_deg: number): number {
  const high = Math.abs(lat) >= 32;
  const m = high ? 0.11 - 0.49 * cosD(lat) : -1.93 + 1.92 * cosD(lat);
  const C = high ? 92 + 35 * cosD(lat) : 23 + 116 * cosD(lat);
  const N = Math.abs(lat - declination_deg) >= 80 ? 80 : lat - declination_deg;
  return pow(cosD(N), m) * C;
}

/** Hours since sunset; 0 by the clock's day and in polar day or night, where rise and set are NaN and no comparison holds. */
function hoursAfterSunset(clock_h: number, { rise_h, set_h }: Sun): number {
  if (set_h >= rise_h) {
    if (clock_h >= set_h) return clock_h - set_h;
    return clock_h < rise_h ? 24 - set_h + clock_h : 0;
  }
  return set_h <= clock_h && clock_h < rise_h ? clock_h - set_h : 0;
}

/** P.1239 has no decay after sunset in the polar winter night; the reference program leaves it out in summer elsewhere. */
function decays(lat: number, month: number, reference: boolean): boolean {
  if (lat > POLAR_LATITUDE) return !WINTER.includes(month);
  return !(reference && lat < POLAR_LATITUDE && SUMMER.includes(month));
}

/** D, by the sun's height; at night by the hours since sunset. */
function sunFactor(place: Place, sun: Sun, conditions: Conditions): number {
  const chi = sun.chi_deg;
  const p = Math.abs(place.lat) <= 12 ? 1.31 : 1.2;
  if (chi <= 73) return pow(cosD(chi), p);
  if (chi < 90) {
    const over = (chi - 50) * (chi - 50);
    return pow(cosD(chi - 6.27e-13 * over * over * over * over), p);
  }
  const k = pow(0.072, p);
  const twilight = k * exp(25.2 - 0.28 * chi);
  if (!decays(place.lat, conditions.month, conditions.reference)) return twilight;
  return Math.max(k * exp(-1.4 * hoursAfterSunset(conditions.hour_UT % 24, sun)), twilight);
}

/** The E layer at a place, with the sun that made it. */
export interface ESounding {
  readonly sun: Sun;
  readonly foE_MHz: number;
}

/** foE at a place in MHz. */
export function eLayer(place: Place, conditions: Conditions): ESounding {
  const sun = sunAt(place.lat, place.lng, conditions.month, sunHour(conditions), conditions.reference);
  const Phi = flux(cappedR12(conditions.R12));
  const day =
    (1 + 0.0094 * (Phi - 66)) * placeFactor(place.lat, sun.declination_deg) * sunFactor(place, sun, conditions);
  const least = 0.004 * (1 + 0.021 * Phi) * (1 + 0.021 * Phi);
  return { sun, foE_MHz: pow(Math.max(day, least), 0.25) };
}
