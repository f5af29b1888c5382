/** Ground wave over a path of several grounds: Millington's method (ITU-R P.368, annex on mixed paths). */
import { log10 } from '../../numeric/elementary.ts';
import { type Ground, heightFactor, type Polarization, surface } from './ground.ts';
import { type GroundWaveField, groundWave } from './ground-wave.ts';

/** A stretch of path over one ground, at least 0.01 km. */
export interface Section {
  readonly ground: Ground;
  readonly d_km: number;
}

/** A path of sections in order from the sender to the receiver; the other fields as in GroundWavePath. */
export interface MixedPath {
  readonly f_MHz: number;
  readonly sections: readonly Section[];
  readonly h_tx_m?: number;
  readonly h_rx_m?: number;
  readonly power_W?: number;
  readonly N_s?: number;
  readonly pol?: Polarization;
}

type FieldAt = (ground: Ground, d_km: number) => number;

/** E1(d1) - E2(d1) + E2(d1 + d2) - E3(d1 + d2) + ..., dB. */
function oneWay(sections: readonly Section[], field: FieldAt): number {
  let d_km = 0;
  let E = 0;
  for (const section of sections) {
    if (d_km > 0) E -= field(section.ground, d_km);
    d_km += section.d_km;
    E += field(section.ground, d_km);
  }
  return E;
}

/** Field over a mixed path: the mean in dB of the way there and the way back; RangeError for no section or one of under 0.01 km. */
export function mixedGroundWave(path: MixedPath): GroundWaveField {
  const { sections, h_tx_m = 0, h_rx_m = 0, N_s = 315, pol = 'V', f_MHz } = path;
  const first = sections[0];
  const last = sections[sections.length - 1];
  if (!first || !last) throw new RangeError('a mixed path needs at least one section, got none');
  for (const { d_km } of sections)
    if (!(d_km >= 0.01)) throw new RangeError(`a section must be at least 0.01 km, got ${d_km}`);
  if (sections.every(({ ground }) => same(ground, first.ground))) {
    return groundWave({ ...path, ground: first.ground, d_km: sections.reduce((sum, { d_km }) => sum + d_km, 0) });
  }
  const field: FieldAt = (ground, d_km) =>
    groundWave({ f_MHz, ground, d_km, N_s, pol, power_W: path.power_W ?? 1000 }).E_dBuV_per_m;
  const there = oneWay(sections, field);
  const back = oneWay([...sections].reverse(), field);
  // Heights act where the aerials stand, over the first and the last ground.
  const raised =
    heightFactor(surface(f_MHz, first.ground, N_s, pol), h_tx_m) *
    heightFactor(surface(f_MHz, last.ground, N_s, pol), h_rx_m);
  return { E_dBuV_per_m: (there + back) / 2 + 20 * log10(raised) };
}

const same = (a: Ground, b: Ground): boolean => a.eps_r === b.eps_r && a.sigma_S_per_m === b.sigma_S_per_m;
