/**
 * A start-stop reader as a machine is: a clutch that trips when the line leaves mark, a cam that samples the five units
 * open loop at its own motor speed, and a latch that stops it only on mark. On a line held at space it runs open.
 */
import type { Edge } from './startstop.ts';
import { startsOf, unit_us } from './startstop.ts';

// Where the cam comes to the latch at range 50, units from the trip. Late enough that a stop edge 11 % late is past, early
// enough that a 7-unit cycle 3 % fast is still caught (ITU-T S.3, from memory: a receiver accepts a 7-unit cycle).
const LATCH_units = 6.75;

/** Settings of a reader. */
export interface SelectorOptions {
  /** Its own motor's speed, bauds (nominal speed times one plus its error). */
  readonly baud: number;
  /** Where in a unit it samples, percent of a unit, 20..80; 50 unless told. The latch moves with it. */
  readonly range?: number;
}

/** All that a reader remembers; plain JSON. */
export interface SelectorState {
  /** The line has been read to this instant. */
  readonly t_us: number;
  readonly mark: boolean;
  /** When the clutch tripped; null at rest. */
  readonly start_us: number | null;
  /** Samples taken since the trip, 0..5. */
  readonly taken: number;
  readonly code: number;
  /** Last transition seen, and last sample taken; null before the first. */
  readonly edge_us: number | null;
  readonly sample_us: number | null;
  /** Least distance so far in this character between a sample and a transition, microseconds. */
  readonly clear_us: number | null;
}

/** One character read. */
export interface ReadChar {
  /** When the cam comes to the latch and the character prints. */
  readonly t_us: number;
  /** When the clutch tripped. */
  readonly start_us: number;
  /** 0..31. */
  readonly code: number;
  /** Least distance from a sample to a transition, percent of a unit: 0 to 50 (a clean line at range 50). */
  readonly margin: number;
  /** False when the line was at space at the latch, so the cam goes straight round again. */
  readonly stopOk: boolean;
}

/** A reader at rest on a line at mark. */
export const selectorAtRest = (t_us = 0): SelectorState => ({
  t_us,
  mark: true,
  start_us: null,
  taken: 0,
  code: 0,
  edge_us: null,
  sample_us: null,
  clear_us: null,
});

// Units from the trip to the next thing the cam does: a sample in each of units 1 to 5, then the latch.
const camUnits = (taken: number, range: number): number => (taken < 5 ? taken + 1 : LATCH_units - 0.5) + range / 100;

type Working = { -readonly [K in keyof SelectorState]: SelectorState[K] };

const nearer = (now: number | null, distance: number): number => (now === null ? distance : Math.min(now, distance));

function trip(s: Working, t_us: number): void {
  s.start_us = t_us;
  s.taken = 0;
  s.code = 0;
  s.sample_us = null;
  s.clear_us = null;
}

function applyEdge(s: Working, edge: Edge): void {
  if (edge.mark === s.mark) return;
  s.mark = edge.mark;
  s.edge_us = edge.t_us;
  if (s.start_us === null) {
    if (!edge.mark) trip(s, edge.t_us);
  } else if (s.sample_us !== null) {
    s.clear_us = nearer(s.clear_us, edge.t_us - s.sample_us);
  }
}

function sample(s: Working, t_us: number): void {
  if (s.mark) s.code |= 1 << s.taken;
  s.taken += 1;
  s.sample_us = t_us;
  if (s.edge_us !== null) s.clear_us = nearer(s.clear_us, t_us - s.edge_us);
}

function latch(s: Working, t_us: number, unit: number, best: number): ReadChar {
  const clear = s.clear_us === null ? best : (100 * s.clear_us) / unit;
  const char = { t_us, start_us: s.start_us!, code: s.code, margin: Math.min(best, clear), stopOk: s.mark };
  if (s.mark) s.start_us = null;
  else trip(s, t_us);
  return char;
}

/**
 * Reads the line from where the state stands up to and including `until_us`. `edges` must be sorted; those at or before
 * the state's instant, and those after `until_us`, are passed over, so a caller may give the same list again.
 */
export function selectorRun(
  state: SelectorState,
  edges: readonly Edge[],
  until_us: number,
  options: SelectorOptions,
): { readonly state: SelectorState; readonly chars: readonly ReadChar[] } {
  const { baud, range = 50 } = options;
  if (!(range >= 20 && range <= 80)) throw new RangeError(`range is 20..80 percent, got ${range}`);
  const unit = unit_us(baud);
  const best = Math.min(range, 100 - range);
  const s: Working = { ...state };
  const chars: ReadChar[] = [];
  let i = edges.findIndex((e) => e.t_us > s.t_us);
  if (i < 0) i = edges.length;
  while (true) {
    const edge = edges[i];
    const cam_us = s.start_us === null ? Infinity : s.start_us + Math.round(camUnits(s.taken, range) * unit);
    const edge_us = edge === undefined ? Infinity : edge.t_us;
    if (Math.min(cam_us, edge_us) > until_us) break;
    // At one instant the edge comes first, as in levelAt.
    if (edge !== undefined && edge_us <= cam_us) {
      applyEdge(s, edge);
      i += 1;
    } else if (s.taken < 5) sample(s, cam_us);
    else chars.push(latch(s, cam_us, unit, best));
  }
  s.t_us = Math.max(s.t_us, until_us);
  return { state: s, chars };
}

/** How surely characters were read: the mean of their margins, where one without a stop counts nothing; -1 for none. */
const sureness = (chars: readonly ReadChar[]): number =>
  chars.length === 0 ? -1 : chars.reduce((sum, c) => sum + (c.stopOk ? c.margin : 0), 0) / chars.length;

/**
 * Characters of a stretch of line that may begin amid one, where a reader would take an odd edge for a start and fall into
 * step only letters later: of the edges that can be the first true start (startsOf) the one is taken from which the whole
 * reads most surely. A letter whose start lies before the stretch is left out.
 */
export function charsInStep(edges: readonly Edge[], until_us: number, options: SelectorOptions): readonly ReadChar[] {
  const read = (i: number) => selectorRun(selectorAtRest(edges[i]!.t_us - 1), edges, until_us, options).chars;
  return startsOf(edges, unit_us(options.baud))
    .map(read)
    .reduce((best, chars) => (sureness(chars) > sureness(best) ? chars : best), []);
}
