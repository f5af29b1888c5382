/** A second of what comes in, read through the converter: its waves, its line, its letters, and how surely each unit was read. */
import { cos, sin } from '../numeric/elementary.ts';
import { converterAtRest, converterDelay_us, converterRun } from '../samples/converter.ts';
import type { Edge } from '../signals.ts';
import { charsInStep } from '../telegraphy/selector.ts';
import type { Receiving } from './receivers.ts';
import { BAUD, type CaseBefore, named, unitMiddle_us, type Window } from './window.ts';

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

const WARM_UP_US = 900_000;
/** So much of what is to come is read too, us. */
export const AHEAD_US = 180_000;
/** Filters have settled after this. */
const SETTLE_US = 150_000;
const POINTS = 340;
const TONE_POINTS = 1500;
/** Samples a second of what is drawn and measured without the converter. */
export const WIDE_RATE = 8192;

/** A second of signal and a little of what is to come, through the converter. */
export function read(r: Receiving, centre_us: number, before: CaseBefore) {
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
  return { first, samples, waves, delay, line, chars, letters: named(chars, before) };
}
/** What was read. */
export type Reading = ReturnType<typeof read>;

/** A wave of the converter over a window, late by `delay_us`. */
export function over(wave: Float64Array, { first }: Reading, rate: number, w: Window, delay_us: number): number[] {
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
export function toneOf(r: Receiving, w: Window, below_Hz: number): number[] {
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

/** The five units of the window's letter. */
export function unitsOf(reading: Reading, rate: number, w: Window): UnitRead[] {
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
