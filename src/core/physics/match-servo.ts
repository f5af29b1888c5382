/**
 * The matcher that finds a setting by itself, as a servo would: two motors, one relay and one meter that shows what share
 * of the power comes back. It knows the frequency, not the whip. It sweeps the coil for the dip of resonance, reads the
 * whip's resistance from the depth of the dip, goes where that points, and climbs from there, one motor at a time.
 * The state is plain data and each call is one tick, so a box can stop, save and go on at any tick.
 */
import { arrived, MATCH_POSITIONS, type MatchPosition, matchAt, motorStep, nearestPosition } from './match-motors.ts';
import { LINE_OHM } from './matching.ts';

/** The search ends at once when this share or less comes back. */
export const MATCH_FINE = 0.01;
/** A search that can do no better still counts as found up to this share (6 W of 120 W). */
export const MATCH_GOOD = 0.05;

/** A change of the meter smaller than this does not show. */
const NEEDLE = 0.0005;
/** A sweep has passed its dip when the meter fell below the first share and rose again by the second. */
const DIP_BELOW = 0.8;
const DIP_RISE = 0.06;
/** With this share back or less a search climbs from where it stands; above, it sweeps first. */
const NEAR_ENOUGH = 0.4;
/** First and last stride of a climb as shares of 50 ohm (coil) or of 1/50 siemens (loading). */
const STRIDE_FIRST = 0.4;
const STRIDE_LAST = 0.02;
/** Coil reactance put in before the loading is swept at the whip's end. */
const SEAT_OHM = 60;

/** What to do when a climb ends on a poor place. */
type Fallback = 'sweep the coil' | 'load the whip' | 'give up';

/** A search in progress: plain data, safe to store and compare. */
export type MatchSearch = {
  readonly phase: 'home' | 'sweep coil' | 'seat coil' | 'sweep loading' | 'climb' | 'found' | 'failed';
  /** Frequency, MHz. */
  readonly f_MHz: number;
  /** Where the motors stand now. */
  readonly at: MatchPosition;
  /** Where they are going. */
  readonly goal: MatchPosition;
  /** Best place of this sweep or climb and the share that came back there; 2 stands for none read yet. */
  readonly best: MatchPosition & { readonly back: number };
  /** Which way the climb tries (coil up, loading up, coil down, loading down), 0 to 3, and how many tries in a row failed. */
  readonly heading: number;
  readonly misses: number;
  /** Stride of the climb as a share of 50 ohm. */
  readonly stride: number;
  readonly fallback: Fallback;
  /** Ticks since the search began. */
  readonly ticks: number;
};

const NOWHERE: MatchPosition & { back: number } = { coil: 0, loading: 0, side: 'sender', back: 2 };
const ZERO: MatchPosition = { coil: 0, loading: 0, side: 'sender' };

const placeOf = ({ coil, loading, side }: MatchPosition): MatchPosition => ({ coil, loading, side });

/** Position whose coil and loading differ from those at `from` by ohms of reactance and siemens of susceptance. */
function shifted(f_MHz: number, from: MatchPosition, more_ohm: number, more_S: number): MatchPosition {
  const { coil_uH, loading_pF, side } = matchAt(from);
  const w = 2 * Math.PI * f_MHz;
  return nearestPosition({ coil_uH: coil_uH + more_ohm / w, loading_pF: loading_pF + (more_S / w) * 1e6, side });
}

/** A search at `f_MHz` (above 0) that begins at a stored, or any, position. Throws RangeError for a position off the scale. */
export function startSearch(f_MHz: number, at: MatchPosition): MatchSearch {
  if (!(f_MHz > 0 && Number.isFinite(f_MHz)))
    throw new RangeError(`search needs a frequency above 0, got ${f_MHz} MHz`);
  matchAt(at);
  const begun = { f_MHz, at, best: NOWHERE, heading: 0, misses: 0, stride: STRIDE_FIRST, ticks: 0 };
  return { ...begun, phase: 'climb', goal: at, fallback: 'sweep the coil' };
}

const climbAt = (s: MatchSearch, goal: MatchPosition, fallback: Fallback): MatchSearch => ({
  ...s,
  phase: 'climb',
  goal,
  fallback,
  best: NOWHERE,
  heading: 0,
  misses: 0,
  stride: STRIDE_FIRST,
});

const goHome = (s: MatchSearch): MatchSearch => ({ ...s, phase: 'home', goal: ZERO });

/** Puts the loading at the whip's end and the coil somewhat above the best place, ready to sweep the loading. */
function loadTheWhip(s: MatchSearch): MatchSearch {
  const seat = shifted(s.f_MHz, { ...placeOf(s.best), loading: 0, side: 'whip' }, SEAT_OHM, 0);
  return { ...s, phase: 'seat coil', goal: seat, fallback: 'give up' };
}

/** Resistance from the depth of the dip, hence loading and the extra coil that an L section needs. */
function fromDip(s: MatchSearch, fallback: Fallback): MatchSearch {
  const size = Math.sqrt(s.best.back);
  const arm_ohm = (LINE_OHM * (1 - size)) / (1 + size);
  const q = Math.sqrt(LINE_OHM / arm_ohm - 1);
  return climbAt(s, shifted(s.f_MHz, placeOf(s.best), q * arm_ohm, q / LINE_OHM), fallback);
}

const keepBest = (s: MatchSearch, back: number): MatchSearch =>
  back < s.best.back ? { ...s, best: { ...s.at, back } } : s;

const dipPassed = (s: MatchSearch, back: number): boolean => s.best.back < DIP_BELOW && back > s.best.back + DIP_RISE;

function sweepCoil(before: MatchSearch, back: number): MatchSearch {
  const s = keepBest(before, back);
  const passed = dipPassed(s, back);
  if (!passed && s.at.coil < MATCH_POSITIONS) return s;
  if (s.best.back >= DIP_BELOW) return { ...s, phase: 'failed', goal: s.at };
  // A dip at the foot of the sweep: the whip is inductive by itself and the coil can only make it worse.
  return s.best.coil === 0 ? loadTheWhip(s) : fromDip(s, passed ? 'load the whip' : 'give up');
}

function sweepLoading(before: MatchSearch, back: number): MatchSearch {
  const s = keepBest(before, back);
  if (!dipPassed(s, back) && s.at.loading < MATCH_POSITIONS) return s;
  return climbAt(s, placeOf(s.best), 'give up');
}

/** The climb can do no better: keep it if it is good, else the next thing to try. */
function spent(s: MatchSearch): MatchSearch {
  if (s.best.back <= MATCH_GOOD) return { ...s, phase: 'found', goal: placeOf(s.best) };
  if (s.fallback === 'sweep the coil') return goHome(s);
  return s.fallback === 'load the whip' ? loadTheWhip(s) : { ...s, phase: 'failed', goal: s.at };
}

/** Next place to try: from the best one, a stride the way the climb is heading; at least one position. */
function tryNext(s: MatchSearch): MatchSearch {
  const way = s.heading < 2 ? 1 : -1;
  const axis = s.heading % 2 === 0 ? 'coil' : 'loading';
  const ohm = axis === 'coil' ? way * s.stride * LINE_OHM : 0;
  const siemens = axis === 'loading' ? (way * s.stride) / LINE_OHM : 0;
  const goal = shifted(s.f_MHz, placeOf(s.best), ohm, siemens);
  if (goal[axis] !== s.best[axis]) return { ...s, goal };
  const nudged = Math.max(0, Math.min(MATCH_POSITIONS, s.best[axis] + way));
  return { ...s, goal: { ...goal, [axis]: nudged } };
}

function missed(s: MatchSearch): MatchSearch {
  const next = { ...s, heading: (s.heading + 1) % 4, misses: s.misses + 1 };
  if (next.misses < 4) return tryNext(next);
  const stride = s.stride / 2;
  return stride < STRIDE_LAST ? spent(s) : tryNext({ ...next, misses: 0, stride });
}

function climb(s: MatchSearch, back: number): MatchSearch {
  const here = { ...s, best: { ...s.at, back } };
  if (back <= MATCH_FINE) return { ...here, phase: 'found', goal: s.at };
  if (s.best.back > 1) {
    if (s.fallback === 'sweep the coil' && back > NEAR_ENOUGH) return goHome(s);
    // Near a match the error, as a share of 50 ohm, is of the order of the reflection coefficient.
    return tryNext({ ...here, stride: Math.min(STRIDE_FIRST, Math.sqrt(back)) });
  }
  return back > s.best.back - NEEDLE ? missed(s) : tryNext({ ...here, misses: 0 });
}

function decide(s: MatchSearch, back: number): MatchSearch {
  if (s.phase === 'sweep coil') return sweepCoil(s, back);
  if (s.phase === 'sweep loading') return sweepLoading(s, back);
  if (!arrived(s.at, s.goal)) return s;
  if (s.phase === 'climb') return climb(s, back);
  const phase = s.phase === 'home' ? 'sweep coil' : 'sweep loading';
  const axis = s.phase === 'home' ? 'coil' : 'loading';
  return { ...s, phase, best: { ...s.at, back }, goal: { ...s.goal, [axis]: MATCH_POSITIONS } };
}

/**
 * One tick of the servo: reads the share that comes back (0 to 1) where the motors stand, decides, moves.
 * `failed` keeps the motors still; `found` lets them run the last few positions to the best place and then keeps still.
 * Throws RangeError on a reading outside 0 to 1.
 */
export function servoStep(search: MatchSearch, back: number): MatchSearch {
  if (!(back >= 0 && back <= 1)) throw new RangeError(`share of power back must be 0 to 1, got ${back}`);
  if (search.phase === 'failed' || (search.phase === 'found' && arrived(search.at, search.goal))) return search;
  const decided = search.phase === 'found' ? search : decide(search, back);
  return { ...decided, at: motorStep(decided.at, decided.goal), ticks: search.ticks + 1 };
}
