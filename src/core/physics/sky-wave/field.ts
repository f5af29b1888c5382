/** Median field strength of sky-wave modes: ITU-R P.533-14 section 5.2. */
import { cos, log10, pow } from '../../numeric/elementary.ts';
import { absorptionFactor } from './absorption.ts';
import { DEG } from './geometry.ts';
import { highLatitudeLoss_dB } from './high-latitude.ts';
import { cappedR12 } from './ionosphere.ts';
import { dmax_km } from './muf.ts';
import type { Mode, SkyPath } from './path.ts';
import { mirrorHeight_km, screeningFrequency_MHz } from './screening.ts';

/** Losses that P.533 counts for nothing else, dB. */
const LZ_DB = 9.14;
const LIGHT_KM_PER_MS = 299.792458;

/** Gain in dBi at an elevation of 0..90 degrees. */
export type Gain = (elevation_deg: number) => number;

/** One mode's field at a frequency, with what it lost where. */
export interface ModeField {
  readonly name: string;
  readonly E_dBuV_per_m: number;
  readonly muf_MHz: number;
  readonly elevation_deg: number;
  readonly delay_ms: number;
  readonly slant_km: number;
  readonly fv_MHz: number;
  readonly AT: number;
  readonly fL_MHz: number;
  readonly absorption_dB: number;
  readonly aboveMuf_dB: number;
  readonly ground_dB: number;
  readonly highLatitude_dB: number;
  /** Basic transmission loss, all of the above with spreading and L_z. */
  readonly loss_dB: number;
}

/** Loss above the mode's MUF, L_m, dB. */
export function aboveMufLoss_dB(f_MHz: number, muf_MHz: number, layer: 'E' | 'F2', D_km: number): number {
  if (f_MHz <= muf_MHz) return 0;
  const r = f_MHz / muf_MHz - 1;
  if (layer === 'E') return Math.min(46 * Math.sqrt(r) + 5, 58);
  return D_km <= 3000 ? Math.min(36 * Math.sqrt(r) + 5, 60) : Math.min(70 * r + 8, 80);
}

/** Mean of a quantity over a mode's control points. */
const meanOver = (mode: Mode, value: (point: Mode['over'][number]) => number): number =>
  mode.over.reduce((sum, point) => sum + value(point), 0) / mode.over.length;

/** Field of one mode from 1 kW and an isotropic aerial raised by gain_dBi and power_dBkW. */
export function modeField(path: SkyPath, mode: Mode, f_MHz: number, power_dBkW: number, gain_dBi: number): ModeField {
  const { month, R12 } = path.conditions;
  const c = cos(mode.incidence_deg / DEG);
  const AT = absorptionFactor(mode.crossings, f_MHz * c);
  const fL = meanOver(mode, ({ fL_MHz }) => fL_MHz);
  const absorption_dB = (mode.hops * (1 + 0.0067 * cappedR12(R12)) * AT) / ((f_MHz + fL) * (f_MHz + fL) * c);
  const aboveMuf_dB = aboveMufLoss_dB(f_MHz, mode.muf_MHz, mode.layer, path.D_km);
  const ground_dB = 2 * (mode.hops - 1);
  const highLatitude_dB = meanOver(mode, ({ place }) => highLatitudeLoss_dB(place, mode.hop_km, month, path.localHour));
  const spreading_dB = 32.45 + 20 * log10(f_MHz) + 20 * log10(mode.slant_km);
  const loss_dB = spreading_dB + absorption_dB + aboveMuf_dB + ground_dB + highLatitude_dB + LZ_DB;
  return {
    name: mode.name,
    E_dBuV_per_m: 136.6 + power_dBkW + gain_dBi + 20 * log10(f_MHz) - loss_dB,
    muf_MHz: mode.muf_MHz,
    elevation_deg: mode.elevation_deg,
    delay_ms: mode.slant_km / LIGHT_KM_PER_MS,
    slant_km: mode.slant_km,
    fv_MHz: f_MHz * c,
    AT,
    fL_MHz: fL,
    absorption_dB,
    aboveMuf_dB,
    ground_dB,
    highLatitude_dB,
    loss_dB,
  };
}

/** Mirror height (km) of an F2 mode at f_MHz and the frequency up to which the E layer screens it. */
export function screening(path: SkyPath, mode: Mode, f_MHz: number): { mirror_km: number; screened_MHz: number } {
  const { R12, reference } = path.conditions;
  const heights = path.mirrors.map(({ layer }) => mirrorHeight_km(layer, f_MHz, mode.hop_km, R12, reference));
  const mirror_km = heights.reduce((a, b) => a + b) / heights.length;
  return { mirror_km, screened_MHz: screeningFrequency_MHz(path.screeningFoE_MHz, mode.hop_km, mirror_km) };
}

/** Whether a mode brings anything at f_MHz: E modes always, F2 modes that the E layer does not screen, within dmax at their lowest order. */
export function takesPart(path: SkyPath, mode: Mode, f_MHz: number): boolean {
  if (mode.layer === 'E') return true;
  const isLowest = path.modes.find(({ layer }) => layer === 'F2') === mode;
  if (isLowest && mode.hop_km > dmax_km(path.middle.layer)) return false;
  return screening(path, mode, f_MHz).screened_MHz < f_MHz;
}

/** Sum of levels in dB as powers; -Infinity for none. */
export function sumOfLevels_dB(levels_dB: readonly number[]): number {
  return 10 * log10(levels_dB.reduce((sum, level) => sum + pow(10, level / 10), 0));
}
