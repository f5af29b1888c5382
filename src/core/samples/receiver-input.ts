/**
 * Ahead of the passband: what the aerial brings, in units of the external noise, becomes complex microvolts at the first
 * valve: weighed, desensed, joined by the set's own noise and by carriers of its own making, and followed through retuning.
 */
import { cos, sin } from '../numeric/elementary.ts';
import { dbToAmplitude } from '../quantity/quantity.ts';
import type { NormalSource } from './noise.ts';
import { fraction } from './oscillator.ts';
import type { ReceiverSettings } from './receiver-chain.ts';

/** The receiver and its aerial as they stand at one instant: all that turns the ear's samples into sound. */
export interface Listening {
  /** True middle of the passband, Hz. */
  readonly tuned_Hz: number;
  /** External noise in 1 Hz as it comes past input circuit and RF gain, dB above 1 microvolt. */
  readonly outside_dBuV: number;
  /** The set's own noise over that, dB. */
  readonly inner_dB: number;
  /** By how much a strong neighbour presses the first valve's gain down, dB (0 or more); own noise stays. */
  readonly desensed_dB: number;
  /** RF gain less the input circuit's loss, dB. */
  readonly gain_dB: number;
  /** No aerial: the whip is at the sender and there is no second one. The set is muted. */
  readonly deaf: boolean;
  /** What the own sender leaks in, dB above 1 microvolt after the RF gain; null when it is silent. */
  readonly leak_dBuV: number | null;
  /** Crystal calibrator: parts in a million that it is high, or null when it is off. */
  readonly calibrator_ppm: number | null;
  readonly settings: ReceiverSettings;
}

/** A carrier at the receiver: true frequency, Hz, and microvolts. */
export interface SteadyCarrier {
  readonly f_Hz: number;
  readonly uV: number;
}

/** Spacing of the calibrator's carriers, Hz, and their strength at the aerial socket, dB above 1 microvolt (ours). */
export const CALIBRATOR_Hz = 250_000;
export const CALIBRATOR_dBuV = 40;

/** The calibrator's carriers within `reach_Hz` of a frequency, 1 microvolt strong: whole multiples of 250 kHz, all off by the crystal's error. */
export function calibratorNear(f_Hz: number, reach_Hz: number, ppm: number): SteadyCarrier[] {
  const spacing = CALIBRATOR_Hz * (1 + ppm / 1e6);
  const first = Math.max(1, Math.ceil((f_Hz - reach_Hz) / spacing));
  const last = Math.floor((f_Hz + reach_Hz) / spacing);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => ({ f_Hz: (first + i) * spacing, uV: 1 }));
}

/** Adds a carrier to samples round `centre_Hz` from absolute sample `first`; its phase is counted from instant 0. Beyond the band nothing is added. */
export function addSteady(
  re: Float64Array,
  im: Float64Array,
  first: number,
  rate: number,
  centre_Hz: number,
  carrier: SteadyCarrier,
): void {
  const offset_Hz = carrier.f_Hz - centre_Hz;
  if (Math.abs(offset_Hz) >= rate / 2) return;
  // Both counts are wrapped before they are subtracted: they run to 1e10 turns.
  const turns = fraction((carrier.f_Hz * first) / rate) - fraction((centre_Hz * first) / rate);
  for (let i = 0; i < re.length; i++) {
    const angle = 2 * Math.PI * fraction(turns + (offset_Hz * i) / rate);
    re[i] = re[i]! + carrier.uV * cos(angle);
    im[i] = im[i]! + carrier.uV * sin(angle);
  }
}

/** Memory of the input: the middle of the band, Hz, and what its oscillator has gained on one that began at instant 0, turns. Plain JSON. */
export interface InputState {
  readonly centre_Hz: number;
  readonly turns: number;
}

/** Not tuned yet. */
export const inputAtRest = (): InputState => ({ centre_Hz: 0, turns: 0 });

/** The oscillator goes on in phase when it is tuned to another frequency at instant `t_s`: without this every step of the dial would click. */
export function retune(state: InputState, centre_Hz: number, t_s: number): InputState {
  if (centre_Hz === state.centre_Hz) return state;
  const turns =
    state.centre_Hz === 0 ? 0 : fraction(state.turns + fraction(centre_Hz * t_s) - fraction(state.centre_Hz * t_s));
  return { centre_Hz, turns };
}

function addOwnNoise(re: Float64Array, im: Float64Array, first: number, sigma: number, noise: NormalSource): void {
  for (let i = 0; i < re.length; i++) {
    re[i] = re[i]! + sigma * noise(2 * (first + i));
    im[i] = im[i]! + sigma * noise(2 * (first + i) + 1);
  }
}

function turn(re: Float64Array, im: Float64Array, turns: number): void {
  if (turns === 0) return;
  const [c, s] = [cos(2 * Math.PI * turns), sin(2 * Math.PI * turns)];
  for (let i = 0; i < re.length; i++) {
    const x = re[i]!;
    re[i] = x * c - im[i]! * s;
    im[i] = x * s + im[i]! * c;
  }
}

/** The carriers that the set makes or picks up itself. */
function ownCarriers({ tuned_Hz, gain_dB, calibrator_ppm, leak_dBuV }: Listening, rate: number): SteadyCarrier[] {
  const level = dbToAmplitude(CALIBRATOR_dBuV + gain_dB);
  const harmonics = calibrator_ppm === null ? [] : calibratorNear(tuned_Hz, rate / 2, calibrator_ppm);
  const leak = leak_dBuV === null ? [] : [{ f_Hz: tuned_Hz, uV: dbToAmplitude(leak_dBuV) }];
  return [...harmonics.map((h) => ({ ...h, uV: h.uV * level })), ...leak];
}

/**
 * The ear's samples (noise of unit power in 1 Hz, round `tuned_Hz`, absolute sample `first` on) to complex microvolts, in
 * place. |z| is the voltage of a carrier; the mean of |z|² is the power of noise in microvolts squared.
 */
export function inputInPlace(
  state: InputState,
  re: Float64Array,
  im: Float64Array,
  first: number,
  rate: number,
  listening: Listening,
  noise: NormalSource,
): InputState {
  const { outside_dBuV, inner_dB, desensed_dB, deaf, tuned_Hz } = listening;
  const scale = deaf ? 0 : dbToAmplitude(outside_dBuV - desensed_dB);
  for (let i = 0; i < re.length; i++) {
    re[i] = re[i]! * scale;
    im[i] = im[i]! * scale;
  }
  addOwnNoise(re, im, first, dbToAmplitude(outside_dBuV + inner_dB) * Math.sqrt(rate / 2), noise);
  for (const carrier of ownCarriers(listening, rate)) addSteady(re, im, first, rate, tuned_Hz, carrier);
  const next = retune(state, tuned_Hz, first / rate);
  turn(re, im, next.turns);
  return next;
}
