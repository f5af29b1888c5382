/** Which F2 modes the E layer lets pass: mirror reflection height and screening frequency of ITU-R P.533-14. MHz and km. */
import { cos, pow } from '../../numeric/elementary.ts';
import { polynomial } from '../../numeric/polynomial.ts';
import { DEG, E_HEIGHT_KM, elevation_deg, incidence_deg } from './geometry.ts';
import { cappedR12 } from './ionosphere.ts';
import { MIRROR } from './method-tables.ts';
import type { F2Layer } from './muf.ts';

const HIGHEST_MIRROR_KM = 800;

/** Height that the M factor, the E layer below and the sunspots give a layer. */
function baseHeight(layer: F2Layer, R12: number): number {
  const y = Math.max(layer.foF2 / layer.foE, 1.8);
  return 1490 / (layer.M + 0.18 / (y - 1.4) + (0.096 * (cappedR12(R12) - 25)) / 150) - 316;
}

/** foF2/foE up to 3.33: the E layer bends the ray on its way. */
function overStrongE(layer: F2Layer, H: number, d: number): number {
  const y = Math.max(layer.foF2 / layer.foE, 1.8);
  const U = 8e-5 * (H - 80) * (1 + 11 * pow(y, -2.2)) + 1.2e-3 * H * pow(y, -3.6);
  return 115 + H * polynomial(MIRROR.J, y) + U * d;
}

/** foF2/foE over 3.33, f from foF2 up. */
function aboveCritical(q: number, H: number, d: number, reference: boolean): number {
  const F1 = q <= 1.71 ? polynomial(MIRROR.F1, q) : 1.21 + 0.2 * q;
  const G = q <= 3.7 ? polynomial(reference ? MIRROR.G_REFERENCE : MIRROR.G, q) : 19.25;
  const a = (d - 160 - (H + 43) * G) / (H + 140);
  const A = 140 + (H - 47) * polynomial(MIRROR.E1, q);
  const B = 150 + (H - 17) * F1 - A;
  return B >= 0 && a >= 0 ? A + B * pow(2.4, -a) : A + B;
}

/** foF2/foE over 3.33, f under foF2. */
function belowCritical(q: number, H: number, d: number): number {
  const Z = Math.max(q, 0.1);
  const A = 151 + (H - 47) * polynomial(MIRROR.E2, Z);
  const B = 141 + (H - 24) * polynomial(MIRROR.F2, Z) - A;
  const df = Math.min((0.115 * d) / (Z * (H + 140)), 0.65);
  return B >= 0 ? A + B * polynomial(MIRROR.B, df) : A + B;
}

/** Mirror height of a hop of d_km at f_MHz, at most 800 km; it serves the screening only. */
export function mirrorHeight_km(layer: F2Layer, f_MHz: number, d_km: number, R12: number, reference: boolean): number {
  const H = baseHeight(layer, R12);
  const q = f_MHz / layer.foF2;
  let h: number;
  if (layer.foF2 / layer.foE <= 3.33) h = overStrongE(layer, H, d_km);
  else if (q >= 1) h = aboveCritical(q, H, d_km, reference);
  else h = belowCritical(q, H, d_km);
  return Math.min(h, HIGHEST_MIRROR_KM);
}

/** Frequency up to which an E layer of foE_MHz screens a hop of d_km with mirror height h_km. */
export const screeningFrequency_MHz = (foE_MHz: number, d_km: number, h_km: number): number =>
  (1.05 * foE_MHz) / cos(incidence_deg(elevation_deg(d_km, h_km), E_HEIGHT_KM) / DEG);
