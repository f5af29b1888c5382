/** Absorption of a ray in the D and E regions: ITU-R P.533-14, where the ray of each hop crosses 90 km. */
import { atan2, cos, pow } from '../../numeric/elementary.ts';
import { polynomial } from '../../numeric/polynomial.ts';
import type { Conditions } from './conditions.ts';
import { eLayer } from './e-layer.ts';
import { alongPath, DEG, incidence_deg, PENETRATION_HEIGHT_KM, type Place, R0_KM } from './geometry.ts';
import { magneticField } from './magnetic-field.ts';
import {
  AT_NOON,
  AT_NOON_ROW,
  EXPONENT_KNEE_DEG,
  EXPONENT_LOWER,
  EXPONENT_UPPER,
  PHI_HIGH,
  PHI_LOW,
} from './method-tables.ts';
import { sunAt } from './sun.ts';

const FIELD_HEIGHT_KM = 100;
const DIP_CAP_DEG = 70;
const TWILIGHT_CHI_DEG = 102;
const LEAST_SUN_FACTOR = 0.02;
const GRAZING_PHI = 0.34;
const MOST_PHI = 0.53;

/** What one crossing of the absorbing region does to any frequency. */
export interface Crossing {
  readonly place: Place;
  readonly foE_MHz: number;
  /** AT at noon times F(chi)/F(chi at noon). */
  readonly k: number;
}

function atNoon(lat: number, month: number): number {
  const row = AT_NOON[AT_NOON_ROW[month - 1]!]!;
  const u = Math.min(Math.abs(lat), 69.99) / 2.5;
  const i = Math.trunc(u);
  return row[i]! + (u - i) * (row[i + 1]! - row[i]!);
}

/** Diurnal exponent p by modified dip and month; south of the equator the seasons change places. */
export function diurnalExponent({ lat }: Place, dip_deg: number, month: number): number {
  const m = (lat < 0 ? month + 5 : month - 1) % 12;
  const X = Math.min(Math.abs(DEG * atan2(dip_deg / DEG, Math.sqrt(cos(lat / DEG)))), DIP_CAP_DEG);
  const knee = EXPONENT_KNEE_DEG[m]!;
  if (X <= knee) return polynomial(EXPONENT_LOWER[m]!, -1 + (2 * X) / knee);
  return polynomial(EXPONENT_UPPER[m]!, -1 + (2 * (X - knee)) / (DIP_CAP_DEG - knee));
}

function sunFactor(chi_deg: number, p: number): number {
  const c = cos((0.881 * chi_deg) / DEG);
  return c <= 0 ? LEAST_SUN_FACTOR : Math.max(pow(c, p), LEAST_SUN_FACTOR);
}

function crossingAt(place: Place, conditions: Conditions): Crossing {
  const { month, reference } = conditions;
  const { sun, foE_MHz } = eLayer(place, conditions);
  const p = diurnalExponent(place, magneticField(place, FIELD_HEIGHT_KM).dip_deg, month);
  const noonChi = sunAt(place.lat, place.lng, month, sun.noon_h, reference).chi_deg;
  const now = sunFactor(Math.min(sun.chi_deg, TWILIGHT_CHI_DEG), p);
  return { place, foE_MHz, k: (atNoon(place.lat, month) * now) / sunFactor(noonChi, p) };
}

/** The 2n crossings of 90 km by n hops that leave at an elevation. */
export function crossings(
  from: Place,
  to: Place,
  D_km: number,
  n: number,
  el_deg: number,
  conditions: Conditions,
): Crossing[] {
  const offset_km = (R0_KM * (90 - el_deg - incidence_deg(el_deg, PENETRATION_HEIGHT_KM))) / DEG;
  const points: Crossing[] = [];
  for (let j = 0; j < n; j++) {
    for (const s_km of [(j * D_km) / n + offset_km, ((j + 1) * D_km) / n - offset_km]) {
      points.push(crossingAt(alongPath(from, to, D_km, s_km / D_km), conditions));
    }
  }
  return points;
}

/** How far a vertical frequency of T = f_v/foE gets into the E layer, 1 far above it. */
export function penetration(T: number): number {
  let phi = GRAZING_PHI;
  if (T <= 1) phi = Math.min(polynomial(PHI_LOW, (T - 0.475) / 0.475), MOST_PHI);
  else if (T <= 2.2) phi = Math.min(polynomial(PHI_HIGH, (T - 1.65) / 0.55), MOST_PHI);
  else if (T <= 10) phi = GRAZING_PHI + ((10 - T) * 0.02) / 7.8;
  return phi / GRAZING_PHI;
}

/** Absorption factor A_T of a mode at the vertical frequency f_v: the mean over its crossings. */
export const absorptionFactor = (points: readonly Crossing[], fv_MHz: number): number =>
  points.reduce((sum, { k, foE_MHz }) => sum + k * penetration(fv_MHz / foE_MHz), 0) / points.length;
