/**
 * The receiver from its passband to the loudspeaker: complex microvolts in, audio at 8 kHz out. Intermediate filter, AGC,
 * detector (envelope, or beat with the BFO), noise limiter, audio filter, volume. State is plain JSON; blocks join.
 */
import { cos, exp, sin } from '../numeric/elementary.ts';
import { dbToAmplitude } from '../quantity/quantity.ts';
import { type Agc, type AgcState, agcAtRest, agcInPlace } from './agc.ts';
import { detectEnvelope, type EnvelopeState } from './am.ts';
import { type Biquad, butterworthLowPass, filterInPlace, firLowPass, restOf } from './filter.ts';
import { type MeterState, meterRun } from './level-meter.ts';
import { fraction } from './oscillator.ts';
import { type HalvingState, halve, halvingAtRest, upsample } from './resample.ts';

/** Controls of the receiver behind its input. */
export interface ReceiverSettings {
  /** Width of the passband between its 3 dB points, Hz: above 0 and up to 6,400. */
  readonly bandwidth_Hz: number;
  readonly agc: Agc;
  /** BFO less the middle of the passband, Hz, -3,000..3,000; null is off: the envelope is detected. */
  readonly bfo_Hz: number | null;
  readonly limiter: boolean;
  /** Volume, dB: 0 is full; null is silent. */
  readonly volume_dB: number | null;
}

/** Audio samples a second. */
export const AUDIO_RATE = 8000;
/** Detectors work at this rate, so that neither the bend of an envelope nor a BFO at the edge folds back into the audio. */
const DETECTOR_RATE = 16_000;
/** The passband is a low-pass of this order on both components: 24 dB an octave to each side. */
export const PASSBAND_ORDER = 4;
/** A carrier of so many dB above 1 microvolt behind the AGC fills the detector; what is stronger is cut off. */
export const FULL_dBuV = 70;
/** Audio is cut here, Hz, and below BASS_Hz. */
const TREBLE_Hz = 3600;
const BASS_Hz = 40;
/** The limiter knows the loudness by a mean over so long, seconds. */
const LIMITER_s = 0.5;

/** Rate of the complex samples for a bandwidth: the least of 2, 4, 8 and 16 thousand a second that is 2.5 times as much. */
export function intermediateRate(bandwidth_Hz: number): number {
  if (!(bandwidth_Hz > 0 && bandwidth_Hz <= DETECTOR_RATE / 2.5))
    throw new RangeError(`bandwidth must be above 0 and up to ${DETECTOR_RATE / 2.5} Hz, got ${bandwidth_Hz}`);
  let rate = 2000;
  while (rate < 2.5 * bandwidth_Hz) rate *= 2;
  return rate;
}

/** All that the receiver remembers; plain JSON. */
export interface ReceiverState {
  /** Rate and width that filters and histories belong to; 0 before the first block. */
  readonly rate: number;
  readonly bandwidth_Hz: number;
  readonly passband: readonly [readonly number[], readonly number[]];
  readonly rising: readonly [readonly number[], readonly number[]];
  readonly meter: MeterState;
  readonly agc: AgcState;
  /** Phase of the BFO at the next detector sample, turns. */
  readonly bfo: number;
  readonly envelope: EnvelopeState;
  /** Mean strength of the detected carrier, for the limiter. */
  readonly mean: number;
  readonly halving: HalvingState;
  readonly bass: number;
  /** Volume that the last block ended with, 0..1. */
  readonly volume: number;
}

/** A receiver just switched on. */
export const receiverAtRest = (): ReceiverState => ({
  rate: 0,
  bandwidth_Hz: 0,
  passband: [[], []],
  rising: [[], []],
  meter: { uV: 0 },
  agc: agcAtRest(),
  bfo: 0,
  envelope: { carrier: null },
  mean: 0,
  halving: halvingAtRest(),
  bass: 0,
  volume: 0,
});

/** The passband's filter, one for each component. */
export const passbandOf = (bandwidth_Hz: number): Biquad[] =>
  butterworthLowPass(PASSBAND_ORDER, bandwidth_Hz / 2, intermediateRate(bandwidth_Hz));

const AUDIO_TAPS = firLowPass(81, TREBLE_Hz, DETECTOR_RATE);

type Working = { -readonly [K in keyof ReceiverState]: ReceiverState[K] };

function onto(s: Working, bandwidth_Hz: number, rate: number, rest: readonly number[]): void {
  if (s.bandwidth_Hz !== bandwidth_Hz) s.passband = [rest, rest];
  if (s.rate !== rate) s.rising = [[], []];
  s.bandwidth_Hz = bandwidth_Hz;
  s.rate = rate;
}

/** Scales so that a full carrier is 1, and cuts what is more: an overdriven last stage flattens, whatever the phase. */
function fill(re: Float64Array, im: Float64Array): void {
  const scale = dbToAmplitude(-FULL_dBuV);
  for (let i = 0; i < re.length; i++) {
    const x = re[i]! * scale;
    const y = im[i]! * scale;
    const size = Math.sqrt(x * x + y * y);
    const cut = size > 1 ? 1 / size : 1;
    re[i] = x * cut;
    im[i] = y * cut;
  }
}

/** Product detector: the real part after turning by the BFO. */
function beat(s: Working, re: Float64Array, im: Float64Array, bfo_Hz: number): Float64Array {
  const out = new Float64Array(re.length);
  for (let i = 0; i < out.length; i++) {
    const angle = 2 * Math.PI * fraction(s.bfo + (bfo_Hz * i) / DETECTOR_RATE);
    out[i] = re[i]! * cos(angle) + im[i]! * sin(angle);
  }
  s.bfo = fraction(s.bfo + (bfo_Hz * out.length) / DETECTOR_RATE);
  return out;
}

function detect(s: Working, re: Float64Array, im: Float64Array, bfo_Hz: number | null): Float64Array {
  if (bfo_Hz !== null) {
    s.envelope = { carrier: null };
    return beat(s, re, im, bfo_Hz);
  }
  const { state, audio } = detectEnvelope(s.envelope, re, im, DETECTOR_RATE);
  s.envelope = state;
  return audio;
}

/** Cuts off what is louder than the mean strength: full modulation and a steady note are just let through. */
function limit(s: Working, audio: Float64Array, re: Float64Array, im: Float64Array, isOn: boolean): void {
  const slow = 1 - exp(-1 / (LIMITER_s * DETECTOR_RATE));
  let mean = s.mean;
  for (let i = 0; i < audio.length; i++) {
    mean += slow * (Math.sqrt(re[i]! * re[i]! + im[i]! * im[i]!) - mean);
    if (isOn) audio[i] = Math.min(mean, Math.max(-mean, audio[i]!));
  }
  s.mean = mean;
}

/** Takes away what is too low to hear, and sets the volume, gliding to a new one within the block. */
function finish(s: Working, audio: Float64Array, volume: number): void {
  const keep = 1 - exp((-2 * Math.PI * BASS_Hz) / AUDIO_RATE);
  const glide = audio.length > 0 ? (volume - s.volume) / audio.length : 0;
  let bass = s.bass;
  for (let i = 0; i < audio.length; i++) {
    const x = (1 - keep / 2) * (audio[i]! - bass) * (s.volume + glide * (i + 1));
    bass += keep * (audio[i]! - bass);
    audio[i] = Math.min(1, Math.max(-1, x));
  }
  s.bass = bass;
  s.volume = volume;
}

/** One block received: the state after it, and audio within ±1 at 8 kHz. */
export interface Received {
  readonly state: ReceiverState;
  readonly audio: Float64Array;
}

/** Receives a block of complex microvolts at `intermediateRate(bandwidth_Hz)`; the arrays are left as they are. */
export function receive(
  state: ReceiverState,
  re: Float64Array,
  im: Float64Array,
  settings: ReceiverSettings,
): Received {
  const { bandwidth_Hz, agc, bfo_Hz, limiter, volume_dB } = settings;
  const rate = intermediateRate(bandwidth_Hz);
  const s: Working = { ...state };
  const sections = passbandOf(bandwidth_Hz);
  onto(s, bandwidth_Hz, rate, restOf(sections));
  const z = [re.slice(), im.slice()] as const;
  s.passband = [filtered(z[0], sections, s.passband[0]), filtered(z[1], sections, s.passband[1])];
  s.meter = meterRun(s.meter, z[0], z[1], rate);
  s.agc = agcInPlace(s.agc, z[0], z[1], rate, agc);
  fill(z[0], z[1]);
  const rising: [number[], number[]] = [[...s.rising[0]], [...s.rising[1]]];
  const factor = DETECTOR_RATE / rate;
  const [x, y] = [upsample(z[0], factor, rising[0]), upsample(z[1], factor, rising[1])];
  s.rising = rising;
  const audio = detect(s, x, y, bfo_Hz);
  limit(s, audio, x, y, limiter);
  const { state: halving, out } = halve(s.halving, audio, AUDIO_TAPS);
  s.halving = halving;
  finish(s, out, volume_dB === null ? 0 : dbToAmplitude(Math.min(0, volume_dB)));
  return { state: s, audio: out };
}

function filtered(x: Float64Array, sections: readonly Biquad[], memory: readonly number[]): number[] {
  const next = [...memory];
  filterInPlace(x, sections, next);
  return next;
}
