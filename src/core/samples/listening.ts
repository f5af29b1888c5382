/** Whole recordings there and back: text to keyed tones with noise, and tones to text. */
import { decode, encode, type Ita2Options } from '../telegraphy/ita2.ts';
import { codesEdges } from '../telegraphy/startstop.ts';
import { type FoundChar, findChars } from './frame-reader.ts';
import { fskAtRest, fskRun, type Tones } from './fsk.ts';
import { type AddedNoise, addRealNoise, fitInPlace, noisePower } from './noise.ts';
import { spaceEvidence, toneGrid } from './tone-evidence.ts';

export { type MorseWav, makeMorse, readMorse } from './morse-sound.ts';

/** Samples a second unless told. */
export const WAV_RATE = 8000;
/** Middle of the two tones unless told, Hz. */
export const WAV_CENTRE = 2000;

/** A keyed-tone circuit as heard: 50 Bd, 850 Hz, mark low, centre 2000 Hz, stop 1.5 unless told. */
export interface FskSound extends Ita2Options, Partial<Tones> {
  readonly baud?: number;
  readonly stop_units?: number;
}

/** A recording to make. */
export interface FskWav extends FskSound {
  readonly text: string;
  readonly rate?: number;
  /** Steady mark before and after, seconds; 0.5 unless told. */
  readonly lead_s?: number;
  readonly added?: AddedNoise;
}

const filled = (o: FskSound) => ({
  baud: o.baud ?? 50,
  stop: o.stop_units ?? 1.5,
  tones: { shift: o.shift ?? 850, sense: o.sense ?? 'mark low', centre: o.centre ?? WAV_CENTRE } as const,
});

/** Text as keyed tones, real samples within ±0.9. Characters the alphabet lacks are left out (ask `encode` for them). */
export function makeFskWav(options: FskWav): Float64Array {
  const { baud, stop, tones } = filled(options);
  const { rate = WAV_RATE, lead_s = 0.5, added } = options;
  const top = tones.centre + tones.shift / 2;
  if (!(tones.centre > tones.shift / 2 && top < rate / 2))
    throw new RangeError(`tones up to ${top} Hz do not fit ${rate} samples a second`);
  const lead_us = Math.round(lead_s * 1e6);
  const { edges, end_us } = codesEdges(encode(options.text, options).codes, lead_us, baud, stop);
  const count = Math.ceil(((end_us + lead_us) * rate) / 1e6);
  const x = fskRun(fskAtRest(), edges, count, rate, tones).re;
  if (added !== undefined) addRealNoise(x, noisePower(added.ebN0_dB, 1 / baud, rate), added.noise);
  fitInPlace(x);
  return x;
}

/** The characters of a recording, in order. */
export function readFskChars(samples: Float64Array, rate: number, options: FskSound = {}): FoundChar[] {
  const { baud, stop, tones } = filled(options);
  return findChars(spaceEvidence(toneGrid(samples, rate, baud, tones)), stop);
}

/** The text of a recording. */
export function readFsk(samples: Float64Array, rate: number, options: FskSound = {}): string {
  const codes = readFskChars(samples, rate, options).map((c) => c.code);
  return decode(codes, options).text;
}
