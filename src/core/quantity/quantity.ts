/**
 * Quantities that cross a room's door carry a brand; inside a formula the unit is in the name (`loss_dB`).
 * Every conversion of the program is in this folder.
 */
import { log10, pow } from '../numeric/elementary.ts';

declare const unit: unique symbol;
type Quantity<U extends string> = number & { readonly [unit]: U };

/** Whole microseconds since the drill began; never negative. */
export type SimMicros = Quantity<'us'>;
/** Cycles a second. */
export type Hertz = Quantity<'Hz'>;
/** Watts. */
export type Watt = Quantity<'W'>;
/** A ratio of powers in decibels. */
export type Decibel = Quantity<'dB'>;
/** Volts. */
export type Volt = Quantity<'V'>;
/** Amperes. */
export type Ampere = Quantity<'A'>;

function finite(x: number, what: string): number {
  if (!Number.isFinite(x)) throw new RangeError(`${what} must be finite, got ${x}`);
  return x;
}

/** Whole microseconds. Throws RangeError unless `n` is a safe integer from 0 up. */
export function micros(n: number): SimMicros {
  if (!Number.isSafeInteger(n) || n < 0) throw new RangeError(`SimMicros must be a whole number from 0, got ${n}`);
  return n as SimMicros;
}
/** Milliseconds to whole microseconds, rounded. */
export const fromMillis = (ms: number): SimMicros => micros(Math.round(ms * 1000));
/** Seconds to whole microseconds, rounded. */
export const fromSeconds = (s: number): SimMicros => micros(Math.round(s * 1e6));
/** Microseconds to seconds. */
export const toSeconds = (t: number): number => t / 1e6;
/** Frequency in hertz; any finite number (a difference may be negative). */
export const hertz = (x: number): Hertz => finite(x, 'Hertz') as Hertz;
/** Power in watts; any finite number from 0 up. */
export function watt(x: number): Watt {
  if (finite(x, 'Watt') < 0) throw new RangeError(`Watt must be from 0, got ${x}`);
  return x as Watt;
}
/** Decibels; any finite number. */
export const decibel = (x: number): Decibel => finite(x, 'Decibel') as Decibel;
/** Ratio of powers to decibels; -Infinity at 0. */
export const ratioToDb = (ratio: number): number => 10 * log10(ratio);
/** Decibels to a ratio of powers. */
export const dbToRatio = (dB: number): number => pow(10, dB / 10);
/** Decibels to a ratio of amplitudes. */
export const dbToAmplitude = (dB: number): number => pow(10, dB / 20);
