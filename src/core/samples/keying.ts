/** A hand-keyed carrier: the rise and fall of its envelope, and the key found again in a received envelope. */
import { cos } from '../numeric/elementary.ts';
import type { KeyEdge } from '../telegraphy/morse.ts';

/** Rise and fall of a keyed carrier that makes no clicks, microseconds (common practice: about 5 ms). */
export const KEY_RISE_us = 5000;

/**
 * Envelope 0..1 of `count` samples from absolute sample index `first` for a key's edges (sorted, key up before the first):
 * raised cosine, each rise and fall beginning at its edge. A movement cut short turns back from the level it reached.
 */
export function keyEnvelope(
  edges: readonly KeyEdge[],
  first: number,
  count: number,
  rate: number,
  rise_us = KEY_RISE_us,
): Float64Array {
  const out = new Float64Array(count);
  // Where the key stands in its travel, 0 up to 1 down; the envelope is a cosine of it.
  let travel = 0;
  let down = false;
  let next = 0;
  let t = edges[0]?.t_us ?? 0;
  const move = (to_us: number) => {
    const part = rise_us > 0 ? (to_us - t) / rise_us : 1;
    travel = Math.min(1, Math.max(0, travel + (down ? part : -part)));
    t = to_us;
  };
  for (let i = 0; i < count; i++) {
    const now = ((first + i) * 1e6) / rate;
    while (next < edges.length && edges[next]!.t_us <= now) {
      move(edges[next]!.t_us);
      down = edges[next]!.down;
      next += 1;
    }
    if (next > 0) move(now);
    out[i] = travel === 0 || travel === 1 ? travel : 0.5 - 0.5 * cos(Math.PI * travel);
  }
  return out;
}

// Levels are found afresh this often, from this time to each side: over any word gap, but quicker than slow fading.
const LEVEL_STEP_s = 0.25;
const LEVEL_REACH_s = 2.5;
// Noise alone parts into two means about 2.3 apart; keying that can be read stands further apart than this.
const KEYED_RATIO = 2.7;
// And a stretch this far under the strongest of the recording is taken for its silence.
const SILENT = 0.2;
const HYSTERESIS = 0.08;

/** Means of what is below and above the limit between them, found by halving the distance a few times (two-means). */
function twoLevels(x: Float64Array): { readonly low: number; readonly high: number } {
  let [low, high] = [Infinity, 0];
  for (const v of x) {
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  for (let pass = 0; pass < 8; pass++) {
    const limit = (low + high) / 2;
    let [below, above, n] = [0, 0, 0];
    for (const v of x) {
      if (v > limit) above += v;
      else {
        below += v;
        n += 1;
      }
    }
    low = n === 0 ? low : below / n;
    high = n === x.length ? high : above / (x.length - n);
  }
  return { low, high };
}

/** Key movements in an envelope sampled `rate` times a second: half-way between the levels of key up and down thereabouts. */
export function keyEdgesOf(envelope: Float64Array, rate: number): KeyEdge[] {
  const step = Math.max(1, Math.round(LEVEL_STEP_s * rate));
  const reach = Math.round(LEVEL_REACH_s * rate);
  const strongest = twoLevels(envelope).high;
  const edges: KeyEdge[] = [];
  let down = false;
  let level = { low: 0, high: 0 };
  for (let i = 1; i < envelope.length; i++) {
    if (i % step === 1) level = twoLevels(envelope.subarray(Math.max(0, i - reach), i + reach));
    if (!down && (level.high < KEYED_RATIO * level.low || level.high < SILENT * strongest)) continue;
    const limit: number = level.low + (level.high - level.low) * (down ? 0.5 - HYSTERESIS : 0.5 + HYSTERESIS);
    const v = envelope[i]!;
    if (v > limit === down) continue;
    const before = envelope[i - 1]!;
    const part: number = v === before ? 0 : Math.min(1, Math.max(0, (v - limit) / (v - before)));
    down = !down;
    edges.push({ t_us: Math.round(((i - part) * 1e6) / rate), down });
  }
  return edges;
}

/** Leaves out gaps, then marks, shorter than `least_us`: clicks and drop-outs, not keying. */
export function withoutGlitches(edges: readonly KeyEdge[], least_us: number): KeyEdge[] {
  const drop = (list: readonly KeyEdge[], ofDown: boolean) => {
    const out: KeyEdge[] = [];
    for (const edge of list) {
      const last = out.at(-1);
      if (
        last !== undefined &&
        last.down === ofDown &&
        edge.t_us - last.t_us < least_us &&
        out.length > (ofDown ? 0 : 1)
      )
        out.pop();
      else out.push(edge);
    }
    return out;
  };
  return drop(drop(edges, false), true);
}
