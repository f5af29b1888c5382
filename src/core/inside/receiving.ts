/** Inside far whip, receiver, terminal unit and print: from the field to the letter, on the samples that the ear gives. */
import { cos, sin } from '../numeric/elementary.ts';
import { converterAtRest, converterDelay_us, converterRate, converterRun } from '../samples/converter.ts';
import { butterworthLowPass, filterInPlace, restOf } from '../samples/filter.ts';
import type { Ear, Edge } from '../signals.ts';
import { passbandBlock } from '../station/boxes/terminal-unit.ts';
import type { Wires } from '../station/wires.ts';
import { charsInStep } from '../telegraphy/selector.ts';
import { type Spectrum, spectrumOf } from './radiating.ts';
import { receiveWay, type Scene } from './scene.ts';
import { type Look, referenceBelow_Hz } from './sending.ts';
import {
  BAUD,
  type Letter,
  named,
  type Piece,
  piecesOf,
  UNIT_US,
  unitMiddle_us,
  type Window,
  windowOf,
} from './window.ts';

/** A carrier at the whip. */
export interface Heard {
  readonly station: string;
  readonly off_Hz: number;
  readonly field_dBuV: number;
  readonly cn0_dB: number;
}

/** The whip that receives. */
export interface FarWhipLook extends Look {
  readonly link: 'far whip';
  readonly tuned_kHz: number;
  readonly bandwidth_Hz: number;
  readonly noise_dBuV: number;
  readonly arrivals: readonly Heard[];
  /** The air round the frequency tuned to, the last second; null when the whip is at the sender. */
  readonly spectrum: Spectrum | null;
  readonly deaf: string;
}

/** The receiver. */
export interface ReceiverLook extends Look {
  readonly link: 'receiver';
  readonly tuned_kHz: number;
  readonly bandwidth_Hz: number;
  readonly before: Spectrum | null;
  readonly after: Spectrum | null;
  /** What comes out of the passband, beside a reference. */
  readonly tones: readonly number[];
  readonly below_Hz: number;
  readonly innerNoise_dB: number;
  readonly agc: string;
  readonly bfo_Hz: number | null;
  readonly gain_dB: number;
  readonly deaf: string;
}

/** One of the five units as it was read. */
export interface UnitRead {
  readonly mark: boolean;
  /** 0..1: how far the decision stood from falling the other way. */
  readonly surely: number;
  /** When, as a share of the window, and the decision then, -1..1. */
  readonly at: number;
  readonly value: number;
  /** False while it is still to come. */
  readonly isRead: boolean;
}

/** The terminal unit. */
export interface TerminalLook extends Look {
  readonly link: 'terminal unit';
  readonly line: readonly Piece[];
  readonly tones: readonly number[];
  readonly below_Hz: number;
  readonly markTone: readonly number[];
  readonly spaceTone: readonly number[];
  readonly decision: readonly number[];
  readonly units: readonly UnitRead[];
  readonly spectrum: Spectrum | null;
  readonly before: Spectrum | null;
  readonly deaf: string;
}

/** The printer. */
export interface PrintLook extends Look {
  readonly link: 'print';
  readonly line: readonly Piece[];
  readonly units: readonly UnitRead[];
  /** Least distance of a sample from a transition, percent of a unit, 50 at best; null while the letter runs. */
  readonly margin_pct: number | null;
  readonly page: readonly string[];
  readonly letters: readonly Letter[];
  readonly deaf: string;
}

type Samples = { re: Float64Array; im: Float64Array };
/** One end that receives. */
type Receiving = {
  who: string;
  ear: Ear;
  tuned_Hz: number;
  shift_Hz: number;
  markLow: boolean;
  hold: boolean;
  bandwidth_Hz: number;
  rate: number;
  /** Why nothing can be had of it, or ''. */
  deaf: string;
  /** What comes through the passband between two instants. */
  passband(span: readonly [number, number], rate: number): Samples;
};

const WARM_UP_US = 900_000;
const AHEAD_US = 180_000;
/** Filters have settled after this. */
const SETTLE_US = 150_000;
const POINTS = 340;
const TONE_POINTS = 1500;
const WIDE_RATE = 8192;
const WIDE_HZ = 3000;

function deafness(rx: Wires['rx']): string {
  if (!rx.on) return 'the receiver is off';
  return rx.deaf ? 'the whip is at the sender' : '';
}

function ownReceiver(scene: Scene): Receiving {
  const { wires: w, boxes } = scene.station;
  const rate = converterRate(w.shift_Hz);
  return {
    who: scene.own,
    ear: scene.ear,
    tuned_Hz: w.rx.tuned_Hz,
    shift_Hz: w.shift_Hz,
    markLow: w.markLow,
    hold: boxes['keyer']?.set['hold'] === true,
    bandwidth_Hz: w.rx.bandwidth_Hz,
    rate,
    deaf: deafness(w.rx),
    passband: (span, at) => passbandBlock(scene.ear, w.rx, at, span, scene.seed, [[], []]),
  };
}

const FAR_RATE = 2400;
/** A far terminal unit's front filter is this much wider than its shift (converter.ts: four times the bauds). */
const FAR_FRONT_HZ = 200;

function receiverOf(scene: Scene): Receiving {
  const { far } = scene;
  if (!far || receiveWay(scene) === 'in') return ownReceiver(scene);
  const { ear, tuned_Hz, shift_Hz, call: who } = far;
  const width_Hz = shift_Hz + FAR_FRONT_HZ;
  return {
    who,
    ear,
    tuned_Hz,
    shift_Hz,
    markLow: true,
    hold: true,
    bandwidth_Hz: width_Hz,
    rate: FAR_RATE,
    deaf: '',
    passband: ([a, b], rate) => {
      const samples = ear.samples(a, b, tuned_Hz, rate);
      // At its own rate the converter does the filtering.
      if (rate === FAR_RATE) return samples;
      const front = butterworthLowPass(4, width_Hz / 2, rate);
      filterInPlace(samples.re, front, restOf(front));
      filterInPlace(samples.im, front, restOf(front));
      return samples;
    },
  };
}

/** A second of signal and a little of what is to come, through the converter. */
function read(r: Receiving, centre_us: number) {
  const t0 = Math.max(0, centre_us - WARM_UP_US);
  const t1 = centre_us + AHEAD_US;
  const first = Math.ceil((t0 * r.rate) / 1e6);
  const samples = r.passband([t0, t1], r.rate);
  const tones = { shift: r.shift_Hz, sense: r.markLow ? ('mark low' as const) : ('mark high' as const) };
  const { edges, waves } = converterRun(converterAtRest(first), samples.re, samples.im, r.rate, {
    ...tones,
    hold: r.hold,
  });
  const delay = converterDelay_us(r.rate, tones);
  // All rows share the signal's own clock: what the filters hold back is moved to where it belongs.
  const line: Edge[] = edges.map((e) => ({ ...e, t_us: Math.round(e.t_us - delay.decided) }));
  const settled = line.filter((e) => e.t_us > t0 + SETTLE_US);
  const chars = charsInStep(settled, t1, { baud: BAUD });
  return { first, samples, waves, delay, line, chars, letters: named(chars) };
}
type Reading = ReturnType<typeof read>;

/** A wave of the converter over a window, late by `delay_us`. */
function over(wave: Float64Array, { first }: Reading, rate: number, w: Window, delay_us: number): number[] {
  return Array.from({ length: POINTS + 1 }, (_, i) => {
    const t = w.from_us + ((w.to_us - w.from_us) * i) / POINTS + delay_us;
    return Math.round(1000 * valueAt(wave, (t * rate) / 1e6 - first)) / 1000;
  });
}

function valueAt(wave: Float64Array, at: number): number {
  const k = Math.floor(at);
  if (k < 0 || wave.length === 0) return wave[0] ?? 0;
  const [a, b] = [wave[Math.min(k, wave.length - 1)]!, wave[Math.min(k + 1, wave.length - 1)]!];
  return a + (at - k) * (b - a);
}

/** The passband as a sound beside a reference below its middle; -1..1 of well over its mean size. */
function toneOf(r: Receiving, w: Window, below_Hz: number): number[] {
  const t0 = Math.max(0, w.from_us - SETTLE_US);
  const { re, im } = r.passband([t0, w.to_us + 2000], WIDE_RATE);
  const first = Math.ceil((t0 * WIDE_RATE) / 1e6);
  let sum = 0;
  for (let i = 0; i < re.length; i++) sum += re[i]! * re[i]! + im[i]! * im[i]!;
  const size = 1.5 * Math.sqrt(sum / Math.max(1, re.length)) || 1;
  return Array.from({ length: TONE_POINTS + 1 }, (_, i) => {
    const t = w.from_us + ((w.to_us - w.from_us) * i) / TONE_POINTS;
    const at = (t * WIDE_RATE) / 1e6 - first;
    const turns = (below_Hz * t) / 1e6;
    const angle = 2 * Math.PI * (turns - Math.floor(turns));
    const x = (valueAt(re, at) * cos(angle) - valueAt(im, at) * sin(angle)) / size;
    return Math.round(1000 * Math.max(-1, Math.min(1, x))) / 1000;
  });
}

function unitsOf(reading: Reading, rate: number, w: Window): UnitRead[] {
  const { letter } = w;
  if (!letter) return [];
  return [1, 2, 3, 4, 5].map((unit) => {
    const t = unitMiddle_us(letter, unit);
    const value = valueAt(reading.waves.decided, ((t + reading.delay.decided) * rate) / 1e6 - reading.first);
    return {
      mark: ((letter.code >> (unit - 1)) & 1) === 1,
      surely: Math.min(1, Math.abs(value)),
      at: (t - w.from_us) / (w.to_us - w.from_us),
      value: Math.max(-1.1, Math.min(1.1, value)),
      isRead: t <= w.now_us,
    };
  });
}

type Opened = { look: Look; r: Receiving; reading: Reading };

function open(scene: Scene, start_us: number | null): Opened {
  const r = receiverOf(scene);
  const reading = read(r, start_us === null ? scene.now_us : Math.min(scene.now_us, start_us + 2 * AHEAD_US));
  const window = windowOf(r.deaf ? [] : reading.letters, scene.now_us, start_us);
  const loudest = r.ear.arrivals(scene.now_us).find((a) => Math.abs(a.f_Hz - r.tuned_Hz) < WIDE_HZ);
  const emission = r.deaf ? 'N0N' : (loudest?.emission ?? 'N0N');
  const look: Look = {
    who: r.who,
    isOwn: r.who === scene.own,
    emission,
    window,
    shift_Hz: r.shift_Hz,
    markLow: r.markLow,
  };
  return { look, r, reading };
}

/** The air of the last second round the frequency tuned to, and the same behind the passband. */
function spectra(scene: Scene, r: Receiving): { before: Spectrum | null; after: Spectrum | null } {
  if (r.deaf) return { before: null, after: null };
  const span = [Math.max(0, scene.now_us - 1e6), scene.now_us] as const;
  const air = r.ear.samples(span[0], span[1], r.tuned_Hz, WIDE_RATE);
  if (air.re.length < 1024) return { before: null, after: null };
  const before = spectrumOf(air.re, air.im, WIDE_RATE, 512, WIDE_HZ);
  const passed = r.passband(span, WIDE_RATE);
  // Both on one scale, so that what the passband takes away shows.
  const after = spectrumOf(passed.re, passed.im, WIDE_RATE, 512, WIDE_HZ, before.top);
  return { before, after };
}

/** Inside the whip that receives. */
export function insideFarWhip(scene: Scene, start_us: number | null): FarWhipLook {
  const { look, r } = open(scene, start_us);
  return {
    ...look,
    link: 'far whip',
    tuned_kHz: r.tuned_Hz / 1000,
    bandwidth_Hz: r.bandwidth_Hz,
    noise_dBuV: r.ear.noise_dBuV(r.tuned_Hz),
    arrivals: r.deaf
      ? []
      : r.ear.arrivals(scene.now_us).map(({ station, f_Hz, field_dBuV, cn0_dB }) => ({
          station,
          off_Hz: f_Hz - r.tuned_Hz,
          field_dBuV,
          cn0_dB,
        })),
    spectrum: spectra(scene, r).before,
    deaf: r.deaf,
  };
}

/** Inside the receiver. */
export function insideReceiver(scene: Scene, start_us: number | null): ReceiverLook {
  const { look, r } = open(scene, start_us);
  const { rx } = scene.station.wires;
  const below_Hz = referenceBelow_Hz(r.shift_Hz);
  return {
    ...look,
    link: 'receiver',
    tuned_kHz: r.tuned_Hz / 1000,
    bandwidth_Hz: r.bandwidth_Hz,
    ...spectra(scene, r),
    tones: r.deaf ? [] : toneOf(r, look.window, below_Hz),
    below_Hz,
    innerNoise_dB: look.isOwn ? rx.innerNoise_dB : -60,
    agc: look.isOwn ? rx.agc : 'slow',
    bfo_Hz: look.isOwn && rx.bfo ? rx.pitch_Hz : null,
    gain_dB: look.isOwn ? rx.gain_dB - rx.trimLoss_dB : 0,
    deaf: r.deaf,
  };
}

/** Inside the terminal unit. */
export function insideTerminal(scene: Scene, start_us: number | null): TerminalLook {
  const { look, r, reading } = open(scene, start_us);
  const below_Hz = referenceBelow_Hz(r.shift_Hz);
  const { waves, delay } = reading;
  const wave = (w: Float64Array, late_us: number) => (r.deaf ? [] : over(w, reading, r.rate, look.window, late_us));
  const { before, after } = spectra(scene, r);
  return {
    ...look,
    link: 'terminal unit',
    line: piecesOf(r.deaf ? [] : reading.line, look.window),
    tones: r.deaf ? [] : toneOf(r, look.window, below_Hz),
    below_Hz,
    markTone: wave(waves.mark, delay.tones),
    spaceTone: wave(waves.space, delay.tones),
    decision: wave(waves.decided, delay.decided),
    units: unitsOf(reading, r.rate, look.window),
    spectrum: after,
    before,
    deaf: r.deaf,
  };
}

const PAGE_LINES = 4;
const PAGE_PRINTS = 240;

/** The last lines that a printer has printed, from the record. */
function pageOf(scene: Scene, at: string): string[] {
  const { lines } = scene.record;
  let text = '';
  let n = 0;
  for (let i = lines.length - 1; i >= 0 && i > lines.length - 4000 && n < PAGE_PRINTS; i--) {
    const line = lines[i]!;
    if (line.k !== 'print' || line.at !== at) continue;
    text = line.c + text;
    n++;
  }
  return text.replace(/\r/g, '').split('\n').slice(-PAGE_LINES);
}

/** Inside the printer. */
export function insidePrint(scene: Scene, start_us: number | null): PrintLook {
  const { look, r, reading } = open(scene, start_us);
  const { letter, now_us } = look.window;
  const char = letter && reading.chars.find((c) => c.start_us === letter.start_us);
  return {
    ...look,
    link: 'print',
    line: piecesOf(r.deaf ? [] : reading.line, look.window),
    units: unitsOf(reading, r.rate, look.window),
    margin_pct: char && char.start_us + 7 * UNIT_US <= now_us ? Math.round(char.margin) : null,
    page: pageOf(scene, look.isOwn ? 'own' : r.who),
    letters: reading.letters.filter((l) => l.start_us <= now_us).slice(-14),
    deaf: r.deaf,
  };
}
