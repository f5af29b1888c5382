/** What a distant sender would bring: keyed tones in noise, and words, for the ear of a station under test. */
import { normal, streamOf } from '../../../../src/core/kernel/dice.ts';
import { cos, sin } from '../../../../src/core/numeric/elementary.ts';
import { dbToRatio } from '../../../../src/core/quantity/quantity.ts';
import type { Arrival, Ear, Edge, HeardWord } from '../../../../src/core/signals.ts';
import { markAt } from '../../../../src/core/station/wave.ts';
import { encode } from '../../../../src/core/telegraphy/ita2.ts';
import { codesEdges } from '../../../../src/core/telegraphy/startstop.ts';

export type Far = {
  f_Hz: number;
  shift_Hz: number;
  cn0_dB: number;
  /** The keyed line; mark low. */
  edges: readonly Edge[];
  markLow?: boolean;
  words?: HeardWord[];
  isOn?: (t_us: number) => boolean;
};

/** A text at 50 Bd from `t0_us`. */
export const textFrom = (text: string, t0_us: number): readonly Edge[] =>
  codesEdges(encode(text).codes, t0_us, 50, 1.5).edges;

function tone(far: Far, t_us: number): number {
  const sign = markAt(far.edges, t_us) === (far.markLow ?? true) ? -1 : 1;
  return far.f_Hz + (sign * far.shift_Hz) / 2;
}

/** An ear that hears this far station in noise; `seed` for its noise. */
export function earFor(far: Far, seed = 9): Ear {
  const stream = streamOf('air');
  const on = (t: number) => far.isOn?.(t) ?? true;
  // Blocks come in order, so the phase runs on from one to the next.
  let phase = 0;
  return {
    arrivals: (t_us): Arrival[] =>
      on(t_us)
        ? [
            {
              station: 'QV7K',
              emission: 'F1B',
              f_Hz: tone(far, t_us),
              field_dBuV: far.cn0_dB - 30,
              cn0_dB: far.cn0_dB,
              depth: 0.8,
            },
          ]
        : [],
    noise_dBuV: () => -30,
    samples(t0_us, t1_us, f_Hz, rate) {
      const first = Math.ceil((t0_us * rate) / 1e6);
      const n = Math.ceil((t1_us * rate) / 1e6) - first;
      const re = new Float64Array(n);
      const im = new Float64Array(n);
      const a = Math.sqrt(dbToRatio(far.cn0_dB));
      const sigma = Math.sqrt(rate / 2);
      for (let i = 0; i < n; i++) {
        const t = ((first + i) * 1e6) / rate;
        const amplitude = on(t) ? a : 0;
        re[i] = amplitude * cos(phase) + sigma * normal(seed, stream, 2 * (first + i));
        im[i] = amplitude * sin(phase) + sigma * normal(seed, stream, 2 * (first + i) + 1);
        phase += (2 * Math.PI * (tone(far, t) - f_Hz)) / rate;
      }
      return { re, im };
    },
    words: (t0, t1) => (far.words ?? []).filter((w) => w.t1_us > t0 && w.t1_us <= t1),
  };
}
