/** Basic MUF of F2 and E hops: ITU-R P.533-14 section 3. Frequencies in MHz, distances in km. */
import { cos, sin } from '../../numeric/elementary.ts';
import { polynomial } from '../../numeric/polynomial.ts';
import { DEG, E_HEIGHT_KM, elevation_deg, incidence_deg } from './geometry.ts';
import { C_D } from './method-tables.ts';

const DMAX_CAP_KM = 4000;
const HR_CAP_KM = 500;

/** The F2 layer at one point, with what P.533 derives from it. */
export interface F2Layer {
  readonly foF2: number;
  readonly M: number;
  readonly foE: number;
  /** Gyro-frequency at 300 km. */
  readonly fH300: number;
  /** foF2/foE, at least 2. */
  readonly x: number;
  readonly B: number;
  /** Longest single hop before the cap of 4000 km. */
  readonly dmRaw: number;
  /** Mirror height for field strength, at most 500 km. */
  readonly hr: number;
}

/** Derives B, dmax and the mirror height h_r from a sounding. */
export function f2Layer(foF2: number, M: number, foE: number, fH300: number): F2Layer {
  const x = Math.max(foF2 / foE, 2);
  const B = M - 0.124 + (M * M - 4) * (0.0215 + 0.005 * sin(7.854 / x - 1.9635));
  const s = 1 / (x * x);
  const dmRaw = 4780 + (12610 + s * (2140 + s * (-49720 + s * 688900))) * (1 / B - 0.303);
  return { foF2, M, foE, fH300, x, B, dmRaw, hr: Math.min(1490 / M - 176, HR_CAP_KM) };
}

/** Longest single F2 hop of the method. */
export const dmax_km = (layer: F2Layer): number => Math.min(layer.dmRaw, DMAX_CAP_KM);

const C = (d: number, dmax: number): number => polynomial(C_D, 1 - (2 * d) / dmax);

/** F2 basic MUF of a hop of d_km, with dmax that of the path's mid-point. */
export function f2Muf_MHz(layer: F2Layer, d_km: number, dmax: number): number {
  const ratio = C(Math.min(d_km, dmax), dmax) / C(3000, dmax);
  return (1 + ratio * (layer.B - 1)) * layer.foF2 + (layer.fH300 / 2) * (1 - d_km / dmax);
}

/** E basic MUF of a hop of d_km: foE sec i110. */
export const eMuf_MHz = (foE_MHz: number, d_km: number): number =>
  foE_MHz / cos(incidence_deg(elevation_deg(d_km, E_HEIGHT_KM), E_HEIGHT_KM) / DEG);
