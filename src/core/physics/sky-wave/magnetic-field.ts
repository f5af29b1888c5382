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

/** k[n][m] of the recursion P[n][m] = sin(lat) P[n-1][m] - k P[n-2][m], n > m. */
const RECURSION = FIELD_G.map((row, n) =>
  row.map((_, m) => (n <= 1 ? 0 : ((n - 1) * (n - 1) - m * m) / ((2 * n - 1) * (2 * n - 3)))),
);

/** Field at a place and a height in km above ground. */
export function magneticField({ lat, lng }: Place, height_km: number): MagneticField {
  const s = sin(lat / DEG);
  const c = cos(lat / DEG);
  const r = R0_KM / (R0_KM + height_km);
  let X = 0;
  let Y = 0;
  let Z = 0;
  // The sector function P[m][m] with its slope in latitude, and r^(m+2).
  let sector = 1;
  let sectorSlope = 0;
  let sectorFall = r * r;
  for (let m = 0; m <= DEGREE; m++) {
    const cm = cos((m * lng) / DEG);
    const sm = sin((m * lng) / DEG);
    let P = sector;
    let Q = sectorSlope;
    let [P1, Q1, fall] = [0, 0, sectorFall];
    for (let n = m; n <= DEGREE; n++) {
      const g = FIELD_G[n]![m]!;
      const h = FIELD_H[n]![m]!;
      Z += fall * (n + 1) * P * (g * cm + h * sm);
      X -= fall * Q * (g * cm + h * sm);
      Y += (fall * m * P * (g * sm - h * cm)) / c;
      const k = n < DEGREE ? RECURSION[n + 1]![m]! : 0;
      const nextP = s * P - k * P1;
      const nextQ = s * Q - c * P - k * Q1;
      P1 = P;
      Q1 = Q;
      P = nextP;
      Q = nextQ;
      fall *= r;
    }
    sectorSlope = c * sectorSlope + s * sector;
    sector *= c;
    sectorFall *= r;
  }
  const level = hypot(X, Y);
  return { dip_deg: DEG * atan2(Z, level), gyro_MHz: GYRO_MHZ_PER_GAUSS * hypot(level, Z) };
}
