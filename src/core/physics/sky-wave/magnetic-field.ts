/** The Earth's magnetic field to degree 6, as the P.1239 maps and P.533 use it. */
import { atan2, cos, hypot, sin } from '../../numeric/elementary.ts';
import { DEG, type Place, R0_KM } from './geometry.ts';
import { FIELD_G, FIELD_H } from './method-tables.ts';

const DEGREE = 6;
const GYRO_MHZ_PER_GAUSS = 2.8;

/** The field at a point, as a radio wave feels it. */
export interface MagneticField {
  /** Dip below the horizontal, -90..90. */
  readonly dip_deg: number;
  /** Electron gyro-frequency. */
  readonly gyro_MHz: number;
}

/** P and Q = dP/d(lat) of order m, degrees m..6, Gauss-normalised; built up from the sector function of order m. */
function associated(m: number, s: number, c: number): { P: number[]; Q: number[] } {
  let sector = 1;
  let slope = 0;
  for (let n = 1; n <= m; n++) {
    slope = c * slope + s * sector;
    sector = c * sector;
  }
  const P = [sector];
  const Q = [slope];
  for (let n = m + 1; n <= DEGREE; n++) {
    const i = n - m;
    const k = n === 1 ? 0 : ((n - 1) * (n - 1) - m * m) / ((2 * n - 1) * (2 * n - 3));
    const [P1, P2, Q1, Q2] = [P[i - 1]!, P[i - 2] ?? 0, Q[i - 1]!, Q[i - 2] ?? 0];
    P.push(s * P1 - k * P2);
    Q.push(s * Q1 - c * P1 - k * Q2);
  }
  return { P, Q };
}

/** Field at a place and a height in km above ground. */
export function magneticField({ lat, lng }: Place, height_km: number): MagneticField {
  const s = sin(lat / DEG);
  const c = cos(lat / DEG);
  const r = R0_KM / (R0_KM + height_km);
  const powers = [r * r];
  for (let n = 1; n <= DEGREE; n++) powers.push(powers[n - 1]! * r);
  let [X, Y, Z] = [0, 0, 0];
  for (let m = 0; m <= DEGREE; m++) {
    const { P, Q } = associated(m, s, c);
    const cm = cos((m * lng) / DEG);
    const sm = sin((m * lng) / DEG);
    for (let n = m; n <= DEGREE; n++) {
      const g = FIELD_G[n]![m]!;
      const h = FIELD_H[n]![m]!;
      const fall = powers[n]!;
      Z += fall * (n + 1) * P[n - m]! * (g * cm + h * sm);
      X -= fall * Q[n - m]! * (g * cm + h * sm);
      Y += (fall * m * P[n - m]! * (g * sm - h * cm)) / c;
    }
  }
  const level = hypot(X, Y);
  return { dip_deg: DEG * atan2(Z, level), gyro_MHz: GYRO_MHZ_PER_GAUSS * hypot(level, Z) };
}
