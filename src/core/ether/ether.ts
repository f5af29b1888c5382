/** The ether: who hears whom, how strongly, over which noise. It keeps no state but where each carrier's phase is counted from. */
import { bits, normal, streamOf } from '../kernel/dice.ts';
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';
import { MID_LATITUDE, pathGain } from '../samples/fading.ts';
import type { Arrival, CarrierStep, Ear, HeardWord, Radiation } from '../signals.ts';
import { addCarrier, type PhaseMark, passSteps } from './carrier.ts';
import { type Climate, type Fields, fieldOf, Paths, type Route } from './paths.ts';
import { speechAt } from './speech.ts';

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
/** Sky waves fade as on a quiet mid-latitude path (ITU-R F.1487). */
const FADING = MID_LATITUDE.quiet;
const NOISE_TABLE = 65_536;

let table: Float64Array | undefined;
/** Normal deviates to pick from: the same for every drill, so made once. */
function deviates(): Float64Array {
  table ??= Float64Array.from({ length: NOISE_TABLE }, (_, i) => normal(0, streamOf('noise-table'), i));
  return table;
}

/** All that is between the stations of one drill. */
export class Ether {
  readonly state: EtherState;
  private readonly paths: Paths;

  constructor(
    private readonly around: Surroundings,
    private readonly seed: number,
    private readonly radiations: () => readonly Radiation[],
    from: EtherState = {},
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
    const others = () => this.radiations().filter((r) => r.station !== call);
    return {
      arrivals: (t_us) => this.arrivals(call, others(), t_us),
      noise_dBuV: (f_Hz) => this.paths.noise_dBuV(f_Hz),
      samples: (t0_us, t1_us, f_Hz, rate) => this.samples(call, others(), t0_us, t1_us, f_Hz, rate),
      words: (t0_us, t1_us) =>
        others()
          .flatMap((r) => this.words(call, r, t0_us, t1_us))
          .sort((a, b) => a.t1_us - b.t1_us),
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
    return others
      .flatMap((r) => {
        const step = stepAt(r.steps, t_us);
        return step ? [this.arrival(to, r, step, t_us)] : [];
      })
      .sort((a, b) => b.field_dBuV - a.field_dBuV);
  }

  private arrival(to: string, r: Radiation, step: CarrierStep, t_us: number): Arrival {
    const { ground_dBuV, sky_dBuV } = this.fields(to, r.station, step.f_Hz, t_us);
    const field_dBuV = fieldOf(ratioToDb(dbToRatio(ground_dBuV) + dbToRatio(sky_dBuV)), step.power_W);
    const cn0_dB = field_dBuV - this.paths.noise_dBuV(step.f_Hz);
    return { station: r.station, emission: r.emission, f_Hz: step.f_Hz, field_dBuV, cn0_dB, depth: r.depth };
  }

  private words(to: string, r: Radiation, t0_us: number, t1_us: number): HeardWord[] {
    return r.words
      .filter((w) => w.t1_us > t0_us && w.t1_us <= t1_us)
      .flatMap((w) => {
        const step = lastCarrier(r.steps, w.t1_us);
        if (!step) return [];
        const { f_Hz, depth, cn0_dB } = this.arrival(to, r, step, w.t1_us);
        return [{ ...w, station: r.station, f_Hz, depth, cn0_dB }];
      });
  }

  private samples(to: string, others: readonly Radiation[], t0_us: number, t1_us: number, f_Hz: number, rate: number) {
    const first = Math.ceil((t0_us * rate) / 1e6);
    const count = Math.max(0, Math.ceil((t1_us * rate) / 1e6) - first);
    const re = new Float64Array(count);
    const im = new Float64Array(count);
    this.addNoise(to, re, im, first, rate);
    for (const r of others) {
      if (!r.steps.some((s) => s.power_W > 0 && Math.abs(s.f_Hz - f_Hz) <= rate / 2)) continue;
      addCarrier(re, im, first, rate, f_Hz, this.markOf(r.station), r.steps, this.amplitudes(to, r, f_Hz, rate));
    }
    return { re, im };
  }

  /** Amplitude in units of the noise in 1 Hz: a steady ground wave, a fading sky wave, both modulated by speech. */
  private amplitudes(
    to: string,
    r: Radiation,
    f_Hz: number,
    rate: number,
  ): (power_W: number, k: number) => readonly [number, number] {
    const noise_dBuV = this.paths.noise_dBuV(f_Hz);
    const stream = streamOf(`fading ${[to, r.station].sort().join(' ')}`);
    const die = (i: number) => normal(this.seed, stream, i);
    return (power_W, k) => {
      const t_us = (k * 1e6) / rate;
      const { ground_dBuV, sky_dBuV } = this.fields(to, r.station, f_Hz, t_us);
      const steady = Math.sqrt(dbToRatio(fieldOf(ground_dBuV, power_W) - noise_dBuV));
      const sky = Math.sqrt(dbToRatio(fieldOf(sky_dBuV, power_W) - noise_dBuV) / 2);
      const speech = r.words.length > 0 ? 1 + r.depth * speechAt(r.words, t_us) : 1;
      if (sky < steady / 1000) return [steady * speech, 0];
      const [ar, ai] = pathGain(FADING, 0, t_us / 1e6, die);
      const [br, bi] = pathGain(FADING, 1, t_us / 1e6, die);
      return [(steady + sky * (ar + br)) * speech, sky * (ai + bi) * speech];
    };
  }

  /** Complex white noise of unit power in 1 Hz: one throw a sample picks two deviates. */
  private addNoise(to: string, re: Float64Array, im: Float64Array, first: number, rate: number): void {
    const normals = deviates();
    const stream = streamOf(`noise ${to} ${rate}`);
    const sigma = Math.sqrt(rate / 2);
    for (let i = 0; i < re.length; i++) {
      const throwOf = bits(this.seed, stream, first + i);
      re[i] = sigma * (normals[throwOf & 0xffff] as number);
      im[i] = sigma * (normals[throwOf >>> 16] as number);
    }
  }
}

/** The step in force at an instant, if it radiates. */
function stepAt(steps: readonly CarrierStep[], t_us: number): CarrierStep | undefined {
  let now: CarrierStep | undefined;
  for (const s of steps) if (s.t_us <= t_us) now = s;
  return now && now.power_W > 0 ? now : undefined;
}

/** The last radiating step up to an instant: a keyed word ends with the key up. */
function lastCarrier(steps: readonly CarrierStep[], t_us: number): CarrierStep | undefined {
  let now: CarrierStep | undefined;
  for (const s of steps) if (s.t_us <= t_us && s.power_W > 0) now = s;
  return now;
}
