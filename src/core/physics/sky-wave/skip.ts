/** Skip distance over the middle of a path. */
import { E_HEIGHT_KM, longestHop_km } from './geometry.ts';
import { dmax_km, eMuf_MHz, f2Muf_MHz } from './muf.ts';
import type { ControlPoint } from './path.ts';

const STEP_KM = 25;
const CLOSE_KM = 0.05;

/** Basic MUF of one hop of d_km by the layers over one point: the larger of F2 (to dmax) and E (to its longest hop). */
function oneHopMuf_MHz({ layer, foE_MHz }: ControlPoint, d_km: number): number {
  const f2 = f2Muf_MHz(layer, d_km, dmax_km(layer));
  return d_km <= longestHop_km(E_HEIGHT_KM) ? Math.max(f2, eMuf_MHz(foE_MHz, d_km)) : f2;
}

/** The smallest ground distance (km) at which one hop by the layers over this point carries f_MHz; 0 when it comes down everywhere, null when nowhere up to dmax. */
export function skipDistance_km(point: ControlPoint, f_MHz: number): number | null {
  const carries = (d_km: number) => oneHopMuf_MHz(point, d_km) >= f_MHz;
  if (carries(CLOSE_KM)) return 0;
  const longest = dmax_km(point.layer);
  let far = CLOSE_KM;
  while (!carries(far)) {
    if (far >= longest) return null;
    far = Math.min(longest, far + STEP_KM);
  }
  let near = Math.max(CLOSE_KM, far - STEP_KM);
  while (far - near > CLOSE_KM) {
    const between = (near + far) / 2;
    if (carries(between)) far = between;
    else near = between;
  }
  return far;
}
