/** Dice for tests: normal values by absolute index, from an integer hash (Wellons' lowbias32) and Box-Muller. */
import type { NormalSource } from '../../../src/core/samples/noise.ts';

function hash(x: number): number {
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return (x ^ (x >>> 16)) >>> 0;
}

/** A uniform value in [0, 1) by seed and index. */
export const uniform = (seed: number, index: number): number =>
  hash(hash(index) ^ Math.imul(seed, 0x9e3779b9)) / 2 ** 32;

/** Standard normal values by absolute index. */
export const dice =
  (seed: number): NormalSource =>
  (index) =>
    Math.sqrt(-2 * Math.log(1 - uniform(seed, 2 * index))) * Math.cos(2 * Math.PI * uniform(seed, 2 * index + 1));

/** Random letters in groups of five with spaces between. */
export function groups(seed: number, count: number): string {
  const letter = (i: number) => String.fromCharCode(65 + Math.floor(26 * uniform(seed, i)));
  return Array.from({ length: count }, (_, g) => [0, 1, 2, 3, 4].map((k) => letter(5 * g + k)).join('')).join(' ');
}

/** Least number of insertions, deletions and substitutions that turn one text into another (Levenshtein). */
export function editDistance(a: string, b: string): number {
  let row = Int32Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = new Int32Array(b.length + 1);
    next[0] = i;
    const ca = a.charCodeAt(i - 1);
    for (let j = 1; j <= b.length; j++) {
      const swap = row[j - 1]! + (ca === b.charCodeAt(j - 1) ? 0 : 1);
      next[j] = Math.min(swap, row[j]! + 1, next[j - 1]! + 1);
    }
    row = next;
  }
  return row[b.length]!;
}
