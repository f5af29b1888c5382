/** Great circles and mirror geometry of P.533. Latitudes, longitudes, elevations and angles of incidence in degrees, distances and heights in km. */
import { asin, atan, atan2, cos, hypot, sin, tan } from '../../numeric/elementary.ts';

/** Radius of the Earth that P.533 uses, km. */
export const R0_KM = 6371.009;
/** Height of the E layer's mirror and of the incidence at which absorption is reckoned, km. */
export const E_HEIGHT_KM = 110;
/** Height at which a ray crosses the absorbing region, km. */
export const PENETRATION_HEIGHT_KM = 90;

const LOWEST_ELEVATION_DEG = 3;
const LONGEST_HOP_KM = 4000;

/** Degrees in one radian. */
export const DEG = 180 / Math.PI;

/** North and east degrees. */
export interface Place {
  readonly lat: number;
  readonly lng: number;
}

/** Length of the shorter great circle between two places. */
export function distance_km(a: Place, b: Place): number {
  const s = sin((b.lat - a.lat) / 2 / DEG);
  const t = sin((b.lng - a.lng) / 2 / DEG);
  const h = s * s + cos(a.lat / DEG) * cos(b.lat / DEG) * t * t;
  return 2 * R0_KM * asin(Math.min(1, Math.sqrt(h)));
}

const unit = ({ lat, lng }: Place): [number, number, number] => {
  const c = cos(lat / DEG);
  return [c * cos(lng / DEG), c * sin(lng / DEG), sin(lat / DEG)];
};

/** The place at the fraction u (0..1) of a path whose length is D_km, above 0. */
export function alongPath(from: Place, to: Place, D_km: number, u: number): Place {
  const w = D_km / R0_KM;
  const a = sin((1 - u) * w) / sin(w);
  const b = sin(u * w) / sin(w);
  const p = unit(from);
  const q = unit(to);
  const [x, y, z] = [a * p[0] + b * q[0], a * p[1] + b * q[1], a * p[2] + b * q[2]];
  return { lat: DEG * atan2(z, hypot(x, y)), lng: DEG * atan2(y, x) };
}

/** Elevation of a hop of ground length d_km by a mirror at h_km. */
export function elevation_deg(d_km: number, h_km: number): number {
  const q = d_km / (2 * R0_KM);
  return DEG * atan(1 / tan(q) - R0_KM / ((R0_KM + h_km) * sin(q)));
}

/** Angle of incidence at height h_km of a ray leaving at an elevation. */
export const incidence_deg = (el_deg: number, h_km: number): number =>
  DEG * asin((R0_KM * cos(el_deg / DEG)) / (R0_KM + h_km));

/** Longest hop by a mirror at h_km: 3 degrees of elevation, at most 4000 km. */
export function longestHop_km(h_km: number): number {
  const half_deg = 90 - incidence_deg(LOWEST_ELEVATION_DEG, h_km) - LOWEST_ELEVATION_DEG;
  return Math.min(LONGEST_HOP_KM, (2 * R0_KM * half_deg) / DEG);
}

/** Length of the ray over n hops of a path of D_km at an elevation. */
export function slantPath_km(D_km: number, n: number, el_deg: number): number {
  const q = D_km / n / (2 * R0_KM);
  return n * Math.abs((2 * R0_KM * sin(q)) / cos(el_deg / DEG + q));
}
