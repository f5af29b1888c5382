/**
 * A distant operator at the terminal unit: nets to a steady mark, then lets the printer run. Without a steady mark it takes
 * him longer, and the head of the message is lost.
 */
import type { Arrival, Ear } from '../signals.ts';
import { newPrintReader, type Printed, type PrintReader, readPrint } from './print-reader.ts';

/** An operator at work on one transmission. Plain data. */
export type Copier = {
  reader: PrintReader;
  /** Middle of his passband, Hz. */
  tuned_Hz: number;
  since_us: number;
  /** When the carrier was last there. */
  there_us: number;
  /** Lowest frequency it was seen at: mark, as a rule; null before it was seen. */
  lowest_Hz: number | null;
  /** Strongest that it was, ratio to the noise in dB-Hz: what is much weaker is another carrier under it. */
  strongest_dB: number;
  isNetted: boolean;
};
/** His channel and equipment; `slip_Hz` is how far off a true zero his hand stops. */
export type Unit = { ear: Ear; channel_Hz: number; shift_Hz: number; slip_Hz: number };

/** A carrier this far from the channel is in his passband. */
const NEAR_HZ = 600;
/** Weaker carriers than this are not noticed (at 50 Bd they would be 5 dB too weak to read), dB-Hz. */
const LEAST_DB = 22;
/** A carrier this much weaker than the one copied is not the same. */
const OTHER_DB = 15;
/** The line must stand still for so long to be netted to. */
const STEADY_US = 1_000_000;
/** A signal that never stands still is netted by the tuning display in so long. */
const HUNT_US = 6_000_000;
/** His hand is at the printer's switch so soon after the carrier goes. */
const HAND_US = 200_000;
/** He follows a sender this far off the channel; what is further off he takes for another's, or for the wrong sense. */
const FOLLOW_HZ = 150;

const isPrint = ({ emission }: Arrival): boolean => emission === 'F1B' || emission === 'A3E+F1B';

/** The print carrier in the passband now, if any. Voice and Morse he knows by ear. */
export const printCarrier = (ear: Ear, channel_Hz: number, now_us: number): Arrival | undefined =>
  ear.arrivals(now_us).find((a) => a.cn0_dB > LEAST_DB && Math.abs(a.f_Hz - channel_Hz) < NEAR_HZ && isPrint(a));

/** An operator who has just heard a carrier. */
export const newCopier = (now_us: number, tuned_Hz: number): Copier => ({
  reader: newPrintReader(now_us),
  tuned_Hz,
  since_us: now_us,
  there_us: now_us,
  lowest_Hz: null,
  strongest_dB: LEAST_DB,
  isNetted: false,
});

function net(c: Copier, mark_Hz: number, { channel_Hz, shift_Hz, slip_Hz }: Unit): void {
  const middle_Hz = mark_Hz + shift_Hz / 2;
  if (Math.abs(middle_Hz - channel_Hz) <= FOLLOW_HZ) c.tuned_Hz = middle_Hz + slip_Hz;
  c.isNetted = true;
}

/** The next block, up to now; gives what was printed. */
export function copyBlock(c: Copier, at: Unit, now_us: number): Printed[] {
  const found = printCarrier(at.ear, at.channel_Hz, now_us);
  const carrier = found && found.cn0_dB > c.strongest_dB - OTHER_DB ? found : undefined;
  const printed = readPrint(c.reader, at.ear, c.tuned_Hz, at.shift_Hz, now_us);
  if (carrier) {
    c.there_us = now_us;
    c.strongest_dB = Math.max(c.strongest_dB, carrier.cn0_dB);
    c.lowest_Hz = Math.min(c.lowest_Hz ?? carrier.f_Hz, carrier.f_Hz);
  }
  // Without a carrier he stops the printer: what it makes of the noise is nobody's text.
  if (c.isNetted) return now_us - c.there_us <= HAND_US ? printed : [];
  const isSteady = now_us - c.since_us >= STEADY_US && c.reader.edges.every((e) => e.t_us < now_us - STEADY_US);
  if (carrier && isSteady) net(c, carrier.f_Hz, at);
  else if (c.lowest_Hz !== null && now_us - c.since_us >= HUNT_US) net(c, c.lowest_Hz, at);
  return [];
}
