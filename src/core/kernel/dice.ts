/**
 * Counter-based dice: (seed, stream name, index) gives the same value whoever asks and in whatever order, so nothing
 * has to be saved. The mixer is SplitMix64's 32-bit cousin (the finalizer of MurmurHash3, public domain).
 */
import { cos, ln } from '../numeric/elementary.ts';

function mix(h: number): number {
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** A stream's number from its name (FNV-1a, 32 bits). */
export function streamOf(name: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

/** 32 random bits of stream number `stream` at whole `index` (any safe integer). */
export function bits(seed: number, stream: number, index: number): number {
  const high = Math.floor(index / 0x100000000);
  let h = mix(seed ^ 0x9e3779b9);
  h = mix(h ^ stream);
  h = mix((h + Math.imul(high, 0x9e3779b1)) | 0);
  return mix(h ^ mix((index | 0) + 0x7f4a7c15));
}

/** As `bits` at indices from 0 up to 2^32, for a stream that is asked over and over. */
export function throwsOf(seed: number, stream: number): (index: number) => number {
  const h = mix(mix(mix(seed ^ 0x9e3779b9) ^ stream));
  return (index) => mix(h ^ mix((index | 0) + 0x7f4a7c15));
}

/** A number in [0, 1) from named stream `name`, at whole `index`. */
export function uniform(seed: number, name: string, index: number): number {
  return bits(seed, streamOf(name), index) / 0x100000000;
}

/** A standard normal deviate of stream number `stream` at `index` (Box and Muller 1958, the cosine half). */
export function normal(seed: number, stream: number, index: number): number {
  const u = (bits(seed, stream, 2 * index) + 1) / 0x100000001;
  const v = bits(seed, stream, 2 * index + 1) / 0x100000000;
  return Math.sqrt(-2 * ln(u)) * cos(2 * Math.PI * v);
}

/** A whole number from 0 to `n` - 1. Throws RangeError unless n is a whole number from 1. */
export function die(seed: number, name: string, index: number, n: number): number {
  if (!Number.isInteger(n) || n < 1) throw new RangeError(`a die needs a whole number of faces from 1, got ${n}`);
  return Math.floor(uniform(seed, name, index) * n);
}
