/** What arrives from one place at another: ground wave over the path's grounds and sky wave, and the noise they meet. */
import { cos } from '../numeric/elementary.ts';
import { type GroundName, grounds } from '../physics/ground-wave/ground.ts';
import { mixedGroundWave } from '../physics/ground-wave/mixed-path.ts';
import {
  En_dBuV_per_m_1Hz,
  type Environment,
  externalNoise,
  galacticNoise,
  manMadeNoise,
} from '../physics/noise/noise.ts';
import { skyWave } from '../physics/sky-wave/sky-wave.ts';
import { whipGain_dBi } from '../physics/whip-pattern.ts';
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';

/** Where and when: what of a scenario's world the ether needs. */
export type Climate = {
  month: number;
  utc0_h: number;
  at: readonly [lat: number, lng: number];
  R12: number;
  noise: Environment;
};
/** Stretches of named ground. */
export type Route = readonly { ground: string; km: number }[];
/** Median field of 1 kW radiated by a short monopole, dB above 1 uV/m; -Infinity for none. `both` is the sum of their powers. */
export type Fields = { ground_dBuV: number; sky_dBuV: number; both_dBuV: number };

const KM_A_DEGREE = 111.2;
/** A frequency is asked in whole kilohertz and an hour in quarters: closer nothing changes. */
const GRID_HZ = 1000;
const QUARTER_US = 900e6;
const RADIATED_W = 1000;
const NONE = Number.NEGATIVE_INFINITY;
const NOTHING: Fields = { ground_dBuV: NONE, sky_dBuV: NONE, both_dBuV: NONE };

/** Is this a ground that the program knows? */
export const isGround = (name: string): name is GroundName => Object.hasOwn(grounds, name);
/** Names of the grounds. */
export const groundNames = Object.keys(grounds);

/** Paths of one world, each answer kept: it depends on nothing but its question. */
export class Paths {
  private readonly kept = new Map<Route, Map<number, Fields>>();
  private readonly keptNoise = new Map<number, number>();
  constructor(private readonly climate: Climate) {}

  /** The median fields over a route at an instant. */
  fields(route: Route, f_Hz: number, t_us: number): Fields {
    const kHz = Math.round(f_Hz / GRID_HZ);
    const quarter = Math.floor(t_us / QUARTER_US);
    const key = quarter * 100_000 + kHz;
    let ofRoute = this.kept.get(route);
    if (!ofRoute) {
      ofRoute = new Map();
      this.kept.set(route, ofRoute);
    }
    let fields = ofRoute.get(key);
    if (!fields) {
      fields = this.work(route, kHz / 1000, quarter / 4);
      ofRoute.set(key, fields);
    }
    return fields;
  }

  /** External noise in 1 Hz, dB above 1 uV/m: man-made and galactic (P.372). Atmospheric noise is not in it. */
  noise_dBuV(f_Hz: number): number {
    const kHz = Math.round(f_Hz / GRID_HZ);
    let field = this.keptNoise.get(kHz);
    if (field === undefined) {
      const f_MHz = Math.max(0.3, kHz / 1000);
      const { Fam_dB } = externalNoise([manMadeNoise(f_MHz, this.climate.noise), galacticNoise(f_MHz)]);
      field = En_dBuV_per_m_1Hz(Fam_dB, f_MHz);
      this.keptNoise.set(kHz, field);
    }
    return field;
  }

  private work(route: Route, f_MHz: number, hours: number): Fields {
    const sections = route.map(({ ground, km }) => ({ ground: grounds[ground as GroundName], d_km: km }));
    const inReach = f_MHz >= 1 && f_MHz <= 30;
    if (!inReach || sections.length === 0) return NOTHING;
    const ground_dBuV = mixedGroundWave({ f_MHz, sections, power_W: RADIATED_W }).E_dBuV_per_m;
    const sky_dBuV = this.sky(route, f_MHz, hours);
    return { ground_dBuV, sky_dBuV, both_dBuV: ratioToDb(dbToRatio(ground_dBuV) + dbToRatio(sky_dBuV)) };
  }

  /** The far end lies due east: a scenario gives the path's length, not its bearing. */
  private sky(route: Route, f_MHz: number, hours: number): number {
    const { at, month, utc0_h, R12 } = this.climate;
    const km = route.reduce((sum, r) => sum + r.km, 0);
    const gain = (elevation_deg: number) =>
      whipGain_dBi({ eps_r: 15, sigma_S_m: 0.005 }, f_MHz, Math.min(89.9, Math.max(0.1, elevation_deg)));
    const rx: [number, number] = [at[0], at[1] + km / (KM_A_DEGREE * Math.max(0.1, cos((at[0] * Math.PI) / 180)))];
    const { E_dBuV_per_m } = skyWave({
      tx: at,
      rx,
      R12,
      month,
      hour_UT: (utc0_h + hours) % 24,
      f_MHz,
      power_kW: RADIATED_W / 1000,
      gainTx: gain,
    });
    return E_dBuV_per_m ?? NONE;
  }
}

/** Field of `power_W` radiated where 1 kW gives `field_dBuV`. */
export const fieldOf = (field_dBuV: number, power_W: number): number =>
  field_dBuV + ratioToDb(Math.max(power_W, 1e-12) / RADIATED_W);
