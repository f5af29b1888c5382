/** A recording as a source of sideband: what it measures, and its upper sideband at any instant and in any band. */
import { cos, sin } from '../numeric/elementary.ts';
import { fft } from '../numeric/fft.ts';
import { sinc } from '../numeric/special.ts';

/** Sound: real samples, so many a second. */
export type Recording = { readonly rate: number; readonly samples: Float64Array };
/** Recordings by file name. */
export type Recordings = ReadonlyMap<string, Recording>;
/** No recordings. */
export const NO_RECORDINGS: Recordings = new Map();

/** Mean of the squares, length in seconds, and the middle of the energy over frequency, Hz (0 when silent). */
export type Measured = { power: number; length_s: number; middle_Hz: number };

const BLOCK = 1024;
const measured = new WeakMap<Recording, Measured>();

/** Energy and its first moment over frequency of one block, by Hann's window. */
function momentsOf(samples: Float64Array, from: number): readonly [energy: number, moment: number] {
  const re = new Float64Array(BLOCK);
  const im = new Float64Array(BLOCK);
  for (let i = 0; i < BLOCK; i++)
    re[i] = (samples[from + i] ?? 0) * (0.5 - 0.5 * cos((2 * Math.PI * (i + 0.5)) / BLOCK));
  fft(re, im);
  let [energy, moment] = [0, 0];
  for (let k = 1; k < BLOCK / 2; k++) {
    const e = re[k]! * re[k]! + im[k]! * im[k]!;
    energy += e;
    moment += e * (k / BLOCK);
  }
  return [energy, moment];
}

/** What a recording measures; worked out once. */
export function measure(recording: Recording): Measured {
  let known = measured.get(recording);
  if (!known) {
    const { samples, rate } = recording;
    let [energy, moment, squares] = [0, 0, 0];
    for (let from = 0; from < samples.length; from += BLOCK) {
      const [e, m] = momentsOf(samples, from);
      energy += e;
      moment += m;
    }
    for (const x of samples) squares += x * x;
    const middle_Hz = energy > 0 ? (rate * moment) / energy : 0;
    known = { power: squares / Math.max(1, samples.length), length_s: samples.length / rate, middle_Hz };
    measured.set(recording, known);
  }
  return known;
}

/** The filter reaches over so many of its own zeros to each side: 70 dB down a fifth of its width beyond its edge. */
const ZEROS = 16;
const FINE = 512;
let table: Float64Array | undefined;

/** The low-pass filter's response (a sinc under Blackman's window), FINE steps a zero, one side. */
function kernel(): Float64Array {
  table ??= Float64Array.from({ length: ZEROS * FINE + 2 }, (_, i) => {
    const x = i / FINE;
    if (x >= ZEROS) return 0;
    const turn = (Math.PI * x) / ZEROS;
    return sinc(x) * (0.42 + 0.5 * cos(turn) + 0.08 * cos(2 * turn));
  });
  return table;
}

/** A stretch of tones, Hz. */
export type Tones = { low_Hz: number; high_Hz: number };
const wrap = (cycles: number): number => cycles - Math.floor(cycles);

/**
 * The analytic signal (upper sideband) of a recording's tones within `tones`, by instant: unit mean power over the whole
 * recording if all its tones are within. Instants are seconds from the recording's beginning, and the answer depends on
 * the instant alone. Before the beginning is silence; past the end too, unless it `repeats`.
 */
export class Sideband {
  private readonly middle_Hz: number;
  private readonly width_Hz: number;
  private readonly gain: number;
  /** The recording with the middle of the tones brought down to 0, samples `first` and on. */
  private re = new Float64Array(0);
  private im = new Float64Array(0);
  private first = 0;

  constructor(
    private readonly of: Recording,
    private readonly repeats: boolean,
    { low_Hz, high_Hz }: Tones,
  ) {
    const [low, high] = [Math.max(0, low_Hz), Math.min(of.rate / 2, high_Hz)];
    this.middle_Hz = (low + high) / 2;
    this.width_Hz = high - low;
    const { power } = measure(of);
    // The tones of positive frequency alone hold half of a real signal's power.
    this.gain = power > 0 && this.width_Hz > 0 ? (Math.SQRT2 / Math.sqrt(power)) * (this.width_Hz / of.rate) : 0;
  }

  /** Nothing of it can be in the band. */
  get isEmpty(): boolean {
    return this.gain === 0;
  }

  /** Make ready for instants from `from_s` to `to_s`. */
  prepare(from_s: number, to_s: number): void {
    const { samples, rate } = this.of;
    const reach_s = ZEROS / this.width_Hz;
    this.first = Math.ceil((from_s - reach_s) * rate) - 1;
    const count = Math.floor((to_s + reach_s) * rate) + 2 - this.first;
    this.re = new Float64Array(count);
    this.im = new Float64Array(count);
    const { length } = samples;
    for (let i = 0; i < count; i++) {
      const n = this.first + i;
      if (n < 0 || (n >= length && !this.repeats)) continue;
      const x = this.gain * samples[n % length]!;
      const turn = 2 * Math.PI * wrap((this.middle_Hz * n) / rate);
      this.re[i] = x * cos(turn);
      this.im[i] = -x * sin(turn);
    }
  }

  /** The signal at an instant made ready for. */
  at(t_s: number): readonly [re: number, im: number] {
    const { re: x, im: y, first } = this;
    const { rate } = this.of;
    const h = kernel();
    const reach = (ZEROS / this.width_Hz) * rate;
    const scale = (this.width_Hz / rate) * FINE;
    const at = t_s * rate;
    const last = Math.min(Math.floor(at + reach), first + x.length - 1);
    let [re, im] = [0, 0];
    for (let n = Math.max(Math.ceil(at - reach), first); n <= last; n++) {
      const place = Math.min(Math.abs(at - n) * scale, ZEROS * FINE);
      const whole = Math.floor(place);
      const low = h[whole]!;
      const weight = low + (place - whole) * (h[whole + 1]! - low);
      re += weight * x[n - first]!;
      im += weight * y[n - first]!;
    }
    const turn = 2 * Math.PI * wrap(this.middle_Hz * t_s);
    const [c, s] = [cos(turn), sin(turn)];
    return [re * c - im * s, re * s + im * c];
  }
}
