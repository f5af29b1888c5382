/** Morse as a tone in a recording, made and read. */
import { ln } from '../numeric/elementary.ts';
import { dot_us, type KeyEdge, morseEdges } from '../telegraphy/morse.ts';
import { type Hand, measureHand } from '../telegraphy/morse-hand.ts';
import { readKeying } from '../telegraphy/morse-reader.ts';
import { keyEdgesOf, keyEnvelope, withoutGlitches } from './keying.ts';
import { type AddedNoise, addRealNoise, fitInPlace, noisePower } from './noise.ts';
import { shiftBy } from './oscillator.ts';
import { peakFrequency, powerSpectrum } from './spectrum.ts';

/** A Morse recording to make. */
export interface MorseWav {
  readonly text: string;
  /** Words a minute; 15 unless told. */
  readonly wpm?: number;
  /** Hz; 700 unless told. */
  readonly tone?: number;
  /** Samples a second; 8000 unless told. */
  readonly rate?: number;
  /** Silence before and after, seconds; 0.5 unless told. */
  readonly lead_s?: number;
  /** Noise; the element of its Eb/N0 is one dot. */
  readonly added?: AddedNoise;
  /** Keying by a hand instead of a machine: its own edges in microseconds from the start of the recording, used in place of the text's. */
  readonly edges?: readonly KeyEdge[];
}

/** Text (or a hand's keying) as a keyed tone, real samples within ±0.9. */
export function makeMorse(options: MorseWav): Float64Array {
  const { wpm = 15, tone = 700, rate = 8000, lead_s = 0.5, added } = options;
  if (!(tone > 0 && tone < rate / 2))
    throw new RangeError(`a tone of ${tone} Hz does not fit ${rate} samples a second`);
  const lead_us = Math.round(lead_s * 1e6);
  const edges = options.edges ?? morseEdges(options.text, lead_us, wpm).edges;
  const end_us = edges.at(-1)?.t_us ?? lead_us;
  const x = keyEnvelope(edges, 0, Math.ceil(((end_us + lead_us) * rate) / 1e6), rate);
  shiftBy(x, new Float64Array(x.length), tone, rate);
  if (added !== undefined) addRealNoise(x, noisePower(added.ebN0_dB, dot_us(wpm) / 1e6, rate), added.noise);
  fitInPlace(x);
  return x;
}

// The envelope is worked at this many points a second: a dot at 40 wpm has 15.
const POINTS_per_s = 500;

/** The sound turned to 0 Hz at a tone and summed over pieces of 2 ms, as running sums ready for any window. */
function runningSums(x: Float64Array, rate: number, tone: number): { re: Float64Array; im: Float64Array } {
  const re = x.slice();
  const im = new Float64Array(x.length);
  shiftBy(re, im, -tone, rate);
  const points = Math.floor((x.length * POINTS_per_s) / rate);
  const out = { re: new Float64Array(points + 1), im: new Float64Array(points + 1) };
  let i = 0;
  let [a, b] = [0, 0];
  for (let p = 1; p <= points; p++) {
    for (const to = Math.round((p * rate) / POINTS_per_s); i < to; i++) {
      a += re[i]!;
      b += im[i]!;
    }
    out.re[p] = a;
    out.im[p] = b;
  }
  return out;
}

function envelopeOver(sums: { re: Float64Array; im: Float64Array }, window_us: number): Float64Array {
  const half = Math.max(1, Math.round((window_us * POINTS_per_s) / 2e6));
  const last = sums.re.length - 1;
  return Float64Array.from({ length: last }, (_, p) => {
    const [from, to] = [Math.max(0, p - half), Math.min(last, p + half)];
    const a = sums.re[to]! - sums.re[from]!;
    const b = sums.im[to]! - sums.im[from]!;
    return Math.sqrt(a * a + b * b);
  });
}

// Part of a dot that the envelope is integrated over: longer is quieter, but rounds a dot off.
const WINDOW_dots = 0.7;
const SPEEDS_TRIED_wpm = [28, 20, 14, 10, 7, 5];

const keyingAt = (sums: ReturnType<typeof runningSums>, dot: number): KeyEdge[] =>
  withoutGlitches(keyEdgesOf(envelopeOver(sums, dot * WINDOW_dots), POINTS_per_s), dot * 0.35);

// How little a keying looks like Morse at the speed it was read for: lengths of one kind that scatter, dashes that are not
// three dots, gaps inside characters that are not one, and a dot that is not the one expected.
function strangeness(hand: Hand | null, dot: number): number {
  if (hand === null) return Infinity;
  const { dash, elementGap } = hand;
  const scatter = hand.dot.spread + dash.spread + elementGap.spread;
  const shape =
    (dash.count > 0 ? Math.abs(ln(dash.dots / 3)) : 1) + (elementGap.count > 0 ? Math.abs(ln(elementGap.dots)) : 1);
  return scatter + shape + Math.abs(ln(hand.dot_us / dot));
}

/**
 * Key movements in a recording of one tone. Unless a speed is told, several are tried; the one whose keying looks most
 * like Morse is kept, and the recording is read again with the dot it showed.
 */
export function morseKeying(samples: Float64Array, rate: number, tone: number, wpm?: number): KeyEdge[] {
  const sums = runningSums(samples, rate, tone);
  let best = { strange: Infinity, dot: dot_us(wpm ?? 12) };
  for (const tried of wpm === undefined ? SPEEDS_TRIED_wpm : [wpm]) {
    const hand = measureHand(keyingAt(sums, dot_us(tried)), tried);
    const strange = strangeness(hand, dot_us(tried));
    if (hand !== null && strange < best.strange) best = { strange, dot: hand.dot_us };
  }
  return keyingAt(sums, best.dot);
}

/** The text of a Morse recording. The tone is the strongest between 300 and 1500 Hz unless told; any speed from 5 to 30 wpm. */
export function readMorse(
  samples: Float64Array,
  rate: number,
  options: { readonly tone?: number; readonly wpm?: number } = {},
): string {
  const size = 4096;
  const quiet = new Float64Array(samples.length);
  const tone = options.tone ?? peakFrequency(powerSpectrum(samples, quiet, rate, size), 300, 1500);
  return readKeying(morseKeying(samples, rate, tone, options.wpm), options.wpm);
}
