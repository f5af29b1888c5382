/**
 * The terminal unit's converter: received tones to a keyed line. Front filter, limiter, then either two tone filters whose
 * envelopes are compared, or a frequency discriminator; a post-detector filter; a slicer. A practical unit, not an ideal one.
 */
import { atan2 } from '../numeric/elementary.ts';
import type { Edge } from '../telegraphy/startstop.ts';
import { type Biquad, butterworthLowPass, filterInPlace, restOf } from './filter.ts';
import { type Tones, toneOf } from './fsk.ts';
import { shiftBy } from './oscillator.ts';

/** Settings of a converter. */
export interface ConverterOptions extends Tones {
  /** Speed the filters are made for, bauds; 50 unless told. */
  readonly baud?: number;
  readonly kind?: 'tone filters' | 'discriminator';
  /** Width of each tone filter, Hz; 1.4 times the bauds unless told, and never over the shift. */
  readonly toneWidth?: number;
  /** Width of the front filter, Hz; shift plus four times the bauds unless told. */
  readonly frontWidth?: number;
  /** Hold the line at mark when the mark tone has been gone for longer than a character can be space; true unless told. */
  readonly hold?: boolean;
}

/** All that a converter remembers; plain JSON. */
export interface ConverterState {
  /** Absolute index of the next sample; sample n is at n / rate seconds. */
  readonly sample: number;
  /** Phases of the two (or one) mixing oscillators, turns. */
  readonly phases: readonly number[];
  /** Memories of all filters, in the order of the chain. */
  readonly memories: readonly (readonly number[])[];
  /** Last sample after the limiter (discriminator only). */
  readonly last: readonly [number, number];
  /** Last value at the slicer, and what it decided. */
  readonly decision: number;
  readonly mark: boolean;
  /** What goes to line after the hold. */
  readonly line: boolean;
  /** Samples since the mark tone was last there. */
  readonly absent: number;
  /** Smoothed outputs of the tone filters, 0..1 of a clean tone: the two arms of a tuning display. */
  readonly markLevel: number;
  readonly spaceLevel: number;
}

/** A converter that has heard nothing, with its line at mark. */
export const converterAtRest = (sample = 0): ConverterState => ({
  sample,
  phases: [],
  memories: [],
  last: [1, 0],
  decision: 1,
  mark: true,
  line: true,
  absent: 0,
  markLevel: 0,
  spaceLevel: 0,
});

// Slicer: it must be passed by this much of a full tone before the line moves (keeps noise from chattering).
const HYSTERESIS = 0.05;
// The mark tone counts as there above this share of a clean one. Noise alone through a front filter several times as wide stays under it.
const PRESENT = 0.55;
// Six units of space is the most a character has; one more is loss of mark.
const HOLD_units = 7;

type Working = { -readonly [K in keyof ConverterState]: ConverterState[K] };

interface Chain {
  readonly front: Biquad[];
  readonly tone: Biquad[];
  readonly post: Biquad[];
}

function chainOf(o: ConverterOptions, rate: number): Chain {
  const baud = o.baud ?? 50;
  const width = Math.min(o.toneWidth ?? 1.4 * baud, o.shift);
  return {
    front: butterworthLowPass(4, (o.frontWidth ?? o.shift + 4 * baud) / 2, rate),
    tone: butterworthLowPass(2, width / 2, rate),
    // ITU-R F.338: 1.4 times the bauds after the detector for F1B; half of it to each side of zero.
    post: butterworthLowPass(2, 0.7 * baud, rate),
  };
}

// Memories stand in the order front I, Q, then mark I, Q, space I, Q, then post.
function memoriesOf(s: Working, chain: Chain): number[][] {
  if (s.memories.length === 7) return s.memories.map((m) => [...m]);
  const { front, tone, post } = chain;
  return [front, front, tone, tone, tone, tone, post].map(restOf);
}

function limit(re: Float64Array, im: Float64Array): void {
  for (let i = 0; i < re.length; i++) {
    const level = Math.sqrt(re[i]! * re[i]! + im[i]! * im[i]!);
    if (level < 1e-30) continue;
    re[i] = re[i]! / level;
    im[i] = im[i]! / level;
  }
}

function envelope(re: Float64Array, im: Float64Array, sections: Biquad[], mI: number[], mQ: number[]): Float64Array {
  filterInPlace(re, sections, mI);
  filterInPlace(im, sections, mQ);
  for (let i = 0; i < re.length; i++) re[i] = Math.sqrt(re[i]! * re[i]! + im[i]! * im[i]!);
  return re;
}

function discriminate(s: Working, re: Float64Array, im: Float64Array, rate: number, tones: Tones): Float64Array {
  const full = ((toneOf(tones, true) - (tones.centre ?? 0)) * 2 * Math.PI) / rate;
  const out = new Float64Array(re.length);
  let [a, b] = s.last;
  for (let i = 0; i < re.length; i++) {
    const [x, y] = [re[i]!, im[i]!];
    out[i] = atan2(y * a - x * b, x * a + y * b) / full;
    a = x;
    b = y;
  }
  s.last = [a, b];
  return out;
}

function slice(
  s: Working,
  x: Float64Array,
  mark: Float64Array,
  space: Float64Array,
  rate: number,
  o: ConverterOptions,
): Edge[] {
  const edges: Edge[] = [];
  const patience = (HOLD_units * rate) / (o.baud ?? 50);
  const slow = Math.min(1, (o.baud ?? 50) / rate);
  const hold = o.hold ?? true;
  for (let i = 0; i < x.length; i++) {
    const v = x[i]!;
    let at = s.sample + i;
    s.markLevel += slow * (mark[i]! - s.markLevel);
    s.spaceLevel += slow * (space[i]! - s.spaceLevel);
    if (s.mark ? v < -HYSTERESIS : v > HYSTERESIS) {
      const threshold = s.mark ? -HYSTERESIS : HYSTERESIS;
      if (v !== s.decision) at -= (v - threshold) / (v - s.decision);
      s.mark = !s.mark;
    }
    s.decision = v;
    s.absent = s.markLevel > PRESENT ? 0 : s.absent + 1;
    const line = s.mark || (hold && s.absent > patience);
    if (line !== s.line) edges.push({ t_us: Math.round((at * 1e6) / rate), mark: line });
    s.line = line;
  }
  return edges;
}

/** Takes a block of complex samples; gives the edges of the line in absolute microseconds, later than the signal by the filters' delay. */
export function converterRun(
  state: ConverterState,
  re: Float64Array,
  im: Float64Array,
  rate: number,
  options: ConverterOptions,
): { readonly state: ConverterState; readonly edges: readonly Edge[] } {
  const s: Working = { ...state };
  const chain = chainOf(options, rate);
  const m = memoriesOf(s, chain);
  const phases = s.phases.length === 3 ? s.phases : [0, 0, 0];
  const centre = options.centre ?? 0;
  const [fr, fi] = [re.slice(), im.slice()];
  const p0 = shiftBy(fr, fi, -centre, rate, phases[0]);
  filterInPlace(fr, chain.front, m[0]!);
  filterInPlace(fi, chain.front, m[1]!);
  limit(fr, fi);
  const [sr, si] = [fr.slice(), fi.slice()];
  const raw = options.kind === 'discriminator' ? discriminate(s, fr, fi, rate, options) : null;
  const p1 = shiftBy(fr, fi, centre - toneOf(options, true), rate, phases[1]);
  const p2 = shiftBy(sr, si, centre - toneOf(options, false), rate, phases[2]);
  const mark = envelope(fr, fi, chain.tone, m[2]!, m[3]!);
  const space = envelope(sr, si, chain.tone, m[4]!, m[5]!);
  const decided = raw ?? mark.map((v, i) => v - space[i]!);
  filterInPlace(decided, chain.post, m[6]!);
  const edges = slice(s, decided, mark, space, rate, options);
  s.sample += re.length;
  s.phases = [p0, p1, p2];
  s.memories = m;
  return { state: s, edges };
}
