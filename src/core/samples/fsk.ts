/** Frequency-shift keying with continuous phase, as complex samples about a centre frequency of 0 Hz. */
import { cos, sin } from '../numeric/elementary.ts';
import type { Edge } from '../telegraphy/startstop.ts';
import { fraction } from './oscillator.ts';

/** The two tones of a circuit. */
export interface Tones {
  /** Distance of mark and space, Hz, above 0. */
  readonly shift: number;
  /** Which of the two is mark; ITU-T V.1 has it low. */
  readonly sense: 'mark low' | 'mark high';
  /** Where the middle of the two stands, Hz; 0 unless told. */
  readonly centre?: number;
}

/** Memory of a modulator; plain JSON. */
export interface FskState {
  /** Absolute index of the next sample; sample n is at n / rate seconds. */
  readonly sample: number;
  /** Phase at that sample, turns 0..1. */
  readonly phase: number;
  readonly mark: boolean;
}

/** A modulator on mark at phase 0. */
export const fskAtRest = (sample = 0): FskState => ({ sample, phase: 0, mark: true });

/** Frequency of mark or of space, Hz. */
export function toneOf(tones: Tones, mark: boolean): number {
  if (!(tones.shift > 0)) throw new RangeError(`shift must be above 0 Hz, got ${tones.shift}`);
  return (tones.centre ?? 0) + ((tones.sense === 'mark high') === mark ? 0.5 : -0.5) * tones.shift;
}

/**
 * The next `count` samples of unit amplitude for a line's edges (sorted, absolute microseconds). An edge between samples
 * takes effect at its own instant: the phase has no step and no edge is rounded to a sample.
 */
export function fskRun(
  state: FskState,
  edges: readonly Edge[],
  count: number,
  rate: number,
  tones: Tones,
): { readonly state: FskState; readonly re: Float64Array; readonly im: Float64Array } {
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const steps = { mark: toneOf(tones, true) / rate, space: toneOf(tones, false) / rate };
  const at = (e: Edge) => (e.t_us * rate) / 1e6 - state.sample;
  let { phase, mark } = state;
  let next = edges.findIndex((e) => at(e) > 0);
  if (next > 0) mark = edges[next - 1]!.mark;
  else if (next < 0 && edges.length > 0) mark = edges.at(-1)!.mark;
  let i = 0;
  while (i < count) {
    const edge = next < 0 ? undefined : edges[next];
    const step = mark ? steps.mark : steps.space;
    const until = edge === undefined ? count : Math.min(count, Math.ceil(at(edge)));
    if (until > i) phase = run(re, im, i, until, phase, step);
    i = until;
    if (edge === undefined || at(edge) > count) break;
    // The last sample's step ran whole at the old frequency; what lies beyond the edge belongs to the new one.
    phase = fraction(phase + (i - at(edge)) * ((edge.mark ? steps.mark : steps.space) - step));
    mark = edge.mark;
    next += 1;
  }
  return { state: { sample: state.sample + count, phase, mark }, re, im };
}

function run(re: Float64Array, im: Float64Array, from: number, to: number, phase: number, step: number): number {
  const [c, s] = [cos(2 * Math.PI * step), sin(2 * Math.PI * step)];
  let x = 1;
  let y = 0;
  for (let i = from; i < to; i++) {
    if ((i - from) % 4096 === 0) {
      const angle = 2 * Math.PI * fraction(phase + (i - from) * step);
      x = cos(angle);
      y = sin(angle);
    }
    re[i] = x;
    im[i] = y;
    const t = x * c - y * s;
    y = x * s + y * c;
    x = t;
  }
  return fraction(phase + (to - from) * step);
}
