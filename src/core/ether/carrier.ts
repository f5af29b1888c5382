/**
 * Carriers as complex samples. A carrier's phase runs on through its steps; it is counted from a mark, which follows behind
 * now, so that old steps may be forgotten and any chopping of time gives the same samples to the last digit.
 */
import { cos, sin } from '../numeric/elementary.ts';
import type { CarrierStep } from '../signals.ts';

/** The carrier's phase in cycles at an instant, and its frequency from there on. */
export type PhaseMark = { t_us: number; f_Hz: number; cycles: number };

const wrap = (cycles: number): number => cycles - Math.floor(cycles);
const onward = (m: PhaseMark, t_us: number): number => wrap(m.cycles + (m.f_Hz * (t_us - m.t_us)) / 1e6);

/** The mark after passing every step up to `until_us`. A silent step keeps the frequency, so that a short break keeps the phase. */
export function passSteps(mark: PhaseMark, steps: readonly CarrierStep[], until_us: number): PhaseMark {
  let m = mark;
  for (const { t_us, f_Hz, power_W } of steps) {
    if (t_us > until_us) break;
    if (t_us <= m.t_us || power_W === 0) continue;
    m = { t_us, f_Hz, cycles: onward(m, t_us) };
  }
  return m;
}

/** Complex samples round a centre: `re` and `im` from absolute sample `first` on. */
export type Band = { re: Float64Array; im: Float64Array; first: number; rate: number; centre_Hz: number };

/** Exact phasors stand at whole multiples of this many samples; between them it is one turn from the last. */
const ANCHOR = 32;

/** A stretch of constant frequency: samples from `first` up to `end`, amplitude by absolute sample. */
type Stretch = { first: number; end: number; mark: PhaseMark; power_W: number };

function stretches(
  mark: PhaseMark,
  steps: readonly CarrierStep[],
  first: number,
  end: number,
  rate: number,
): Stretch[] {
  const out: Stretch[] = [];
  let m = mark;
  let power_W = 0;
  let at = first;
  for (const { t_us, f_Hz, power_W: next_W } of steps) {
    const from = Math.max(first, Math.min(end, Math.ceil((t_us * rate) / 1e6)));
    if (from > at) out.push({ first: at, end: from, mark: m, power_W });
    at = Math.max(at, from);
    if (at >= end) return out;
    if (t_us > m.t_us && next_W > 0) m = { t_us, f_Hz, cycles: onward(m, t_us) };
    power_W = next_W;
  }
  out.push({ first: at, end, mark: m, power_W });
  return out;
}

/** What arrives of a carrier of `f_Hz` at absolute sample k, as [re, im]. */
export type Amplitude = (power_W: number, f_Hz: number, k: number) => readonly [number, number];
/** A factor on the carrier's amplitude at absolute sample k, for a carrier `offset_Hz` off the middle. */
export type Modulation = (k: number, offset_Hz: number) => number;

/**
 * Add a carrier round `centre_Hz` to samples `first`, `first` + 1, … (absolute at `rate`). `amplitude` is asked once in ANCHOR
 * samples, `modulation` (if the carrier has any) at each.
 */
export function addCarrier(
  { re, im, first, rate, centre_Hz }: Band,
  mark: PhaseMark,
  steps: readonly CarrierStep[],
  amplitude: Amplitude,
  modulation: Modulation | null,
): void {
  for (const s of stretches(mark, steps, first, first + re.length, rate)) {
    const { f_Hz } = s.mark;
    const offset_Hz = f_Hz - centre_Hz;
    // Beyond the band the samples cannot tell it from what lies on the other side.
    if (s.power_W <= 0 || Math.abs(offset_Hz) > rate / 2) continue;
    const turn = (2 * Math.PI * offset_Hz) / rate;
    const [tc, ts] = [cos(turn), sin(turn)];
    for (let block = Math.floor(s.first / ANCHOR) * ANCHOR; block < s.end; block += ANCHOR) {
      const [ar, ai] = amplitude(s.power_W, f_Hz, block);
      // The baseband oscillator turns at the centre from time 0; both counts are wrapped before they are subtracted.
      const t_us = (block * 1e6) / rate;
      const phase = 2 * Math.PI * (onward(s.mark, t_us) - wrap((centre_Hz * t_us) / 1e6));
      const [pc, ps] = [cos(phase), sin(phase)];
      let c = ar * pc - ai * ps;
      let q = ar * ps + ai * pc;
      const stop = Math.min(s.end, block + ANCHOR);
      for (let k = block; k < stop; k++) {
        if (k >= s.first) {
          const i = k - first;
          const m = modulation === null ? 1 : modulation(k, offset_Hz);
          re[i] = (re[i] as number) + m * c;
          im[i] = (im[i] as number) + m * q;
        }
        const next = c * tc - q * ts;
        q = c * ts + q * tc;
        c = next;
      }
    }
  }
}
