/** The ether: who hears whom, how strongly, over which noise. It keeps no state but where each carrier's phase is counted from. */

import { normal, streamOf, throwsOf } from '../kernel/dice.ts';
import { inForce } from '../kernel/history.ts';
import { cos, sin } from '../numeric/elementary.ts';
import { dbToRatio } from '../quantity/quantity.ts';
import { MID_LATITUDE, pathGain } from '../samples/fading.ts';
import { NO_RECORDINGS, type Recordings } from '../samples/recording.ts';
import type { Arrival, CarrierStep, Ear, HeardWord, Radiation } from '../signals.ts';
import { type Amplitude, addCarrier, type Modulation, type PhaseMark, passSteps } from './carrier.ts';
import { type Climate, type Fields, fieldOf, Paths, type Route } from './paths.ts';
import { addSideband } from './sideband.ts';
import { speechOf } from './speech.ts';

/** What the ether must know of a scenario. */
export type Surroundings = {
  own: string;
  climate: Climate;
  /** The route from the own station to each distant one. */
  routes: ReadonlyMap<string, Route>;
};
/** Where each carrier's phase is counted from: plain data, by station. */
export type EtherState = Record<string, PhaseMark>;

/** Steps this old are passed by the phase marks; nobody asks for samples older. */
const BEHIND_US = 1_500_000;
/** How often a fading path is looked up; between, it is drawn straight (its fastest change takes seconds). */
const FADING_STEP_US = 100_000;
/** A sky wave 40 dB under the ground wave moves it by a hundredth and is left out. */
const LEAST_SKY = 0.01;
const GAINS_KEPT = 8;
/** Sky waves fade as on a quiet mid-latitude path (ITU-R F.1487). */
const FADING = MID_LATITUDE.quiet;
const NOISE_TABLE = 65_536;

/** Amplitude of 1 W radiated, in units of the noise in 1 Hz: what is steady, each sky path, and these paths' gains (re, im, re, im). */
type Gain = { step: number; steady: number; sky: number; fading: readonly [number, number, number, number] };
const STILL = [0, 0, 0, 0] as const;

const fraction = (x: number): number => x - Math.floor(x);

/** The speech on a carrier, or null when nobody speaks then. */
function modulation(r: Radiation, t0_us: number, t1_us: number, rate: number): Modulation | null {
  const words = r.words.filter((w) => w.by === 'voice' && w.t1_us > t0_us && w.t0_us < t1_us);
  if (words.length === 0) return null;
  const speech = speechOf(words);
  return (k, offset_Hz) => 1 + r.depth * speech((k * 1e6) / rate, rate / 2 - Math.abs(offset_Hz));
}

let table: Float32Array | undefined;
/** Normal deviates to pick from: the same for every drill, so made once; in single precision they stay in the cache. */
function deviates(): Float32Array {
  table ??= Float32Array.from({ length: NOISE_TABLE }, (_, i) => normal(0, streamOf('noise-table'), i));
  return table;
}

/** All that is between the stations of one drill. */
export class Ether {
  readonly state: EtherState;
  private readonly paths: Paths;
  private readonly gains = new Map<string, Gain[]>();

  constructor(
    private readonly around: Surroundings,
    private readonly seed: number,
    private readonly radiations: () => readonly Radiation[],
    from: EtherState = {},
    private readonly recordings: Recordings = NO_RECORDINGS,
  ) {
    this.state = from;
    this.paths = new Paths(around.climate);
  }

  /** Let the phase marks follow behind now. Call after every event; changes no sample that may still be asked for. */
  follow(now_us: number): void {
    for (const r of this.radiations())
      this.state[r.station] = passSteps(this.markOf(r.station), r.steps, now_us - BEHIND_US);
  }

  /** What the aerial of a station brings. */
  earOf(call: string): Ear {
    const others = this.othersThan(call);
    return {
      arrivals: (t_us) => this.arrivals(call, others(), t_us),
      noise_dBuV: (f_Hz) => this.paths.noise_dBuV(f_Hz),
      samples: (t0_us, t1_us, f_Hz, rate) => this.samples(call, others(), t0_us, t1_us, f_Hz, rate),
      words: (t0_us, t1_us) => this.words(call, others(), t0_us, t1_us),
    };
  }

  /** All radiations but a station's own; sorted out again only when there are other ones. */
  private othersThan(call: string): () => readonly Radiation[] {
    let all: readonly Radiation[] = [];
    let others: readonly Radiation[] = [];
    return () => {
      const now = this.radiations();
      if (now !== all) {
        all = now;
        others = now.filter((r) => r.station !== call);
      }
      return others;
    };
  }

  private markOf(station: string): PhaseMark {
    return this.state[station] ?? { t_us: -1, f_Hz: 0, cycles: 0 };
  }

  /** The path between two stations. Between two distant ones it is taken to be as the farther one's to the own station. */
  private route(a: string, b: string): Route {
    const { own, routes } = this.around;
    const length = (r: Route) => r.reduce((sum, piece) => sum + piece.km, 0);
    const all = [a, b].filter((call) => call !== own).map((call) => routes.get(call) ?? []);
    return all.reduce((far, r) => (length(r) > length(far) ? r : far), []);
  }

  private fields(to: string, from: string, f_Hz: number, t_us: number): Fields {
    return this.paths.fields(this.route(to, from), f_Hz, t_us);
  }

  private arrivals(to: string, others: readonly Radiation[], t_us: number): Arrival[] {
    const out: Arrival[] = [];
    for (const r of others) {
      const step = stepAt(r.steps, t_us);
      if (step) out.push(this.arrival(to, r, step, t_us));
    }
    return out.sort((a, b) => b.field_dBuV - a.field_dBuV);
  }

  private arrival(to: string, r: Radiation, step: CarrierStep, t_us: number): Arrival {
    const field_dBuV = fieldOf(this.fields(to, r.station, step.f_Hz, t_us).both_dBuV, step.power_W);
    const cn0_dB = field_dBuV - this.paths.noise_dBuV(step.f_Hz);
    return { station: r.station, emission: r.emission, f_Hz: step.f_Hz, field_dBuV, cn0_dB, depth: r.depth };
  }

  private words(to: string, others: readonly Radiation[], t0_us: number, t1_us: number): HeardWord[] {
    const out: HeardWord[] = [];
    for (const r of others)
      for (const w of r.words) {
        const step = w.t1_us > t0_us && w.t1_us <= t1_us ? lastCarrier(r.steps, w.t1_us) : undefined;
        if (!step) continue;
        const { f_Hz, depth, cn0_dB } = this.arrival(to, r, step, w.t1_us);
        out.push({ ...w, station: r.station, f_Hz, depth, cn0_dB });
      }
    return out.sort((a, b) => a.t1_us - b.t1_us);
  }

  private samples(
    to: string,
    others: readonly Radiation[],
    t0_us: number,
    t1_us: number,
    f_Hz: number,
    rate: number,
  ): { re: Float64Array; im: Float64Array } {
    const first = Math.ceil((t0_us * rate) / 1e6);
    const count = Math.max(0, Math.ceil((t1_us * rate) / 1e6) - first);
    const band = { re: new Float64Array(count), im: new Float64Array(count), first, rate, centre_Hz: f_Hz };
    this.addNoise(to, band.re, band.im, first, rate);
    for (const r of others) {
      if (r.steps.some((s) => s.sound)) {
        addSideband(band, r.steps, this.recordings, this.amplitude(to, r.station, f_Hz, rate));
        continue;
      }
      if (!r.steps.some((s) => s.power_W > 0 && Math.abs(s.f_Hz - f_Hz) <= rate / 2)) continue;
      const amplitude = this.amplitude(to, r.station, f_Hz, rate);
      addCarrier(band, this.markOf(r.station), r.steps, amplitude, modulation(r, t0_us, t1_us, rate));
    }
    return { re: band.re, im: band.im };
  }

  /** Amplitude in units of the noise in 1 Hz: a steady ground wave and a sky wave by two fading paths (Watterson's model). */
  private amplitude(to: string, from: string, centre_Hz: number, rate: number): Amplitude {
    const gains = this.gainsOf(to, from, centre_Hz);
    return (power_W, f_Hz, k) => {
      const t = (k * 1e6) / rate / FADING_STEP_US;
      const step = Math.floor(t);
      const a = gains(step);
      const root = Math.sqrt(power_W);
      if (a.sky === 0) return [root * a.steady, 0];
      const b = gains(step + 1);
      const part = (i: 0 | 1 | 2 | 3) => root * a.sky * (a.fading[i] + (t - step) * (b.fading[i] - a.fading[i]));
      // The later path's carrier lags by its delay, so that mark and space fade apart.
      const turns = -f_Hz * FADING.delay_s;
      const [c, s] = [cos(2 * Math.PI * fraction(turns)), sin(2 * Math.PI * fraction(turns))];
      const [lateRe, lateIm] = [part(2), part(3)];
      return [root * a.steady + part(0) + c * lateRe - s * lateIm, part(1) + s * lateRe + c * lateIm];
    };
  }

  /** What one watt becomes on the way, by step of the fading; asked over and over, so the last few are kept. */
  private gainsOf(to: string, from: string, f_Hz: number): (step: number) => Gain {
    const link = `${to} ${from} ${f_Hz}`;
    const kept = this.gains.get(link) ?? [];
    this.gains.set(link, kept);
    return (step) => {
      for (const known of kept) if (known.step === step) return known;
      const gain = this.workGain(to, from, f_Hz, step);
      kept.push(gain);
      if (kept.length > GAINS_KEPT) kept.shift();
      return gain;
    };
  }

  private workGain(to: string, from: string, f_Hz: number, step: number): Gain {
    const t_us = step * FADING_STEP_US;
    const noise_dBuV = this.paths.noise_dBuV(f_Hz);
    const { ground_dBuV, sky_dBuV } = this.fields(to, from, f_Hz, t_us);
    const steady = Math.sqrt(dbToRatio(fieldOf(ground_dBuV, 1) - noise_dBuV));
    const sky = Math.sqrt(dbToRatio(fieldOf(sky_dBuV, 1) - noise_dBuV) / 2);
    if (sky <= steady * LEAST_SKY) return { step, steady, sky: 0, fading: STILL };
    const stream = streamOf(`fading ${[to, from].sort().join(' ')}`);
    const die = (i: number) => normal(this.seed, stream, i);
    const t_s = t_us / 1e6;
    return { step, steady, sky, fading: [...pathGain(FADING, 0, t_s, die), ...pathGain(FADING, 1, t_s, die)] };
  }

  /** Complex white noise of unit power in 1 Hz: one throw a sample picks two deviates. */
  private addNoise(to: string, re: Float64Array, im: Float64Array, first: number, rate: number): void {
    const normals = deviates();
    const noise = throwsOf(this.seed, streamOf(`noise ${to} ${rate}`));
    const sigma = Math.sqrt(rate / 2);
    for (let i = 0; i < re.length; i++) {
      const throwOf = noise(first + i);
      re[i] = sigma * (normals[throwOf & 0xffff] as number);
      im[i] = sigma * (normals[throwOf >>> 16] as number);
    }
  }
}

/** The step in force at an instant, if it radiates. */
function stepAt(steps: readonly CarrierStep[], t_us: number): CarrierStep | undefined {
  const now = inForce(steps, t_us);
  return now && now.power_W > 0 ? now : undefined;
}

/** The last radiating step up to an instant: a keyed word ends with the key up. */
function lastCarrier(steps: readonly CarrierStep[], t_us: number): CarrierStep | undefined {
  let now: CarrierStep | undefined;
  for (const s of steps) {
    if (s.t_us > t_us) break;
    if (s.power_W > 0) now = s;
  }
  return now;
}
