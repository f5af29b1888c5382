/** The receiver's arithmetic: tuning and its errors, aerial volts, own noise, levels, loudness. Pure. */
import { exp, log10 } from '../../numeric/elementary.ts';
import { dbToRatio } from '../../quantity/quantity.ts';
import { type Agc, agcGain_dB } from '../../samples/agc.ts';
import { CALIBRATOR_dBuV, CALIBRATOR_Hz } from '../../samples/receiver-input.ts';
import { passbandLoss_dB } from '../../samples/voice.ts';
import type { Arrival, ControlValue } from '../../signals.ts';
import type { Wires } from '../wires.ts';

type Set = Readonly<Record<string, ControlValue>>;
const num = (set: Set, id: string): number => Number(set[id]);

/** Lowest frequency that the input circuits reach, Hz. */
const LOWEST_Hz = 400_000;
/** Warm-up drift: 40 Hz in ten minutes, most of it early. */
const DRIFT_Hz = 40;
const DRIFT_s = 150;

/** How far the warm oscillators have crept `on_s` seconds after switching on, Hz. */
export const drift_Hz = (on_s: number): number => DRIFT_Hz * (1 - exp(-Math.max(0, on_s) / DRIFT_s));

/** What the dial stands at, Hz, before its error and without the index. */
export const dialled_Hz = (set: Set): number =>
  1000 * (Number(set['band']) * 1000 + num(set, 'dial') + num(set, 'fine'));

/** What the scale says, kHz, index included; to 5 Hz. */
export const scale_kHz = (set: Set): number => Math.round(dialled_Hz(set) / 5 + num(set, 'index') * 200) / 200;

/** True middle of the passband, Hz. */
export const tuned_Hz = (set: Set, dialError_kHz: number, drift: number): number =>
  Math.max(LOWEST_Hz, Math.round(10 * (dialled_Hz(set) + 1000 * dialError_kHz + drift)) / 10);

/** Loss of the input circuit off its peak, dB; the peak moves from 2 to 8 of the knob over a band. */
export function trimLoss_dB(set: Set): number {
  const off = num(set, 'trim') - (2 + (6 * num(set, 'dial')) / 2000);
  return Math.min(25, 10 * log10(1 + (off / 0.6) * (off / 0.6)));
}

/** RF gain relative to full, dB: 8 dB a division. */
export const rfGain_dB = (set: Set): number => 8 * (num(set, 'rfGain') - 10);

/** Effective height of a short whip, half its height (any antenna text), as dB over 1 m; a bare socket picks up as 5 cm would. */
export const effectiveHeight_dB = (height_m: number): number => 20 * log10(Math.max(0.05, height_m / 2));

// Noise figure 12 dB: kT0 F in 1 Hz is -162 dBm available, an EMF of -49 dB above 1 microvolt in 50 ohm.
const OWN_NOISE_dBuV = -49;

/** The receiver's own noise over the external noise, dB, with the input as it stands. */
export function innerNoise_dB(noise_dBuVm: number, height_m: number, gain_dB: number, trim_dB: number): number {
  return Math.max(-60, OWN_NOISE_dBuV - (noise_dBuVm + effectiveHeight_dB(height_m) + gain_dB - trim_dB));
}

// Two input circuits of Q 100 stand between a strong neighbour and the first valve, which blocks at 80 dB above 1 uV (ours).
const INPUT_Q = 100;
const BLOCKS_dBuV = 80;

/**
 * By how much the own sender, `distance_m` from a second whip, raises the receiver's noise, dB. Field of a short vertical on
 * good ground: 300 mV/m at 1 km for 1 kW radiated (ITU-R P.368), so 9.49 sqrt(P)/d volts a metre.
 */
export function blocking_dB(radiated_W: number, distance_m: number, height_m: number, off_Hz: number, f_Hz: number) {
  if (radiated_W <= 0) return 0;
  const field_V = (9.487 * Math.sqrt(radiated_W)) / Math.max(0.5, distance_m);
  const detuned = (2 * INPUT_Q * off_Hz) / f_Hz;
  const input_dB = 20 * log10(1 + detuned * detuned);
  return Math.max(0, 20 * log10(field_V) + 120 + effectiveHeight_dB(height_m) - input_dB - BLOCKS_dBuV);
}

/** A carrier at the receiver's input: frequency, Hz, and EMF, dB above 1 microvolt. */
export type Carrier = { f_Hz: number; emf_dBuV: number };

/** A carrier from the air, through the whip. */
export const carrierOf = (a: Arrival, height_m: number): Carrier => ({
  f_Hz: a.f_Hz,
  emf_dBuV: a.field_dBuV + effectiveHeight_dB(height_m),
});

/** The calibrator's harmonic nearest to a frequency, for a crystal `ppm` parts in a million high. */
export function harmonicNear(f_Hz: number, ppm: number): Carrier {
  const spacing = CALIBRATOR_Hz * (1 + ppm / 1e6);
  return { f_Hz: Math.max(1, Math.round(f_Hz / spacing)) * spacing, emf_dBuV: CALIBRATOR_dBuV };
}

/** What a carrier brings through the passband, dB above 1 microvolt. */
export const passed_dBuV = (c: Carrier, rx: Wires['rx']): number =>
  c.emf_dBuV - rx.trimLoss_dB - passbandLoss_dB(c.f_Hz - rx.tuned_Hz, rx.bandwidth_Hz);

/** External and own noise together, in a width `b_Hz`, as EMF at the input, dB above 1 microvolt. */
export function noise_dBuV(noise_dBuVm: number, height_m: number, rx: Wires['rx'], b_Hz: number): number {
  const outside = noise_dBuVm + effectiveHeight_dB(height_m) - rx.trimLoss_dB;
  return outside + 10 * log10(b_Hz * (1 + dbToRatio(rx.innerNoise_dB)));
}

/** Loudness at the ear, dB over what can just be heard, for a level after RF gain and AGC. */
export function loudness_dB(levelled_dB: number, set: Set, ears: Wires['ears']): number {
  const volume = Math.max(ears.speaker ? 10 : 0, ears.phones);
  if (num(set, 'afGain') === 0 || volume === 0) return -100;
  return levelled_dB + 4 * (num(set, 'afGain') - 10) + 4 * (volume - 10);
}

/** What the detector gets, dB: AGC holds a strong signal; without it the level is what the RF gain makes of it. */
export const levelled_dB = (level_dB: number, agc: Agc): number => level_dB + agcGain_dB(level_dB, agc);

/** Share of the speech spoiled by overload (no AGC, over 70 dB at the detector) and by the limiter, 0..1. */
export function harm(level_dB: number, agc: Wires['rx']['agc'], limiter: boolean): number {
  const over = agc === 'off' ? Math.max(0, level_dB - 70) * (limiter ? 0.4 : 1) : 0;
  return Math.min(0.9, over / 20 + (limiter ? 0.05 : 0));
}
