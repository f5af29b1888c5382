/** Monthly median foF2 and M(3000)F2 over the theatre, from the compact table of the ITU-R P.1239 maps. */
import { cos, sin } from '../../numeric/elementary.ts';
import { FOF2_BY_MONTH, M3000_BY_MONTH } from './theatre-map.ts';

/** The F2 layer as the maps give it. */
export interface F2Sounding {
  /** Critical frequency of the ordinary wave, MHz. */
  readonly foF2_MHz: number;
  /** MUF(3000 km) over foF2. */
  readonly M3000F2: number;
}

/** What the maps cannot say, and why. */
export interface NoSounding {
  readonly foF2_MHz: null;
  readonly M3000F2: null;
  readonly reason: string;
}

const LATITUDE = { first: 36, step: 4, nodes: 9 } as const;
const LONGITUDE = { first: -10, step: 5, nodes: 9 } as const;
const PLANE = LATITUDE.nodes * LONGITUDE.nodes;
const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const digitOf = new Map([...DIGITS].map((digit, value) => [digit, value]));
const MOST_R12 = 160;

/** The largest smoothed sunspot number that changes the maps. */
export const cappedR12 = (R12: number): number => Math.min(R12, MOST_R12);

/** Undoes one differencing along an axis. */
function accumulate(plane: number[], stride: number, length: number): void {
  for (let i = 0; i < plane.length; i++) {
    if (Math.floor(i / stride) % length > 0) plane[i]! += plane[i - stride]!;
  }
}

function integers(text: string): number[] {
  const values: number[] = [];
  let value = 0;
  let weight = 1;
  for (const letter of text) {
    const digit = digitOf.get(letter)!;
    value += (digit % 32) * weight;
    weight *= 32;
    if (digit >= 32) continue;
    values.push(value % 2 === 1 ? -(value - 1) / 2 : value / 2);
    value = 0;
    weight = 1;
  }
  return values;
}

/** The planes of one month: R12 0 and change, each with its Fourier coefficients, each of 81 nodes. */
function planesOf(text: string, step: number): number[][] {
  const all = integers(text);
  const planes: number[][] = [];
  for (let at = 0; at < all.length; at += PLANE) {
    const plane = all.slice(at, at + PLANE);
    for (let twice = 0; twice < 2; twice++) {
      accumulate(plane, LONGITUDE.nodes, LATITUDE.nodes);
      accumulate(plane, 1, LONGITUDE.nodes);
    }
    planes.push(plane.map((n) => n * step));
  }
  return planes;
}

/** A map read once and kept; reading it again would give the same. */
class TheatreMap {
  private readonly texts: readonly string[];
  private readonly step: number;
  private readonly kept = new Map<number, number[][]>();

  constructor(texts: readonly string[], step: number) {
    this.texts = texts;
    this.step = step;
  }

  planes(month: number): number[][] {
    const known = this.kept.get(month);
    if (known) return known;
    const fresh = planesOf(this.texts[month - 1]!, this.step);
    this.kept.set(month, fresh);
    return fresh;
  }
}

const foF2Map = new TheatreMap(FOF2_BY_MONTH, 0.0002);
const M3000Map = new TheatreMap(M3000_BY_MONTH, 0.00005);

/** First of four neighbouring nodes round a position, and their Lagrange weights. */
function cubicWeights(position: number, axis: { first: number; step: number; nodes: number }) {
  const u = Math.max(0, Math.min(axis.nodes - 1, (position - axis.first) / axis.step));
  const start = Math.max(0, Math.min(axis.nodes - 4, Math.floor(u) - 1));
  const x = u - start;
  const weights = [
    -((x - 1) * (x - 2) * (x - 3)) / 6,
    (x * (x - 2) * (x - 3)) / 2,
    -(x * (x - 1) * (x - 3)) / 2,
    (x * (x - 1) * (x - 2)) / 6,
  ];
  return { start, weights };
}

/** Value of a month's planes at a place (node weights), hour and R12: the Fourier sum of the interpolated coefficients. */
function evaluate(planes: number[][], nodes: readonly [number, number][], hour_UT: number, R12: number): number {
  const half = planes.length / 2;
  const share = cappedR12(R12) / 100;
  const turn = (2 * Math.PI * hour_UT) / 24;
  let sum = 0;
  for (let c = 0; c < half; c++) {
    let coefficient = 0;
    for (const [i, w] of nodes) coefficient += w * (planes[c]![i]! + share * planes[c + half]![i]!);
    const k = Math.ceil(c / 2);
    sum += coefficient * (c === 0 ? 1 : c % 2 === 1 ? cos(k * turn) : sin(k * turn));
  }
  return sum;
}

/** Throws RangeError unless month is 1..12, hour 0..24 and R12 0..311. */
export function checkHour(month: number, hour_UT: number, R12: number): void {
  if (!(Number.isInteger(month) && month >= 1 && month <= 12))
    throw new RangeError(`month must be 1 to 12, got ${month}`);
  if (!(hour_UT >= 0 && hour_UT <= 24)) throw new RangeError(`hour_UT must be from 0 to 24, got ${hour_UT}`);
  if (!(R12 >= 0 && R12 <= 311)) throw new RangeError(`R12 must be from 0 to 311, got ${R12}`);
}

/** Throws RangeError unless lat is -90..90 and lng -180..180. */
export function checkPlace(lat: number, lng: number): void {
  if (!(Math.abs(lat) <= 90 && Math.abs(lng) <= 180))
    throw new RangeError(`place must be within 90 and 180 degrees, got ${lat}, ${lng}`);
}

/** Whether the maps hold a place: 36..68 N, 10 W..30 E. */
export const inTheatre = (lat: number, lng: number): boolean => lat >= 36 && lat <= 68 && lng >= -10 && lng <= 30;

/** foF2 and M(3000)F2 at a place; one outside the theatre takes the value of the nearest edge. Cubic between nodes. */
export function soundingNearest(lat: number, lng: number, month: number, hour_UT: number, R12: number): F2Sounding {
  const rows = cubicWeights(lat, LATITUDE);
  const columns = cubicWeights(lng, LONGITUDE);
  const nodes: [number, number][] = [];
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) {
      const node = (rows.start + i) * LONGITUDE.nodes + columns.start + j;
      nodes.push([node, rows.weights[i]! * columns.weights[j]!]);
    }
  }
  return {
    foF2_MHz: evaluate(foF2Map.planes(month), nodes, hour_UT, R12),
    M3000F2: evaluate(M3000Map.planes(month), nodes, hour_UT, R12),
  };
}

/** Monthly median foF2 and M(3000)F2 at a place in the theatre (36..68 N, 10 W..30 E); null with a reason outside it. Throws RangeError on nonsense. */
export function ionosphere(
  lat: number,
  lng: number,
  month: number,
  hour_UT: number,
  R12: number,
): F2Sounding | NoSounding {
  checkHour(month, hour_UT, R12);
  checkPlace(lat, lng);
  if (inTheatre(lat, lng)) return soundingNearest(lat, lng, month, hour_UT, R12);
  return { foF2_MHz: null, M3000F2: null, reason: `${lat}, ${lng} is outside the theatre (36 to 68 N, 10 W to 30 E)` };
}
