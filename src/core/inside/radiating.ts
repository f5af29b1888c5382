/** Inside sender and whip: what leaves the aerial, where the watts go, and what the match makes of the whip. */
import { addCarrier } from '../ether/carrier.ts';
import { speechOf } from '../ether/speech.ts';
import { STANDARD_FIT } from '../physics/circuit.ts';
import { COIL_Q, lMatch, type Match, matchBudget, withGround } from '../physics/matching.ts';
import { whipImpedance, whipProblem } from '../physics/whip.ts';
import { ratioToDb } from '../quantity/quantity.ts';
import { occupiedBandwidth, powerSpectrum } from '../samples/spectrum.ts';
import type { Emission } from '../signals.ts';
import type { SenderState } from '../station/boxes/sender-state.ts';
import { type Scene, type Sending, sendingOf, sendWay, stepAt } from './scene.ts';
import { carrierOnAir, type Look, lookOf } from './sending.ts';

/** Power by frequency, dB under the strongest; even steps from one frequency to another, Hz from the carrier's middle. */
export interface Spectrum {
  readonly from_Hz: number;
  readonly to_Hz: number;
  readonly dB: readonly number[];
}

/** Where a sender's watts go. */
export interface Watts {
  readonly forward: number;
  readonly back: number;
  readonly coil: number;
  readonly ground: number;
  readonly radiated: number;
}

/** The sender. */
export interface SenderLook extends Look {
  readonly link: 'sender';
  readonly carrier: readonly number[];
  /** Size of the carrier over the last 1.2 s, 0..1 of the largest. */
  readonly size: readonly number[];
  /** Null when nothing was radiated in the last second. */
  readonly spectrum: Spectrum | null;
  /** Band that holds 99 % of the power, Hz, measured. */
  readonly occupied_Hz: number | null;
  readonly kHz: number;
  /** Null for a far sender: it is known by what it radiates. */
  readonly watts: Watts | null;
  readonly radiated_W: number;
  /** Why it does not radiate, or ''. */
  readonly silent: string;
}

/** The whip. */
export interface WhipLook extends Look {
  readonly link: 'whip';
  readonly kHz: number;
  readonly height_m: number;
  readonly sections: number;
  readonly guard: boolean;
  readonly earthed: boolean;
  readonly radiated_W: number;
  /** Null when no whip is fitted or it cannot be reckoned. */
  readonly foot: {
    readonly R_ohm: number;
    readonly X_ohm: number;
    readonly ground_ohm: number;
    readonly coil_ohm: number;
    readonly volts: number;
    readonly amps: number;
    readonly efficiency: number;
  } | null;
  /** Share of the power that comes back against the coil, and where the coil stands, uH. */
  readonly match: {
    readonly coils: readonly number[];
    readonly back: readonly number[];
    readonly coil_uH: number;
  } | null;
}

const RATE = 8192;
const SIZE = 2048;
const SPAN_US = 1_000_000;
const MOST_HZ = 3600;
const FLOOR_DB = -80;
const SIZE_US = 1_200_000;
const SIZE_POINTS = 300;

/** The last second of a radiation as samples round its middle, without noise. */
function samplesOf({ radiation, middle_Hz }: Sending, now_us: number) {
  const first = Math.ceil(((now_us - SPAN_US) * RATE) / 1e6);
  const count = Math.ceil((SPAN_US * RATE) / 1e6);
  const band = { re: new Float64Array(count), im: new Float64Array(count), first, rate: RATE, centre_Hz: middle_Hz };
  const words = radiation.words.filter((w) => w.by === 'voice');
  const speech = speechOf(words);
  const voice = words.length === 0 ? null : (k: number) => 1 + radiation.depth * speech((k * 1e6) / RATE, RATE / 2);
  // What is planned from now on is not on the air yet.
  const steps = radiation.steps.filter((s) => s.t_us <= now_us);
  addCarrier(band, { t_us: -1, f_Hz: 0, cycles: 0 }, steps, (power_W) => [Math.sqrt(power_W), 0], voice);
  return band;
}

/** Spectrum of complex samples round a middle, trimmed to what is drawn; dB against the strongest, or against a power. */
export function spectrumOf(
  re: Float64Array,
  im: Float64Array,
  rate: number,
  size: number,
  most_Hz: number,
  against?: number,
): Spectrum & { top: number } {
  const { power, step_Hz } = powerSpectrum(re, im, rate, size);
  const half = Math.min(size / 2 - 1, Math.floor(most_Hz / step_Hz));
  const part = Array.from(power.subarray(size / 2 - half, size / 2 + half + 1));
  const top = against ?? Math.max(...part, 1e-30);
  return {
    from_Hz: -half * step_Hz,
    to_Hz: half * step_Hz,
    dB: part.map((p) => Math.round(10 * Math.max(FLOOR_DB, ratioToDb(Math.max(p, 1e-30) / top))) / 10),
    top,
  };
}

/** What keeps a sender quiet that stands ready. */
const QUIET: Readonly<Record<Emission, string>> = {
  N0N: 'N0N sends by the push of the test carrier only',
  A1A: 'the key is up',
  A3E: 'the switch of the microphone is up',
  F1B: 'the lever stands at IN',
  'A3E+F1B': 'nothing keys it',
  J3E: 'nothing keys it',
};

function silence({ station }: Scene): string {
  const { wires: w } = station;
  if (w.radiated_W > 0) return '';
  if (!w.live.sender) return 'no supply';
  if (!w.armed) return 'not ready: heat, drive or send is wanting';
  return QUIET[w.radiation.emission];
}

const FINE_STEPS = 12;
/** How large the carrier has been of late, with the crests of the voice on it. */
function sizeOf({ radiation }: Sending, now_us: number): number[] {
  const speech = speechOf(radiation.words);
  const step_us = SIZE_US / SIZE_POINTS;
  const sizes = Array.from({ length: SIZE_POINTS + 1 }, (_, i) => {
    const t = now_us - SIZE_US + i * step_us;
    const carrier = Math.sqrt(stepAt(radiation, t).power_W);
    if (carrier === 0 || radiation.words.length === 0) return carrier;
    const crest = Array.from({ length: FINE_STEPS }, (_x, k) => speech(t + (k * step_us) / FINE_STEPS, RATE));
    return carrier * (1 + radiation.depth * Math.max(...crest));
  });
  const top = Math.max(...sizes);
  return sizes.map((x) => (top > 0 ? Math.round((1000 * x) / top) / 1000 : 0));
}

/** Inside the sender. */
export function insideSender(scene: Scene, start_us: number | null): SenderLook {
  const sending = sendingOf(scene, sendWay(scene));
  const look = lookOf(scene, sending, start_us);
  const { wires: w } = scene.station;
  const { re, im } = samplesOf(sending, scene.now_us);
  const isThere = re.some((x) => x !== 0);
  const whole = isThere ? powerSpectrum(re, im, RATE, SIZE) : null;
  const budget = look.isOwn && w.forward_W > 0 ? budgetOf(scene, w.forward_W) : null;
  return {
    ...look,
    link: 'sender',
    carrier: carrierOnAir(sending, look.window),
    size: sizeOf(sending, scene.now_us),
    spectrum: isThere ? spectrumOf(re, im, RATE, SIZE, MOST_HZ) : null,
    occupied_Hz: whole && Math.round(occupiedBandwidth(whole)),
    kHz: sending.middle_Hz / 1000,
    watts: budget && {
      forward: w.forward_W,
      back: budget.reflected_W,
      coil: budget.coilHeat_W,
      ground: budget.groundHeat_W,
      radiated: budget.radiated_W,
    },
    radiated_W: look.isOwn ? w.radiated_W : stepAt(sending.radiation, scene.now_us).power_W,
    silent: look.isOwn
      ? silence(scene)
      : stepAt(sending.radiation, scene.now_us).power_W > 0
        ? ''
        : 'their sender is silent',
  };
}

type Rod = { f_MHz: number; h_m: number; a_m: number; ground_ohm: number };

function tuningOf(scene: Scene): Match {
  const { coil_uH, loading_pF, side } = (scene.station.boxes['sender'] as SenderState).at;
  return { coil_uH, loading_pF, side };
}

function rodOf({ station }: Scene): Rod {
  const { whip, sender_Hz } = station.wires;
  return { f_MHz: sender_Hz / 1e6, h_m: whip.height_m, a_m: whip.radius_m, ground_ohm: whip.ground_ohm };
}

function budgetOf(scene: Scene, forward_W: number) {
  const rod = rodOf(scene);
  if (whipProblem(rod)) return null;
  return matchBudget(rod.f_MHz, whipImpedance(rod), rod.ground_ohm, tuningOf(scene), forward_W);
}

const CURVE_POINTS = 161;
const MOST_UH = 160;

/** Coil positions to draw: from well under to well over where it should stand. */
function coilsAround(best_uH: number, now_uH: number): number[] {
  const low = Math.max(0, Math.min(best_uH * 0.86, now_uH * 0.97));
  const high = Math.min(MOST_UH, Math.max(best_uH * 1.14, now_uH * 1.03, low + 1));
  return Array.from({ length: CURVE_POINTS }, (_, i) => low + ((high - low) * i) / (CURVE_POINTS - 1));
}

function matchCurve(rod: Rod, match: Match): WhipLook['match'] {
  const z = whipImpedance(rod);
  const best = lMatch(rod.f_MHz, withGround(z, rod.ground_ohm));
  const coils = coilsAround(best?.coil_uH ?? match.coil_uH, match.coil_uH);
  const back = coils.map((coil_uH) => matchBudget(rod.f_MHz, z, rod.ground_ohm, { ...match, coil_uH }, 1).reflected_W);
  return { coils, back, coil_uH: match.coil_uH };
}

function footOf(rod: Rod, match: Match, forward_W: number): NonNullable<WhipLook['foot']> {
  const z = whipImpedance(rod);
  const b = matchBudget(rod.f_MHz, z, rod.ground_ohm, match, forward_W);
  const coil_ohm = (2 * Math.PI * rod.f_MHz * match.coil_uH) / COIL_Q;
  return {
    ...z,
    ground_ohm: rod.ground_ohm,
    coil_ohm,
    volts: b.baseVolts_V,
    amps: b.baseCurrent_A,
    efficiency: z.R_ohm / (z.R_ohm + rod.ground_ohm + coil_ohm),
  };
}

/** Inside the whip. */
export function insideWhip(scene: Scene, start_us: number | null): WhipLook {
  const sending = sendingOf(scene, sendWay(scene));
  const look = lookOf(scene, sending, start_us);
  const { wires: w } = scene.station;
  const far_kHz = (sending.middle_Hz || (scene.far?.tuned_Hz ?? 0)) / 1000;
  const { ground_ohm, ...shape } = STANDARD_FIT;
  const rod = look.isOwn ? rodOf(scene) : { f_MHz: far_kHz / 1000, ...shape, ground_ohm };
  const isSound = !whipProblem(rod);
  const radiated_W = look.isOwn ? w.radiated_W : stepAt(sending.radiation, scene.now_us).power_W;
  const z = isSound ? whipImpedance(rod) : null;
  const match = look.isOwn ? tuningOf(scene) : z && lMatch(rod.f_MHz, withGround(z, rod.ground_ohm));
  // A far sender offers what it must have offered to radiate what it does.
  const share = z && match ? matchBudget(rod.f_MHz, z, rod.ground_ohm, match, 1).radiated_W : 0;
  const forward_W = look.isOwn ? w.forward_W : share > 0 ? radiated_W / share : 0;
  return {
    ...look,
    link: 'whip',
    kHz: rod.f_MHz * 1000,
    height_m: rod.h_m,
    sections: look.isOwn ? w.whip.sections : 4,
    guard: look.isOwn ? w.whip.guard : true,
    earthed: look.isOwn ? w.whip.earthed : true,
    radiated_W,
    foot: isSound && match ? footOf(rod, match, forward_W) : null,
    match: isSound && match ? matchCurve(rod, match) : null,
  };
}
