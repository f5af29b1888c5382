/**
 * The terminal unit's converter: received tones to a keyed line. Front filter, limiter, then either two tone filters whose
 * envelopes are compared, or a frequency discriminator; a post-detector filter; a slicer. A practical unit, not an ideal one.
 */
import { atan2 } from '../numeric/elementary.ts';
import type { Edge } from '../telegraphy/startstop.ts';
import { type Biquad, butterworthLowPass, delayAtZero, filterComplex, filterInPlace, restOf } from './filter.ts';
import { type Tones, toneOf } from './fsk.ts';
import { shiftBy, shiftInto } from './oscillator.ts';

/** Settings of a converter. */
export interface ConverterOptions extends Tones {
  /** Speed the filters are made for, bauds; 50 unless told. */
  readonly baud?: number;
  readonly kind?: 'tone filters' | 'discriminator';
  /**
   * Width of each tone filter, Hz; half the shift unless told, but 250 at most and 1.4 times the bauds at least: wide enough
   * that a strong signal a quarter of the shift off still reads, at the price of a decibel or so in noise. Never over the shift.
   */
  readonly toneWidth?: number;
  /** Width of the front filter, Hz; shift plus four times the bauds unless told. */
  readonly frontWidth?: number;
  /** Hold the line at mark when the mark tone has been gone for longer than a character can be space; true unless told. */
  readonly hold?: boolean;
}

/**
 * Samples a second that a converter for 50 Bd wants, round the middle of its tones: its front filter is shift + 200 Hz wide,
 * and what does not fit the stream is left out of it by the ear.
 */
export const converterRate = (shift_Hz: number): number => (shift_Hz <= 400 ? 1200 : 2400);

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
  /** Smoothed difference of the two tone filters without its sign, 0..1: near 1 for a keyed tone, about 0.3 for noise. */
  readonly contrast: number;
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
  contrast: 0,
  markLevel: 0,
  spaceLevel: 0,
});

// Slicer: it must be passed by this much of a full tone before the line moves (keeps noise from chattering).
const HYSTERESIS = 0.05;
// A tone counts as there while the contrast is above this. One a quarter of the shift off still gives 0.55; noise alone gives
// 0.3 and, smoothed over eight units, hardly ever so much.
const PRESENT = 0.45;
const CONTRAST_units = 8;
// Six units of space is the most a character has; one more is loss of mark.
const HOLD_units = 7;

type Working = { -readonly [K in keyof ConverterState]: ConverterState[K] };

interface Chain {
  readonly front: Biquad[];
  readonly tone: Biquad[];
  readonly post: Biquad[];
}

function makeChain(o: ConverterOptions, rate: number): Chain {
  const baud = o.baud ?? 50;
  const width = Math.min(o.toneWidth ?? Math.max(1.4 * baud, Math.min(250, o.shift / 2)), o.shift);
  return {
    front: butterworthLowPass(4, (o.frontWidth ?? o.shift + 4 * baud) / 2, rate),
    tone: butterworthLowPass(2, width / 2, rate),
    // ITU-R F.338: 1.4 times the bauds after the detector for F1B; half of it to each side of zero.
    post: butterworthLowPass(2, 0.7 * baud, rate),
  };
}

const chains = new Map<string, Chain>();

// A handful of settings comes back for every block.
function chainOf(o: ConverterOptions, rate: number): Chain {
  const key = `${rate} ${o.shift} ${o.baud} ${o.toneWidth} ${o.frontWidth}`;
  let chain = chains.get(key);
  if (!chain) {
    chain = makeChain(o, rate);
    chains.set(key, chain);
  }
  return chain;
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
  filterComplex(re, im, sections, mI, mQ);
  for (let i = 0; i < re.length; i++) re[i] = Math.sqrt(re[i]! * re[i]! + im[i]! * im[i]!);
  return re;
}

function difference(out: Float64Array, mark: Float64Array, space: Float64Array): void {
  for (let i = 0; i < out.length; i++) out[i] = mark[i]! - space[i]!;
}

// One buffer a block: many small ones cost more than the arithmetic in them.
function rooms(n: number): [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array] {
  const all = new Float64Array(5 * n);
  const room = (k: number) => all.subarray(k * n, (k + 1) * n);
  return [room(0), room(1), room(2), room(3), room(4)];
}

function discriminate(
  s: Working,
  out: Float64Array,
  re: Float64Array,
  im: Float64Array,
  rate: number,
  tones: Tones,
): void {
  const full = ((toneOf(tones, true) - (tones.centre ?? 0)) * 2 * Math.PI) / rate;
  let [a, b] = s.last;
  for (let i = 0; i < re.length; i++) {
    const [x, y] = [re[i]!, im[i]!];
    out[i] = atan2(y * a - x * b, x * a + y * b) / full;
    a = x;
    b = y;
  }
  s.last = [a, b];
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
  let { mark: isMark, line, decision, absent, contrast, markLevel, spaceLevel } = s;
  for (let i = 0; i < x.length; i++) {
    const v = x[i]!;
    let at = s.sample + i;
    markLevel += slow * (mark[i]! - markLevel);
    spaceLevel += slow * (space[i]! - spaceLevel);
    if (isMark ? v < -HYSTERESIS : v > HYSTERESIS) {
      const threshold = isMark ? -HYSTERESIS : HYSTERESIS;
      if (v !== decision) at -= (v - threshold) / (v - decision);
      isMark = !isMark;
    }
    decision = v;
    contrast += (slow / CONTRAST_units) * (Math.abs(mark[i]! - space[i]!) - contrast);
    absent = isMark && contrast > PRESENT ? 0 : absent + 1;
    const next = isMark || (hold && absent > patience);
    if (next !== line) edges.push({ t_us: Math.round((at * 1e6) / rate), mark: next });
    line = next;
  }
  Object.assign(s, { mark: isMark, line, decision, absent, contrast, markLevel, spaceLevel });
  return edges;
}

/** What stands behind a converter's edges, sample by sample. */
export interface ConverterWaves {
  /** Envelopes of the tone filters, 0..1 of a clean tone. */
  readonly mark: Float64Array;
  readonly space: Float64Array;
  /** Mark less space (or the discriminator's voltage) after the post-detector filter, as the slicer has it: 1 full mark, -1 full space. */
  readonly decided: Float64Array;
}

/** Takes a block of complex samples; gives the edges of the line in absolute microseconds, later than the signal by the filters' delay. */
export function converterRun(
  state: ConverterState,
  re: Float64Array,
  im: Float64Array,
  rate: number,
  options: ConverterOptions,
): { readonly state: ConverterState; readonly edges: readonly Edge[]; readonly waves: ConverterWaves } {
  const s: Working = { ...state };
  const chain = chainOf(options, rate);
  const m = memoriesOf(s, chain);
  const phases = s.phases.length === 3 ? s.phases : [0, 0, 0];
  const centre = options.centre ?? 0;
  const [fr, fi, mark, mi, decided] = rooms(re.length);
  fr.set(re);
  fi.set(im);
  const p0 = shiftBy(fr, fi, -centre, rate, phases[0]);
  filterComplex(fr, fi, chain.front, m[0]!, m[1]!);
  limit(fr, fi);
  if (options.kind === 'discriminator') discriminate(s, decided, fr, fi, rate, options);
  const p1 = shiftInto(mark, mi, fr, fi, centre - toneOf(options, true), rate, phases[1]!);
  const p2 = shiftInto(fr, fi, fr, fi, centre - toneOf(options, false), rate, phases[2]!);
  envelope(mark, mi, chain.tone, m[2]!, m[3]!);
  const space = envelope(fr, fi, chain.tone, m[4]!, m[5]!);
  if (options.kind !== 'discriminator') difference(decided, mark, space);
  filterInPlace(decided, chain.post, m[6]!);
  const edges = slice(s, decided, mark, space, rate, options);
  s.sample += re.length;
  s.phases = [p0, p1, p2];
  s.memories = m;
  return { state: s, edges, waves: { mark, space, decided } };
}

/** How much later than the signal its tone envelopes and its decision stand, microseconds: the filters' delays at zero. */
export function converterDelay_us(rate: number, options: ConverterOptions): { tones: number; decided: number } {
  const { front, tone, post } = chainOf(options, rate);
  const us = (sections: readonly Biquad[]) => (1e6 * delayAtZero(sections)) / rate;
  const tones = us(front) + us(tone);
  return { tones, decided: tones + us(post) };
}
