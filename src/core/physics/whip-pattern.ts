import { cos, log10, sin } from '../numeric/elementary.ts';

/** Ground under a whip: relative permittivity from 1 and conductivity in siemens per metre above 0. */
export type WhipGround = { readonly eps_r: number; readonly sigma_S_m: number };

const EPS0_F_M = 8.8541878128e-12;

/**
 * Vertical-polarisation reflection at grazing angle `elevation` as [re, im]: (eta sin d - q)/(eta sin d + q), q = sqrt(eta - cos^2 d),
 * eta = eps_r - j sigma/(2 pi f eps0) (Fresnel; the form used for ground reflection in ITU-R P.533 and P.527).
 */
function reflection(ground: WhipGround, f_MHz: number, elevation_rad: number): [re: number, im: number] {
  const s = sin(elevation_rad);
  const loss = ground.sigma_S_m / (2 * Math.PI * f_MHz * 1e6 * EPS0_F_M);
  // Principal root of p - j loss: real part positive, imaginary part negative.
  const p = ground.eps_r - (1 - s * s);
  const size = Math.sqrt(p * p + loss * loss);
  const qRe = Math.sqrt((size + p) / 2);
  const qIm = -Math.sqrt(Math.max(0, (size - p) / 2));
  const [nRe, nIm] = [ground.eps_r * s - qRe, -loss * s - qIm];
  const [dRe, dIm] = [ground.eps_r * s + qRe, -loss * s + qIm];
  const norm = dRe * dRe + dIm * dIm;
  return [(nRe * dRe + nIm * dIm) / norm, (nIm * dRe - nRe * dIm) / norm];
}

/**
 * Sky-wave gain in dBi of a short lossless whip on real ground at `elevation_deg` (above 0, under 90): 4.77 dBi on perfect ground,
 * times cosine of elevation, times half of 1 + ground reflection; earth and coil loss come on top (`whipPower`). Throws RangeError outside.
 */
export function whipGain_dBi(ground: WhipGround, f_MHz: number, elevation_deg: number): number {
  if (!(elevation_deg > 0 && elevation_deg < 90))
    throw new RangeError(`elevation must be between 0 and 90 degrees, got ${elevation_deg}`);
  if (!(ground.eps_r >= 1 && ground.sigma_S_m > 0 && f_MHz > 0 && f_MHz <= 1000))
    throw new RangeError(`ground or frequency out of range: ${ground.eps_r}, ${ground.sigma_S_m} S/m, ${f_MHz} MHz`);
  const elevation_rad = (elevation_deg * Math.PI) / 180;
  const [re, im] = reflection(ground, f_MHz, elevation_rad);
  const c = cos(elevation_rad);
  return 10 * log10((3 * c * c * ((1 + re) * (1 + re) + im * im)) / 4);
}
