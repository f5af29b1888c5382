/** Sky-wave circuits up to 4000 km in the theatre: monthly median field, MUF and skip by ITU-R P.533-14. */
import { log10 } from '../../numeric/elementary.ts';
import { type Gain, type ModeField, modeField, sumOfLevels_dB, takesPart } from './field.ts';
import { distance_km, type Place } from './geometry.ts';
import { checkHour, checkPlace, inTheatre } from './ionosphere.ts';
import { LONGEST_PATH_KM, pathGeomagneticLatitude_deg, type SkyPath, skyPath, theatreSounder } from './path.ts';
import { skipDistance_km } from './skip.ts';

/** What a sky-wave circuit is asked. */
export interface SkyWaveQuestion {
  /** Degrees north and east. */
  readonly tx: readonly [lat: number, lng: number];
  readonly rx: readonly [lat: number, lng: number];
  /** Twelve-month smoothed sunspot number, 0..311 (counted to 160). */
  readonly R12: number;
  /** 1..12. */
  readonly month: number;
  /** 0..24 hours UT; fractions allowed. */
  readonly hour_UT: number;
  /** 1..30 MHz. */
  readonly f_MHz: number;
  /** Power delivered to the sending aerial, kW, above 0; 1 unless told. */
  readonly power_kW?: number;
  /** Gain of either aerial against elevation; isotropic (0 dBi) unless told. */
  readonly gainTx?: Gain;
  readonly gainRx?: Gain;
  /** Follows the reference program, its sun an hour late and its slips; false unless told, and then the sun is where it is. */
  readonly reference?: boolean;
}

/** A circuit that the method covers. */
export interface SkyWave {
  readonly D_km: number;
  /** Basic MUF of the path: the larger of its lowest E and F2 orders. */
  readonly MUF_MHz: number;
  /** Operational MUF, with P.533's allowance for modes above the basic one. */
  readonly OPMUF_MHz: number;
  /** Median of the modes added as powers, dB above 1 uV/m. */
  readonly E_dBuV_per_m: number;
  /** Median power at a lossless receiving aerial, dBW. */
  readonly Pr_dBW: number;
  /** Smallest distance at which one hop by the layers over the path's middle carries f_MHz; 0 when every distance does, null when none. */
  readonly skip_km: number | null;
  /** Strongest mode at the receiver, as 1F2. */
  readonly mode: string;
  readonly elevation_deg: number;
  /** Geomagnetic latitude of the path's middle, without sign. */
  readonly geomagneticLatitude_deg: number;
  /** Every mode that takes part, E by order, then F2 by order. */
  readonly modes: readonly ModeField[];
}

/** A circuit that the method does not cover, and why. */
export interface NoSkyWave {
  readonly D_km: number;
  readonly MUF_MHz: null;
  readonly OPMUF_MHz: null;
  readonly E_dBuV_per_m: null;
  readonly Pr_dBW: null;
  readonly skip_km: null;
  readonly mode: null;
  readonly elevation_deg: null;
  readonly geomagneticLatitude_deg: null;
  readonly modes: readonly [];
  readonly reason: string;
}

const LEAST_PATH_KM = 0.001;
const MOST_KEPT = 64;

/** Paths already prepared. A path depends on nothing but its key, so keeping it changes no answer. */
const kept = new Map<string, SkyPath>();

function prepared(question: SkyWaveQuestion, from: Place, to: Place, D_km: number): SkyPath {
  const { month, hour_UT, R12, reference = false } = question;
  const key = `${from.lat} ${from.lng} ${to.lat} ${to.lng} ${month} ${hour_UT} ${R12} ${reference}`;
  const known = kept.get(key);
  if (known) return known;
  const fresh = skyPath(from, to, D_km, { month, hour_UT, R12, reference }, theatreSounder);
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, fresh);
  return fresh;
}

const none = (D_km: number, reason: string): NoSkyWave => ({
  D_km,
  MUF_MHz: null,
  OPMUF_MHz: null,
  E_dBuV_per_m: null,
  Pr_dBW: null,
  skip_km: null,
  mode: null,
  elevation_deg: null,
  geomagneticLatitude_deg: null,
  modes: [],
  reason,
});

const isotropic: Gain = () => 0;

/** The modes at a frequency, and what they bring together. */
export function skyField(
  path: SkyPath,
  f_MHz: number,
  power_kW = 1,
  gainTx: Gain = isotropic,
  gainRx: Gain = isotropic,
): Pick<SkyWave, 'E_dBuV_per_m' | 'Pr_dBW' | 'mode' | 'elevation_deg' | 'modes'> {
  const power_dBkW = 10 * log10(power_kW);
  const modes = path.modes
    .filter((mode) => takesPart(path, mode, f_MHz))
    .map((mode) => modeField(path, mode, f_MHz, power_dBkW, gainTx(mode.elevation_deg)));
  const received = modes.map(({ E_dBuV_per_m, elevation_deg }) => E_dBuV_per_m + gainRx(elevation_deg));
  const strongest = modes[received.indexOf(Math.max(...received))]!;
  return {
    E_dBuV_per_m: sumOfLevels_dB(modes.map(({ E_dBuV_per_m }) => E_dBuV_per_m)),
    Pr_dBW: sumOfLevels_dB(received) - 20 * log10(f_MHz) - 107.2,
    mode: strongest.name,
    elevation_deg: strongest.elevation_deg,
    modes,
  };
}

/** Monthly median sky wave of a circuit; null with a reason where the method or the maps end. Throws RangeError on nonsense. */
export function skyWave(question: SkyWaveQuestion): SkyWave | NoSkyWave {
  const { tx, rx, f_MHz, power_kW = 1, gainTx, gainRx } = question;
  checkHour(question.month, question.hour_UT, question.R12);
  checkPlace(tx[0], tx[1]);
  checkPlace(rx[0], rx[1]);
  if (!(f_MHz >= 1 && f_MHz <= 30)) throw new RangeError(`f_MHz must be from 1 to 30, got ${f_MHz}`);
  if (!(power_kW > 0 && power_kW < 1e6)) throw new RangeError(`power_kW must be above 0, got ${power_kW}`);
  const from = { lat: tx[0], lng: tx[1] };
  const to = { lat: rx[0], lng: rx[1] };
  const D_km = Math.max(distance_km(from, to), LEAST_PATH_KM);
  if (D_km > LONGEST_PATH_KM) return none(D_km, `${D_km.toFixed(0)} km is beyond the 4000 km of the method`);
  const path = prepared(question, from, to, D_km);
  const { lat, lng } = path.middle.place;
  if (!inTheatre(lat, lng))
    return none(D_km, `the middle of the path, ${lat.toFixed(1)}, ${lng.toFixed(1)}, is outside the theatre`);
  return {
    D_km,
    MUF_MHz: path.basicMuf_MHz,
    OPMUF_MHz: path.operationalMuf_MHz,
    skip_km: skipDistance_km(path.middle, f_MHz),
    geomagneticLatitude_deg: pathGeomagneticLatitude_deg(path),
    ...skyField(path, f_MHz, power_kW, gainTx, gainRx),
  };
}
