/** Ground-wave field strength over smooth homogeneous ground: ITU-R P.368-10 (effective Earth radius, 1 to 30 MHz). */
import { log10, pow } from '../../numeric/elementary.ts';
import { flatEarthAttenuation } from './flat-earth.ts';
import { type Ground, type Polarization, type Surface, surface } from './ground.ts';
import { ResidueSeries } from './residue-series.ts';

/** One ground-wave path over one kind of ground. */
export interface GroundWavePath {
  /** 1..30 MHz. */
  readonly f_MHz: number;
  /** 0.01..10000 km along the ground. */
  readonly d_km: number;
  readonly ground: Ground;
  /** Height of the sending aerial above ground, 0..50 m; 0 unless told. */
  readonly h_tx_m?: number;
  /** Height of the receiving aerial above ground, 0..50 m; 0 unless told. */
  readonly h_rx_m?: number;
  /** Power radiated by a short vertical monopole, W, above 0; 1000 unless told (which gives 300 mV/m at 1 km over perfect ground). */
  readonly power_W?: number;
  /** Surface refractivity 250..400 N-units; 315 unless told. */
  readonly N_s?: number;
  /** V unless told. */
  readonly pol?: Polarization;
}

/** What the ground wave brings. */
export interface GroundWaveField {
  /** Field strength, dB above 1 microvolt a metre. */
  readonly E_dBuV_per_m: number;
}

const Z0_OHM = 376.73;
const MONOPOLE_GAIN = 3;
const SWITCH_KM_AT_1_MHZ = 80;
const MOST_KEPT = 256;

interface Prepared {
  readonly on: Surface;
  readonly far: ResidueSeries;
}

/** Roots already found. They depend on nothing but their key, so keeping them changes no answer. */
const kept = new Map<string, Prepared>();

function prepared(path: Required<Omit<GroundWavePath, 'd_km' | 'power_W'>>): Prepared {
  const { f_MHz, ground, h_tx_m, h_rx_m, N_s, pol } = path;
  const key = `${f_MHz} ${ground.eps_r} ${ground.sigma_S_per_m} ${h_tx_m} ${h_rx_m} ${N_s} ${pol}`;
  const known = kept.get(key);
  if (known) return known;
  const on = surface(f_MHz, ground, N_s, pol);
  const fresh = { on, far: new ResidueSeries(on, h_tx_m, h_rx_m) };
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, fresh);
  return fresh;
}

function within(what: string, x: number, low: number, high: number): void {
  if (!(x >= low && x <= high)) throw new RangeError(`${what} must be from ${low} to ${high}, got ${x}`);
}

/** Field of the ground wave; throws RangeError outside the ranges named in GroundWavePath. */
export function groundWave(path: GroundWavePath): GroundWaveField {
  const { f_MHz, d_km, ground, h_tx_m = 0, h_rx_m = 0, power_W = 1000, N_s = 315, pol = 'V' } = path;
  within('d_km', d_km, 0.01, 10_000);
  within('h_tx_m', h_tx_m, 0, 50);
  within('h_rx_m', h_rx_m, 0, 50);
  within('power_W', power_W, Number.MIN_VALUE, 1e9);
  const { on, far } = prepared({ f_MHz, ground, h_tx_m, h_rx_m, N_s, pol });
  const d_m = 1000 * d_km;
  const isNear = d_km < SWITCH_KM_AT_1_MHZ / pow(f_MHz, 1 / 3);
  const attenuation = isNear ? flatEarthAttenuation(on, d_m, h_tx_m, h_rx_m) : far.attenuation(d_m);
  const E0_V_per_m = Math.sqrt((Z0_OHM * MONOPOLE_GAIN * power_W) / (4 * Math.PI)) / d_m;
  return { E_dBuV_per_m: 20 * log10(E0_V_per_m * attenuation) + 120 };
}

/** Basic transmission loss in dB belonging to a field strength in dB(uV/m) from 1 kW (ITU-R P.368, P.341). */
export const basicLoss_dB = (f_MHz: number, E_dBuV_per_m_at_1_kW: number): number =>
  142 + 20 * log10(f_MHz) - E_dBuV_per_m_at_1_kW;
