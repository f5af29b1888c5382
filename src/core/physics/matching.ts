/**
 * From a 50 ohm sender to a whip that is anything but: a coil in series and one loading capacitor to earth, which a relay
 * hangs on the sender's end of the coil (whip resistance under 50 ohm) or on the whip's end (whip near or above resonance).
 * The two positions together reach every impedance; the formulas are the L-section of any radio handbook.
 */
import { log10 } from '../numeric/elementary.ts';
import type { WhipImpedance } from './whip.ts';

/** The resistance that the sender wants to see, ohms. */
export const LINE_OHM = 50;
/** Quality factor of the matching coil: its loss is its reactance divided by this. */
export const COIL_Q = 250;

/** What hangs on the network, ohms: whip and earth loss in series. Resistance above 0, reactance of either sign. */
export type Load = WhipImpedance;

/** Which end of the coil carries the loading capacitor. */
export type LoadingSide = 'sender' | 'whip';

/** A setting of the network: coil in microhenries from 0, loading in picofarads from 0, and the relay. */
export type Match = { readonly coil_uH: number; readonly loading_pF: number; readonly side: LoadingSide };

/** What comes back from a mismatch. */
export type Reflection = {
  /** Reflected share of the forward power, 0 to 1. */
  readonly back: number;
  /** Forward power in watts: what the sender offers to 50 ohm. */
  readonly forward_W: number;
  /** Reflected power in watts. */
  readonly reflected_W: number;
  /** Standing-wave ratio from 1; Infinity when all comes back. */
  readonly vswr: number;
  /** Loss by mismatch in dB from 0; Infinity when all comes back. */
  readonly mismatchLoss_dB: number;
};

const rad_per_us = (f_MHz: number): number => 2 * Math.PI * f_MHz;
const reciprocal = (re: number, im: number): [re: number, im: number] => {
  const norm = re * re + im * im;
  return [re / norm, -im / norm];
};

function checkNetwork(f_MHz: number, load: Load, match: Match, coilQ: number): void {
  const sane = f_MHz > 0 && load.R_ohm > 0 && match.coil_uH >= 0 && match.loading_pF >= 0 && coilQ > 0;
  if (!sane || !Number.isFinite(f_MHz + load.R_ohm + load.X_ohm + match.coil_uH + match.loading_pF))
    throw new RangeError(
      `no network at ${f_MHz} MHz, load ${load.R_ohm} + j${load.X_ohm} ohm, ${match.coil_uH} uH, ${match.loading_pF} pF, Q ${coilQ}`,
    );
}

/** The whip with the loss of its earth in series; a vehicle's earth is 5 to 20 ohm in the low megahertz (from memory, handbook practice). */
export const withGround = (whip: WhipImpedance, groundLoss_ohm: number): Load => ({
  R_ohm: whip.R_ohm + groundLoss_ohm,
  X_ohm: whip.X_ohm,
});

/** Impedance that the sender sees through the network. Throws RangeError on a load without resistance or a negative part. */
export function inputImpedance(f_MHz: number, load: Load, match: Match, coilQ = COIL_Q): Load {
  checkNetwork(f_MHz, load, match, coilQ);
  const coil_ohm = rad_per_us(f_MHz) * match.coil_uH;
  const loading_S = rad_per_us(f_MHz) * match.loading_pF * 1e-6;
  if (match.side === 'sender') {
    const [g, b] = reciprocal(load.R_ohm + coil_ohm / coilQ, load.X_ohm + coil_ohm);
    const [R_ohm, X_ohm] = reciprocal(g, b + loading_S);
    return { R_ohm, X_ohm };
  }
  const [g, b] = reciprocal(load.R_ohm, load.X_ohm);
  const [re, im] = reciprocal(g, b + loading_S);
  return { R_ohm: re + coil_ohm / coilQ, X_ohm: im + coil_ohm };
}

/** What an impedance sends back to a 50 ohm sender that offers `available_W` (from 0). */
export function reflection(z: Load, available_W: number, line_ohm = LINE_OHM): Reflection {
  if (!(z.R_ohm >= 0 && Number.isFinite(z.R_ohm + z.X_ohm) && available_W >= 0 && Number.isFinite(available_W)))
    throw new RangeError(`no reflection from ${z.R_ohm} + j${z.X_ohm} ohm at ${available_W} W`);
  const x2 = z.X_ohm * z.X_ohm;
  const back = ((z.R_ohm - line_ohm) * (z.R_ohm - line_ohm) + x2) / ((z.R_ohm + line_ohm) * (z.R_ohm + line_ohm) + x2);
  const size = Math.sqrt(back);
  return {
    back,
    forward_W: available_W,
    reflected_W: available_W * back,
    vswr: size < 1 ? (1 + size) / (1 - size) : Number.POSITIVE_INFINITY,
    mismatchLoss_dB: back < 1 ? Math.max(0, -10 * log10(1 - back)) : Number.POSITIVE_INFINITY,
  };
}

/** Coil reactance that, its own loss counted, leaves a series arm whose parallel resistance is the line's: the larger root of a quadratic. */
function senderSide({ R_ohm: R, X_ohm: X }: Load, q: number): [coil_ohm: number, loading_S: number] | null {
  const half = X - (q * (LINE_OHM - 2 * R)) / 2;
  const rest = X * X - R * (LINE_OHM - R);
  const root = half * half - (1 + q * q) * rest;
  if (root < 0) return null;
  const coil = (-half + Math.sqrt(root)) / (1 + q * q);
  const arm = R + q * coil;
  const loading = (X + coil) / (arm * LINE_OHM);
  return coil >= 0 && loading >= 0 ? [coil, loading] : null;
}

/** Loading that brings the whip's resistance down to the line's, less the coil's loss; the coil then tunes out what is left. */
function whipSide({ R_ohm, X_ohm }: Load, q: number): [coil_ohm: number, loading_S: number] | null {
  const [g, b] = reciprocal(R_ohm, X_ohm);
  const root = q * q - 4 * LINE_OHM * (LINE_OHM * g * g - g);
  if (root < 0) return null;
  const total = (q + Math.sqrt(root)) / (2 * LINE_OHM);
  return total >= b ? [total / (g * g + total * total), total - b] : null;
}

/** The exact setting for a 50 ohm sender, sender's side preferred, or null where the coil's own loss already exceeds what 50 ohm allows. */
export function lMatch(f_MHz: number, load: Load, coilQ = COIL_Q): Match | null {
  checkNetwork(f_MHz, load, { coil_uH: 0, loading_pF: 0, side: 'sender' }, coilQ);
  const atSender = senderSide(load, 1 / coilQ);
  const found = atSender ?? whipSide(load, 1 / coilQ);
  if (!found) return null;
  const w = rad_per_us(f_MHz);
  return { coil_uH: found[0] / w, loading_pF: (found[1] / w) * 1e6, side: atSender ? 'sender' : 'whip' };
}

/** A pi section: capacitor, coil, capacitor. */
export type PiMatch = { readonly first_pF: number; readonly coil_uH: number; readonly second_pF: number };

/** Lossless pi section from R1 to R2 ohm with quality factor Q1 at the R1 end. Throws RangeError when Q1 is too small to reach R2 (1 + Q1^2 under R1/R2). */
export function piMatch(f_MHz: number, R1_ohm: number, R2_ohm: number, Q1: number): PiMatch {
  const virtual_ohm = R1_ohm / (1 + Q1 * Q1);
  const square = R2_ohm / virtual_ohm - 1;
  if (!(f_MHz > 0 && R1_ohm > 0 && R2_ohm > 0 && Q1 > 0 && square >= 0 && Number.isFinite(square)))
    throw new RangeError(`no pi section from ${R1_ohm} to ${R2_ohm} ohm with Q ${Q1} at ${f_MHz} MHz`);
  const Q2 = Math.sqrt(square);
  const w = rad_per_us(f_MHz);
  return {
    first_pF: (Q1 / (w * R1_ohm)) * 1e6,
    coil_uH: (virtual_ohm * (Q1 + Q2)) / w,
    second_pF: (Q2 / (w * R2_ohm)) * 1e6,
  };
}

/** Where every watt that the sender offers ends up; the four powers add up to it. */
export type MatchBudget = Reflection & {
  /** Heat in the coil, watts. */
  readonly coilHeat_W: number;
  /** Heat in the earth, watts. */
  readonly groundHeat_W: number;
  /** Radiated, watts. */
  readonly radiated_W: number;
  /** Current into the whip's base, amperes rms. */
  readonly baseCurrent_A: number;
  /** Voltage from the whip's base to earth, volts rms. */
  readonly baseVolts_V: number;
};

/** The watts of a sender that offers `available_W` through a network to a whip with `groundLoss_ohm` in series. */
export function matchBudget(
  f_MHz: number,
  whip: WhipImpedance,
  groundLoss_ohm: number,
  match: Match,
  available_W: number,
  coilQ = COIL_Q,
): MatchBudget {
  const load = withGround(whip, groundLoss_ohm);
  const z = inputImpedance(f_MHz, load, match, coilQ);
  const back = reflection(z, available_W);
  const accepted_W = available_W - back.reflected_W;
  const coilLoss_ohm = (rad_per_us(f_MHz) * match.coil_uH) / coilQ;
  // Loaded at the sender's end the coil carries the whip's current; at the whip's end it carries the sender's.
  const through_ohm = match.side === 'sender' ? load.R_ohm + coilLoss_ohm : z.R_ohm;
  const coilHeat_W = (accepted_W * coilLoss_ohm) / through_ohm;
  const baseCurrent_A = Math.sqrt((accepted_W - coilHeat_W) / load.R_ohm);
  return {
    ...back,
    coilHeat_W,
    groundHeat_W: baseCurrent_A * baseCurrent_A * groundLoss_ohm,
    radiated_W: baseCurrent_A * baseCurrent_A * whip.R_ohm,
    baseCurrent_A,
    baseVolts_V: baseCurrent_A * Math.sqrt(load.R_ohm * load.R_ohm + load.X_ohm * load.X_ohm),
  };
}
