/**
 * Finds the characters of a start-stop recording all at once: the most likely cutting of the whole into idle mark and
 * characters, each start searched on the grid, with the sender's steady cadence as a prior (dynamic programming).
 */
import { ln } from '../numeric/elementary.ts';
import { BLANK, FIGS } from '../telegraphy/ita2.ts';
import { GRID } from './tone-evidence.ts';

/** A character found. */
export interface FoundChar {
  /** Grid point at which its start element begins. */
  readonly at: number;
  /** 0..31. */
  readonly code: number;
  /** Least evidence among its elements, natural units: under about 2 it may well be wrong. */
  readonly confidence: number;
}

// Prices in natural units. Steady sending is the rule, so leaving it and taking it up again cost about e^-3 each.
const LEAVE = 3;
const TAKE_UP = 3;
// A step of the cadence may be off by up to two grid points (motor speed, rounding), at a price that grows as the square.
const SLACK = 2;
const SLACK_PRICE = 0.3;
// Beyond the end of the recording the line is taken to be at mark.
const SURE_MARK = -30;
// Codes that plain traffic seldom has are believed less readily: shifts to figures, blanks.
const RARE: Readonly<Record<number, number>> = { [FIGS]: -2, [BLANK]: -3 };

const LN2 = ln(2);

// A character's score: its start element's evidence, then for each data element what it says if space, nothing if mark, and
// the price of a free choice. Mark all through scores 0, which is the idle line's score.
function charScores(evidence: Float64Array, points: number): Float64Array {
  const data = new Float64Array(points + 6 * GRID);
  for (let g = 0; g < evidence.length; g++) data[g] = Math.max(evidence[g]!, 0) - LN2;
  const scores = new Float64Array(points).fill(SURE_MARK);
  const element = GRID;
  for (let g = 0; g < evidence.length; g++) {
    let sum = evidence[g]!;
    for (let k = g + element; k <= g + 5 * element; k += element) sum += data[k]!;
    scores[g] = sum;
  }
  return scores;
}

// Two ways to stand at a grid point: in step (a character with its whole stop has just ended) or idle (mark for any time).
// Each remembers where it came from: a character's start, or -1 for one step of idle, or -2 for "was in step here".
function starts(scores: Float64Array, cadence: number): number[] {
  const points = scores.length;
  const [inStep, idle] = [new Float64Array(points), new Float64Array(points)];
  const [stepFrom, idleFrom] = [new Int32Array(points).fill(-1), new Int32Array(points).fill(-1)];
  const begin = new Float64Array(points);
  const whole = Math.round(cadence);
  const shortest = 7 * GRID;
  for (let g = 0; g < points; g++) {
    let step = -Infinity;
    for (let j = -SLACK; j <= SLACK; j++) {
      const from = g - whole - j;
      if (from < 0) break;
      const value = begin[from]! + scores[from]! - SLACK_PRICE * j * j;
      if (value > step) {
        step = value;
        stepFrom[g] = from;
      }
    }
    let rest = g === 0 ? 0 : idle[g - 1]!;
    if (step - LEAVE > rest) {
      rest = step - LEAVE;
      idleFrom[g] = -2;
    }
    const short = g - shortest;
    if (short >= 0 && begin[short]! + scores[short]! - LEAVE > rest) {
      rest = begin[short]! + scores[short]! - LEAVE;
      idleFrom[g] = short;
    }
    inStep[g] = step;
    idle[g] = rest;
    begin[g] = Math.max(step, rest - TAKE_UP);
  }
  return traceBack(points - 1, idle, inStep, idleFrom, stepFrom);
}

function traceBack(
  last: number,
  idle: Float64Array,
  inStep: Float64Array,
  idleFrom: Int32Array,
  stepFrom: Int32Array,
): number[] {
  const found: number[] = [];
  let g = last;
  let resting = true;
  while (g > 0) {
    if (resting && idleFrom[g] === -1) {
      g -= 1;
      continue;
    }
    if (resting && idleFrom[g] === -2) {
      resting = false;
      continue;
    }
    g = resting ? idleFrom[g]! : stepFrom[g]!;
    found.push(g);
    resting = inStep[g]! < idle[g]! - TAKE_UP;
  }
  return found.reverse();
}

function codeAt(evidence: Float64Array, at: number): FoundChar {
  const elements = [1, 2, 3, 4, 5].map((k) => evidence[at + k * GRID] ?? SURE_MARK);
  let code = 0;
  let most = -Infinity;
  for (let c = 0; c < 32; c++) {
    let score = RARE[c] ?? 0;
    for (let k = 0; k < 5; k++) if ((c & (1 << k)) === 0) score += elements[k]!;
    if (score > most) {
      most = score;
      code = c;
    }
  }
  return { at, code, confidence: elements.reduce((least, e) => Math.min(least, Math.abs(e)), Infinity) };
}

/** Mean distance of neighbours that stand like steady sending, in grid points, or null when too few do. */
function cadenceOf(found: readonly number[]): number | null {
  const steps = found.flatMap((at, i) => {
    const step = at - (found[i - 1] ?? -Infinity);
    return step > 6.8 * GRID && step < 8.2 * GRID ? [step] : [];
  });
  if (steps.length < 8 || steps.length < found.length / 2) return null;
  const middle = [...steps].sort((a, b) => a - b)[steps.length >> 1]!;
  const near = steps.filter((s) => Math.abs(s - middle) <= 3);
  return near.reduce((a, b) => a + b, 0) / near.length;
}

/** The characters of a recording from its space evidence. `stop_units` is the stop expected; the cadence found corrects it. */
export function findChars(evidence: Float64Array, stop_units: number): FoundChar[] {
  const scores = charScores(evidence, evidence.length + 9 * GRID);
  const expected = (6 + stop_units) * GRID;
  let found = starts(scores, expected);
  const cadence = cadenceOf(found);
  if (cadence !== null && Math.abs(cadence - expected) > 0.5) found = starts(scores, cadence);
  return found.map((at) => codeAt(evidence, at));
}
