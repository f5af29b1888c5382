/**
 * Whether print gets through between two vehicle whips, hour by hour and frequency by frequency: ground wave (ITU-R P.368),
 * sky wave (P.533), noise (P.372) and their spread over the days of a month (P.842).
 */
import { cos, log10, pow } from '../numeric/elementary.ts';
import type { Ground } from './ground-wave/ground.ts';
import { mixedGroundWave, type Section } from './ground-wave/mixed-path.ts';
import { LOADING_MAX_PF } from './match-motors.ts';
import { lMatch, matchBudget, withGround } from './matching.ts';
import { type Environment, externalNoise, galacticNoise, manMadeNoise, type NoiseFigure } from './noise/noise.ts';
import { type Deciles, reliability, STEADY, signalToNoise, skySignalDeciles } from './reliability.ts';
import { distance_km, type Place } from './sky-wave/geometry.ts';
import { inTheatre } from './sky-wave/ionosphere.ts';
import {
  LONGEST_PATH_KM,
  pathGeomagneticLatitude_deg,
  type SkyPath,
  skyPath,
  theatreSounder,
} from './sky-wave/path.ts';
import { skyField } from './sky-wave/sky-wave.ts';
import { whipImpedance, whipProblem } from './whip.ts';
import { whipGain_dBi } from './whip-pattern.ts';

/** A whip over its earth: height and radius in metres, loss in ohms. */
export interface Fit {
  readonly h_m: number;
  readonly a_m: number;
  readonly ground_ohm: number;
}

/** The fit of every station on this coast (ours): 5.2 m whip, 10 ohm of earth. */
export const STANDARD_FIT: Fit = { h_m: 5.2, a_m: 0.01, ground_ohm: 10 };

/** A circuit for a month. */
export interface Circuit {
  readonly from: readonly [lat: number, lng: number];
  readonly to: readonly [lat: number, lng: number];
  /** Grounds in order from one end to the other; their lengths are the ground wave's way. */
  readonly sections: readonly Section[];
  /** 1..12. */
  readonly month: number;
  /** Twelve-month smoothed sunspot number, 0..311. */
  readonly R12: number;
  readonly noise: Environment;
  /** What the sender offers its match, W, above 0. */
  readonly power_W: number;
  /** STANDARD_FIT unless told. */
  readonly fit?: Fit;
}

/** One hour and frequency. */
export interface Cell {
  /** Share of the month's days on which print gets through, 0..1. */
  readonly reliability: number;
  /** The wave that gives it; null when nothing arrives at all. */
  readonly by: 'ground' | 'sky' | null;
  /** Median carrier over noise less what print needs on such a wave, dB; null when nothing arrives. */
  readonly margin_dB: number | null;
}

/** Hours against frequencies. */
export interface ReachChart {
  readonly f_MHz: readonly number[];
  /** Radiated at each frequency, W; 0 where the whip cannot be matched. */
  readonly radiated_W: readonly number[];
  /** Basic MUF of the path at each hour UT 0..23, MHz; null where the maps end. */
  readonly MUF_MHz: readonly (number | null)[];
  /** `cells[hour][frequency]`. */
  readonly cells: readonly (readonly Cell[])[];
}

/**
 * Carrier over noise in 1 Hz, dB-Hz, at which this program's terminal unit prints one character in a hundred wrong at 50 Bd
 * on a steady signal (measured on its samples, shift 400 Hz; Eb/N0 is 17 dB less).
 */
export const REQUIRED_CN0_dBHz = 30.5;
/** More for a signal that fades, without diversity: ITU-R F.339 allows 53 against 45 dB-Hz for this service (from memory). */
export const FADING_dB = 8;

const KM_A_DEGREE = 111.2;
const LEAST_PATH_KM = 0.001;
const SKY_GROUND = { eps_r: 15, sigma_S_m: 0.005 };
const NOTHING: Cell = { reliability: 0, by: null, margin_dB: null };

/** What a fit radiates of `power_W` at f_MHz when it is matched as well as coil and loading allow, W; 0 where they do not reach. */
export function radiatedBy(fit: Fit, f_MHz: number, power_W: number): number {
  const shape = { f_MHz, h_m: fit.h_m, a_m: fit.a_m };
  if (whipProblem(shape)) return 0;
  const whip = whipImpedance(shape);
  const match = lMatch(f_MHz, withGround(whip, fit.ground_ohm));
  if (!match || match.loading_pF > LOADING_MAX_PF) return 0;
  return matchBudget(f_MHz, whip, fit.ground_ohm, match, power_W).radiated_W;
}

/** The place due east of another, `km` (from 0) away. */
export function eastOf([lat, lng]: readonly [number, number], km: number): [number, number] {
  return [lat, lng + km / (KM_A_DEGREE * Math.max(0.1, cos((lat * Math.PI) / 180)))];
}

/** The ground wave's sections for one ground all the way; a path of no length is the shortest that the method knows. */
export const oneGround = (ground: Ground, km: number): Section[] => [{ ground, d_km: Math.max(0.01, km) }];

/** The sky path of a circuit at an hour, or null beyond the method or the maps. */
function skyPathOf({ from, to, month, R12 }: Circuit, hour_UT: number): SkyPath | null {
  const [a, b]: Place[] = [from, to].map(([lat, lng]) => ({ lat, lng }));
  const D_km = Math.max(distance_km(a!, b!), LEAST_PATH_KM);
  if (D_km > LONGEST_PATH_KM) return null;
  const path = skyPath(a!, b!, D_km, { month, hour_UT, R12, reference: false }, theatreSounder);
  const { lat, lng } = path.middle.place;
  return inTheatre(lat, lng) ? path : null;
}

/** Median field of the sky wave between two short whips, dB above 1 uV/m, `power_W` radiated. */
export function skyFieldOf(path: SkyPath, f_MHz: number, power_W: number): number {
  const gain = (elevation_deg: number) => whipGain_dBi(SKY_GROUND, f_MHz, Math.min(89.9, Math.max(0.1, elevation_deg)));
  return skyField(path, f_MHz, power_W / 1000, gain).E_dBuV_per_m;
}

/** What does not change with the hour at one frequency. */
interface Column {
  readonly f_MHz: number;
  readonly radiated_W: number;
  readonly noise: NoiseFigure;
  readonly ground: Cell;
}

function judged(by: 'ground' | 'sky', E_dBuV_per_m: number, signal: Deciles, f_MHz: number, noise: NoiseFigure): Cell {
  // So weak a wave has left the range of the methods' numbers.
  if (!Number.isFinite(E_dBuV_per_m)) return NOTHING;
  const question = { E_dBuV_per_m, signal, noise, f_MHz, b_Hz: 1 };
  const required_SNR_dB = REQUIRED_CN0_dBHz + (by === 'sky' ? FADING_dB : 0);
  const margin_dB = signalToNoise(question).SNR_dB - required_SNR_dB;
  return { reliability: reliability({ ...question, required_SNR_dB }), by, margin_dB };
}

function columnOf(c: Circuit, f_MHz: number): Column {
  const radiated_W = radiatedBy(c.fit ?? STANDARD_FIT, f_MHz, c.power_W);
  const noise = externalNoise([manMadeNoise(f_MHz, c.noise), galacticNoise(f_MHz)]);
  if (radiated_W === 0) return { f_MHz, radiated_W, noise, ground: NOTHING };
  const { E_dBuV_per_m } = mixedGroundWave({ f_MHz, sections: c.sections, power_W: radiated_W });
  return { f_MHz, radiated_W, noise, ground: judged('ground', E_dBuV_per_m, STEADY, f_MHz, noise) };
}

function cellOf({ f_MHz, radiated_W, noise, ground }: Column, path: SkyPath | null): Cell {
  if (radiated_W === 0 || !path) return ground;
  const signal = skySignalDeciles(f_MHz, path.basicMuf_MHz, pathGeomagneticLatitude_deg(path));
  const sky = judged('sky', skyFieldOf(path, f_MHz, radiated_W), signal, f_MHz, noise);
  return sky.reliability > ground.reliability ? sky : ground;
}

/** A reach chart being reckoned, a frequency or an hour at a step, so that who asks need not wait for all of it. */
export class ReachWork {
  private readonly columns: Column[] = [];
  private readonly mufs: (number | null)[] = [];
  private readonly hours: Cell[][] = [];

  constructor(
    private readonly circuit: Circuit,
    private readonly f_MHz: readonly number[],
  ) {}

  /** One step on; false when there is nothing left to do. RangeError as the methods below it give. */
  step(): boolean {
    const { columns, hours, circuit, f_MHz } = this;
    const f = f_MHz[columns.length];
    if (f !== undefined) columns.push(columnOf(circuit, f));
    else if (hours.length < HOURS) {
      const path = skyPathOf(circuit, hours.length);
      this.mufs.push(path?.basicMuf_MHz ?? null);
      hours.push(columns.map((column) => cellOf(column, path)));
    }
    return hours.length < HOURS;
  }

  /** As far as it has come: hours from 0 on. */
  get chart(): ReachChart {
    const radiated_W = this.columns.map((c) => c.radiated_W);
    return { f_MHz: this.f_MHz, radiated_W, MUF_MHz: this.mufs, cells: this.hours };
  }
}

const HOURS = 24;

/**
 * Reliability of 50 Bd print with one character in a hundred wrong, for hours 0..23 UT and each frequency (1.5..30 MHz).
 * Ground and sky wave are taken each by itself and the better one counts. Atmospheric noise is not in it. RangeError as
 * the methods below it give.
 */
export function reachChart(circuit: Circuit, f_MHz: readonly number[]): ReachChart {
  const work = new ReachWork(circuit, f_MHz);
  while (work.step());
  return work.chart;
}

/** Frequencies from one to another in even ratios, MHz, rounded to 10 kHz; at least two. */
export function ladder_MHz(from: number, to: number, count: number): number[] {
  if (!(from > 0 && to > from && count >= 2)) throw new RangeError(`no ladder of ${count} from ${from} to ${to} MHz`);
  const step = log10(to / from) / (count - 1);
  return Array.from({ length: count }, (_, i) => Math.round(100 * from * pow(10, step * i)) / 100);
}
