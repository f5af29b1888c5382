/** Amplitude modulation of a carrier by speech (A3E), and its envelope detector. */
import { exp } from '../numeric/elementary.ts';

/**
 * Puts speech on a complex carrier in place. `audio` runs -1..1; `depth` is 0..1; the envelope never goes below 0
 * (an overdriven sender flattens, it does not turn over).
 */
export function modulateInPlace(re: Float64Array, im: Float64Array, audio: Float64Array, depth: number): void {
  if (!(depth >= 0 && depth <= 1)) throw new RangeError(`depth is 0..1, got ${depth}`);
  for (let i = 0; i < re.length; i++) {
    const envelope = Math.max(0, 1 + depth * (audio[i] ?? 0));
    re[i] = re[i]! * envelope;
    im[i] = im[i]! * envelope;
  }
}

/** Memory of a detector: its running mean of the envelope, which is the level of the carrier. Plain JSON; null before the first sample. */
export interface EnvelopeState {
  readonly carrier: number | null;
}

/** Speech below this is cut with the carrier, Hz. */
const CARRIER_CORNER_Hz = 30;

/** Envelope less its running mean: speech, still proportional to the carrier. `carrier` in the state serves a level meter or an AGC. */
export function detectEnvelope(
  state: EnvelopeState,
  re: Float64Array,
  im: Float64Array,
  rate: number,
): { readonly state: EnvelopeState; readonly audio: Float64Array } {
  const keep = exp((-2 * Math.PI * CARRIER_CORNER_Hz) / rate);
  const audio = new Float64Array(re.length);
  let carrier = state.carrier;
  for (let i = 0; i < re.length; i++) {
    const envelope = Math.sqrt(re[i]! * re[i]! + im[i]! * im[i]!);
    carrier = carrier === null ? envelope : keep * carrier + (1 - keep) * envelope;
    audio[i] = envelope - carrier;
  }
  return { state: { carrier }, audio };
}
