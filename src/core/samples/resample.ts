/** Changing the rate of samples by a whole factor: zeros between and a low-pass filter on the way up, a low-pass and leaving out on the way down. */
import { firLowPass, firRun } from './filter.ts';

/** Taps of the filter for each sample in (up) or out (down); the transition is then a quarter of the lower rate wide. */
const TAPS_EACH = 12;

const madeUp = new Map<number, readonly number[]>();

/** The branches' taps, each branch adding up to nearly 1. */
function upTaps(factor: number): readonly number[] {
  let taps = madeUp.get(factor);
  if (!taps) {
    taps = firLowPass(TAPS_EACH * factor + 1, 0.5, factor).map((h) => h * factor);
    madeUp.set(factor, taps);
  }
  return taps;
}

/**
 * `factor` samples for each one in, flat to 0.35 of the lower rate and 50 dB down above 0.65 of it. `history` holds the last
 * 12 samples in, oldest first, and is left ready for the next block. Factor 1 copies.
 */
export function upsample(x: Float64Array, factor: number, history: number[]): Float64Array {
  if (!(Number.isInteger(factor) && factor >= 1))
    throw new RangeError(`factor is a whole number from 1, got ${factor}`);
  if (factor === 1) return x.slice();
  const taps = upTaps(factor);
  const line = new Float64Array(TAPS_EACH + x.length);
  line.set(history.slice(-TAPS_EACH), TAPS_EACH - Math.min(TAPS_EACH, history.length));
  line.set(x, TAPS_EACH);
  const out = new Float64Array(x.length * factor);
  for (let i = 0; i < x.length; i++)
    for (let branch = 0; branch < factor; branch++) {
      let sum = 0;
      for (let k = branch, at = i + TAPS_EACH; k < taps.length && at >= 0; k += factor, at--)
        sum += taps[k]! * line[at]!;
      out[i * factor + branch] = sum;
    }
  history.length = 0;
  for (let i = line.length - TAPS_EACH; i < line.length; i++) history.push(line[i]!);
  return out;
}

/** Memory of `halve`: the filter's history, and whether the next sample is one of those left out. Plain JSON. */
export interface HalvingState {
  readonly history: readonly number[];
  readonly skips: boolean;
}

/** Nothing in the filter. */
export const halvingAtRest = (): HalvingState => ({ history: [], skips: false });

/** Every second sample of `x` after the low-pass `taps`. */
export function halve(
  state: HalvingState,
  x: Float64Array,
  taps: readonly number[],
): { readonly state: HalvingState; readonly out: Float64Array } {
  const history = [...state.history];
  const filtered = firRun(x, taps, history);
  const first = state.skips ? 1 : 0;
  const out = new Float64Array(Math.max(0, Math.ceil((filtered.length - first) / 2)));
  for (let i = 0; i < out.length; i++) out[i] = filtered[first + 2 * i]!;
  return { state: { history, skips: state.skips !== (x.length % 2 === 1) }, out };
}
