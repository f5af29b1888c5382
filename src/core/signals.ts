/**
 * The values that pass between rooms. Rooms that must not see each other (station, ether, distant) meet only here.
 */

/** Plain data: whatever a snapshot or a record line may hold. */
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

/** What a control can be set to: a word or a text, a number in the control's unit, or in/out. */
export type ControlValue = string | number | boolean;

/**
 * Emissions by their ITU designators (Radio Regulations, Appendix 1). `A3E+F1B`: one carrier, voice by amplitude and print
 * by frequency. `J3E`: sound as one sideband of a suppressed carrier.
 */
export const EMISSIONS = ['N0N', 'A1A', 'A3E', 'F1B', 'A3E+F1B', 'J3E'] as const;
/** One of them. */
export type Emission = (typeof EMISSIONS)[number];

/** One change of a two-state line, to mark (current flows, 1) or to space. Edges alternate, sorted by time; before the first the line stands in the other state. */
export type Edge = { t_us: number; mark: boolean };

/** A recording played from a step's instant on, as the upper sideband of a suppressed carrier. */
export type PlayedSound = { name: string; carrier_Hz: number; repeats: boolean };

/**
 * From `t_us` on the carrier stands at `f_Hz` with `power_W` radiated (0: silent), until the next step. With a `sound` that
 * is on the air in its place: `f_Hz` is then the middle of its energy and `power_W` its mean power.
 */
export type CarrierStep = { t_us: number; f_Hz: number; power_W: number; sound?: PlayedSound };

/** One word on the air from `t0_us` to `t1_us`: spoken as amplitude modulation, or keyed in Morse. */
export type SpokenWord = { t0_us: number; t1_us: number; word: string; by: 'voice' | 'morse' };

/**
 * What one station puts on the air. Steps up to now are history and never change; steps in the future are what will
 * happen if nothing else does, and are planned anew whenever something does.
 */
export type Radiation = {
  /** Call sign of the sender, or the id of another source. */
  station: string;
  emission: Emission;
  /** Carrier steps, sorted; the last few seconds and the planned future. */
  steps: CarrierStep[];
  /** Words spoken on the carrier, sorted; the last few seconds and the planned future. */
  words: SpokenWord[];
  /** Modulation depth of the speech, 0..1. */
  depth: number;
};

/** A carrier as it arrives at one aerial at one instant. */
export type Arrival = {
  station: string;
  emission: Emission;
  /** True frequency now, Hz. */
  f_Hz: number;
  /** Field strength at the receiving whip, dB above 1 microvolt a metre. */
  field_dBuV: number;
  /** Ratio of the carrier to the external noise in 1 Hz, dB-Hz. */
  cn0_dB: number;
  depth: number;
};

/** One word of speech as an ear could have it: what was said, by whom, and how well it stood above the noise. */
export type HeardWord = {
  t0_us: number;
  t1_us: number;
  word: string;
  /** Voice is amplitude modulation of depth `depth`; a Morse word is keyed carrier, heard only with the BFO on. */
  by: 'voice' | 'morse';
  station: string;
  f_Hz: number;
  depth: number;
  cn0_dB: number;
};

/**
 * What an aerial brings to a receiver. Looking never changes anything: every answer is a function of the radiations,
 * the paths, the seed and the times asked for.
 */
export interface Ear {
  /** Carriers that arrive at instant `t_us`, strongest first, own station left out. */
  arrivals(t_us: number): Arrival[];
  /** External noise, dB above 1 microvolt a metre, in 1 Hz at frequency `f_Hz`. */
  noise_dBuV(f_Hz: number): number;
  /**
   * Complex baseband round `f_Hz`: samples k/rate for whole k with time in [t0_us, t1_us), absolute in time, scaled so that
   * the external noise has unit power in 1 Hz (complex noise variance = rate). `rate` in samples a second.
   */
  samples(t0_us: number, t1_us: number, f_Hz: number, rate: number): { re: Float64Array; im: Float64Array };
  /** Words whose last instant lies in (t0_us, t1_us], in order. */
  words(t0_us: number, t1_us: number): HeardWord[];
}
