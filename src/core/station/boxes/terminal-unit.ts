/** The terminal unit's signal path: a block of the receiver's passband to edges of a line, and what the tuning display shows. */
import { bits, streamOf } from '../../kernel/dice.ts';
import { atan2, exp } from '../../numeric/elementary.ts';
import { dbToRatio } from '../../quantity/quantity.ts';
import { type ConverterState, converterAtRest, converterRate, converterRun } from '../../samples/converter.ts';
import { butterworthLowPass, filterComplex, restOf } from '../../samples/filter.ts';
import type { Ear, Edge } from '../../signals.ts';
import type { Wires } from '../wires.ts';

/** Length of a block while traffic is read, and so how much later than the signal the line moves, us. */
export const BLOCK_us = 100_000;
/** Length of the block that feeds the tuning display at a tick, us. */
export const LOOK_us = 50_000;

/** Memory of the path. `rate` 0: nothing heard yet. `lock` 0..1: tone there of late, as of `seen_us`; `lean` -1..1: tones low or high of their filters. */
export type Path = {
  rate: number;
  converter: ConverterState;
  iF: number[][];
  lock: number;
  seen_us: number;
  lean: number;
};

/** A path that has heard nothing. */
export const newPath = (): Path => ({
  rate: 0,
  converter: converterAtRest(),
  iF: [[], []],
  lock: 0,
  seen_us: 0,
  lean: 0,
});

/** Settings of the unit. */
export type Keying = { shift_Hz: number; markLow: boolean; hold: boolean };

const IF_ORDER = 4;
const filterOf = new Map<string, ReturnType<typeof butterworthLowPass>>();

function passband(bandwidth_Hz: number, rate: number) {
  const key = `${bandwidth_Hz}/${rate}`;
  let made = filterOf.get(key);
  if (!made) {
    // A passband wider than the stream takes nothing away: the converter's front filter is narrower anyhow.
    made = bandwidth_Hz / 2 < 0.45 * rate ? butterworthLowPass(IF_ORDER, bandwidth_Hz / 2, rate) : [];
    filterOf.set(key, made);
  }
  return made;
}

type Samples = { re: Float64Array; im: Float64Array };
const OWN = streamOf('receiver');
// Own noise under a fiftieth of the outside noise is not worth its arithmetic.
const LEAST_dB = -17;

// The sum of four bytes is near enough to normal ahead of a limiter, and one throw of the dice: variance 4 (256^2 - 1)/12.
const BYTES_sigma = Math.sqrt((4 * (256 * 256 - 1)) / 12);
function nearNormal(seed: number, index: number): number {
  const b = bits(seed, OWN, index);
  return ((b & 255) + ((b >>> 8) & 255) + ((b >>> 16) & 255) + (b >>> 24) - 510) / BYTES_sigma;
}

function addOwnNoise({ re, im }: Samples, inner_dB: number, rate: number, first: number, seed: number): void {
  if (inner_dB < LEAST_dB) return;
  const sigma = Math.sqrt((dbToRatio(inner_dB) * rate) / 2);
  for (let i = 0; i < re.length; i++) {
    re[i] = re[i]! + sigma * nearNormal(seed, 2 * (first + i));
    im[i] = im[i]! + sigma * nearNormal(seed, 2 * (first + i) + 1);
  }
}

// Mean frequency of each hundredth of a second by the angle from sample to sample, against the tone it is nearer to.
function leanOf({ re, im }: Samples, rate: number, shift_Hz: number): number {
  const step = Math.round(rate / 100);
  let sum = 0;
  let weight = 0;
  for (let from = 1; from + step <= re.length; from += step) {
    let x = 0;
    let y = 0;
    for (let i = from; i < from + step; i++) {
      x += re[i]! * re[i - 1]! + im[i]! * im[i - 1]!;
      y += im[i]! * re[i - 1]! - re[i]! * im[i - 1]!;
    }
    const power = Math.sqrt(x * x + y * y);
    const f = (atan2(y, x) * rate) / (2 * Math.PI);
    const off = f - (f < 0 ? -shift_Hz / 2 : shift_Hz / 2);
    sum += power * off;
    weight += power;
  }
  return weight > 0 ? Math.min(1, Math.max(-1, sum / weight / (shift_Hz / 2))) : 0;
}

function onto(p: Path, rate: number, first: number, bandwidth_Hz: number): void {
  const rest = () => restOf(passband(bandwidth_Hz, rate));
  if (p.rate !== rate || p.iF[0]!.length !== rest().length) {
    p.rate = rate;
    p.iF = [rest(), rest()];
    p.converter = { ...converterAtRest(first), line: p.converter.line, mark: p.converter.mark };
  }
  // After a gap the filters go on from what they held.
  if (p.converter.sample !== first) p.converter = { ...p.converter, sample: first };
}

// Over this the lamp comes on, under that it goes out. Noise alone gives about 0.55 behind the limiter: a tone filter passes a third of the front filter.
const LOCK_on = 0.8;
const LOCK_off = 0.7;
// It hangs on, so that keying, in whose steps both tones are weak, does not make it flicker. Time constants, us.
const LOCK_rise_us = 450_000;
const LOCK_fall_us = 1_200_000;

/** The lamp's level follows the tones; what happened between two looks is taken to have been as the later shows. */
function follow(p: Path, level: number, to_us: number): void {
  const slow_us = level > p.lock ? LOCK_rise_us : LOCK_fall_us;
  p.lock += (1 - exp(-(to_us - p.seen_us) / slow_us)) * (level - p.lock);
  p.seen_us = to_us;
}

/** Is a tone there, by what stood before and the smoothed level now? */
export const isLocked = (p: Path, was: boolean): boolean => p.lock > (was ? LOCK_off : LOCK_on);

/** The passband between two instants with the receiver's own noise in it; filters go on from `memory` (I and Q), empty at rest. */
export function passbandBlock(
  ear: Ear,
  rx: Wires['rx'],
  rate: number,
  [t0_us, t1_us]: readonly [number, number],
  seed: number,
  memory: number[][],
): Samples {
  const block = ear.samples(t0_us, t1_us, rx.tuned_Hz, rate);
  addOwnNoise(block, rx.innerNoise_dB, rate, Math.ceil((t0_us * rate) / 1e6), seed);
  const sections = passband(rx.bandwidth_Hz, rate);
  for (const part of memory) if (part.length === 0) part.push(...restOf(sections));
  filterComplex(block.re, block.im, sections, memory[0]!, memory[1]!);
  return block;
}

/** Take the block from `t0_us` to `t1_us`; gives the edges of the line, in the time of the signal. */
export function takeBlock(
  p: Path,
  ear: Ear,
  rx: Wires['rx'],
  k: Keying,
  [t0_us, t1_us]: readonly [number, number],
  seed: number,
): readonly Edge[] {
  const rate = converterRate(k.shift_Hz);
  const first = Math.ceil((t0_us * rate) / 1e6);
  onto(p, rate, first, rx.bandwidth_Hz);
  const block = passbandBlock(ear, rx, rate, [t0_us, t1_us], seed, p.iF);
  const sense = k.markLow ? ('mark low' as const) : ('mark high' as const);
  const { state, edges } = converterRun(p.converter, block.re, block.im, rate, {
    shift: k.shift_Hz,
    sense,
    hold: k.hold,
  });
  p.converter = state;
  follow(p, Math.max(state.markLevel, state.spaceLevel), t1_us);
  p.lean += 0.3 * (leanOf(block, rate, k.shift_Hz) - p.lean);
  return edges;
}
