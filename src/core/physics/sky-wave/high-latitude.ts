/** L_h, the auroral and other losses of high latitudes: ITU-R P.533-14. */
import { asin, cos, sin } from '../../numeric/elementary.ts';
import { DEG, type Place } from './geometry.ts';
import { L_H } from './method-tables.ts';

const POLE_LATITUDE_DEG = 78.5;
const POLE_WEST_DEG = 68.2;
const LONG_HOP_KM = 2500;

/** Geomagnetic latitude (dipole), without its sign, degrees. */
export function geomagneticLatitude_deg({ lat, lng }: Place): number {
  const s = sin(lat / DEG) * sin(POLE_LATITUDE_DEG / DEG);
  const c = cos(lat / DEG) * cos(POLE_LATITUDE_DEG / DEG) * cos((lng + POLE_WEST_DEG) / DEG);
  return Math.abs(DEG * asin(Math.max(-1, Math.min(1, s + c))));
}

/** DJF 0, the equinoxes 1, JJA 2. */
function seasonOf(month: number): number {
  if (month === 12 || month <= 2) return 0;
  return month >= 6 && month <= 8 ? 2 : 1;
}

/** The local hour that L_h uses, from the sun's hour and the longitude of the path's middle; may be negative. */
export const localHour = (sun_h: number, lng: number): number => Math.trunc(sun_h + Math.trunc(lng / 15)) % 24;

/** Hours 1-3 are column 0, ... 19-21 column 6; 22, 23, 0 and what is negative column 7. */
const columnOf = (hour: number): number => (hour < 1 || hour > 21 ? 7 : Math.floor((hour - 1) / 3));

/** L_h in dB at a control point for hops of hop_km. */
export function highLatitudeLoss_dB(place: Place, hop_km: number, month: number, hour: number): number {
  const g = geomagneticLatitude_deg(place);
  if (g < 42.5) return 0;
  const row = g >= 77.5 ? 0 : Math.ceil((77.5 - g) / 5);
  return L_H[hop_km <= LONG_HOP_KM ? 0 : 1]![seasonOf(month)]![row]![columnOf(hour)]!;
}
