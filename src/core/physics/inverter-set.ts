/**
 * A rotary converter: a motor on the DC bus that turns a 230 V 50 Hz generator for the printers. It is described by the
 * seconds since its start, null at rest, so that everything is a closed form of time.
 */
import type { BusLoad } from './alternator.ts';

/** Rated output, watts. */
export const INVERTER_RATED_W = 350;
/** Seconds from start to full speed. */
export const INVERTER_RUN_UP_S = 6;
/** It drops out when the bus falls under this, volts. */
export const INVERTER_DROP_OUT_V = 21;
/** While it runs up it draws this many times its full-load current (3 to 6 times from memory). */
export const INVERTER_START_FACTOR = 4;

const NOMINAL_BUS_V = 28.5;
const MIDDLE_BUS_V = 26.5;
/**
 * Input = idle + slope x output + square x output^2. Rotary sets turn 45 to 60 % of their input into output at full load and
 * idle on 25 to 40 % of it (from memory): here 55 % and 30 %.
 */
const IDLE_W = 190;
const SLOPE = 1.17;
const SQUARE_PER_W = 0.000302;

/** Handles of the set, each -1 to 1: field (volts, ten percent each way) and governor (speed, five percent). */
export type InverterTrim = { readonly volts: number; readonly speed: number };
/** What its two meters show. */
export type InverterOutput = { readonly volts_V: number; readonly frequency_Hz: number };

const CENTRED: InverterTrim = { volts: 0, speed: 0 };
const FIELD_SHARE = 0.1;
const GOVERNOR_SHARE = 0.05;

function checkOutput(ac_W: number): void {
  if (!(ac_W >= 0 && Number.isFinite(ac_W))) throw new RangeError(`inverter output must be from 0 W, got ${ac_W}`);
}

/** DC watts that feed an output of `ac_W` (from 0; over 350 it overheats) at full speed. */
export function inverterInput_W(ac_W: number): number {
  checkOutput(ac_W);
  return IDLE_W + SLOPE * ac_W + SQUARE_PER_W * ac_W * ac_W;
}

/** Share of the input that comes out, 0 at idle to 0.55 at full load. */
export const inverterEfficiency = (ac_W: number): number => ac_W / inverterInput_W(ac_W);

/** Ohms of the motor while it runs up: four times the full-load current on a 28.5 V bus, less when the bus sags. */
export const INVERTER_START_OHM =
  (NOMINAL_BUS_V * NOMINAL_BUS_V) / (INVERTER_START_FACTOR * inverterInput_W(INVERTER_RATED_W));

/** What it draws from the bus, `running_s` seconds after its start; null at rest. */
export function inverterLoad(running_s: number | null, ac_W: number): BusLoad | null {
  checkOutput(ac_W);
  if (running_s === null) return null;
  if (running_s < INVERTER_RUN_UP_S) return { kind: 'resistance', resistance_ohm: INVERTER_START_OHM };
  return { kind: 'power', power_W: inverterInput_W(ac_W) };
}

/** Heat left in the set, watts; what goes in less what comes out. */
export function inverterHeat_W(running_s: number | null, ac_W: number, bus_V: number): number {
  if (running_s === null) return 0;
  return running_s < INVERTER_RUN_UP_S ? (bus_V * bus_V) / INVERTER_START_OHM : inverterInput_W(ac_W) - ac_W;
}

/** Whether the set stays in on a bus of these volts. */
export const inverterHolds = (bus_V: number): boolean => bus_V >= INVERTER_DROP_OUT_V;

/** Share of full speed while it runs up, 0 to 1: quick at first, slow at last. */
function speedShare(running_s: number): number {
  const left = Math.max(0, 1 - Math.max(0, running_s) / INVERTER_RUN_UP_S);
  return 1 - left * left;
}

/**
 * Volts and frequency of the output, 0 at rest. Both fall with load and follow the bus: on 26.5 V and half load with centred
 * handles they are 230 V and 50 Hz. Throws RangeError on a handle outside -1 to 1.
 */
export function inverterOutput(
  running_s: number | null,
  ac_W: number,
  bus_V: number,
  trim: InverterTrim = CENTRED,
): InverterOutput {
  checkOutput(ac_W);
  if (!(Math.abs(trim.volts) <= 1 && Math.abs(trim.speed) <= 1 && bus_V >= 0))
    throw new RangeError(
      `inverter handles must be -1 to 1 and bus from 0, got ${trim.volts}, ${trim.speed}, ${bus_V} V`,
    );
  if (running_s === null) return { volts_V: 0, frequency_Hz: 0 };
  const share = speedShare(running_s);
  const slack = 0.5 - ac_W / INVERTER_RATED_W;
  const bus = bus_V / MIDDLE_BUS_V - 1;
  const volts = 230 * (1 + 0.06 * slack) * (1 + 0.5 * bus) * (1 + FIELD_SHARE * trim.volts);
  const frequency = 50 * (1 + 0.03 * slack) * (1 + 0.3 * bus) * (1 + GOVERNOR_SHARE * trim.speed);
  return { volts_V: Math.max(0, volts * share), frequency_Hz: Math.max(0, frequency * share) };
}
