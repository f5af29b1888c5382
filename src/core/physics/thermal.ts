/**
 * One lump of metal that is heated, and cooled by still air and by a fan through a filter: first order, so temperature is a
 * closed form of time (Newton's law of cooling).
 */
import { exp, ln } from '../numeric/elementary.ts';

/** A body: heat it holds in joules per kelvin, and what carries heat away in watts per kelvin, with still air and on top of it with full air flow. */
export type ThermalBody = {
  readonly capacity_J_K: number;
  readonly still_W_K: number;
  readonly air_W_K: number;
};

/** What the air must pass. */
export type Cooling = {
  readonly fan: boolean;
  readonly filter: 'fitted' | 'missing';
  /** Dirt in the filter, 0 clean to 1 blocked. */
  readonly dirt: number;
  /** Dust inside, that came while the filter was missing, 0 none to 1 thick; cleaning the filter does not remove it. */
  readonly dust: number;
};

/** The conditions of a stretch of time. */
export type Heating = { readonly ambient_C: number; readonly power_W: number; readonly airFlow: number };

/** Ours: a blocked filter stops this share of the air, without one the duct stands open and so much of the air still passes the body, thick dust inside spoils this share. */
const BLOCKED_SHARE = 0.9;
const OPEN_DUCT_SHARE = 0.33;
const DUST_SHARE = 0.6;
/** Ours: hours of fan until a clean filter is blocked in dusty air, and until the inside is thick with dust without one. */
const HOURS_TO_BLOCK = 36;
const HOURS_TO_DUST = 8;

const share = (x: number): number => Math.max(0, Math.min(1, x));

/** Air that reaches the body as a share of full flow, 0 to 1; none without the fan. Dirt and dust outside 0 to 1 count as the end. */
export function airFlow({ fan, filter, dirt, dust }: Cooling): number {
  if (!fan) return 0;
  const through = filter === 'missing' ? OPEN_DUCT_SHARE : 1 - BLOCKED_SHARE * share(dirt);
  return through * (1 - DUST_SHARE * share(dust));
}

/** Filter and inside after `hours` (from 0) of fan in air whose dustiness runs from 0 (clean) to 1 (dusty track). */
export function coolingAfter(cooling: Cooling, hours: number, dustiness: number): Cooling {
  if (!(hours >= 0 && Number.isFinite(hours))) throw new RangeError(`hours of cooling must be from 0, got ${hours}`);
  if (!cooling.fan) return cooling;
  const amount = hours * share(dustiness);
  if (cooling.filter === 'missing') return { ...cooling, dust: share(cooling.dust + amount / HOURS_TO_DUST) };
  return { ...cooling, dirt: share(cooling.dirt + amount / HOURS_TO_BLOCK) };
}

function conductance_W_K(body: ThermalBody, { ambient_C, power_W, airFlow: air }: Heating): number {
  const total = body.still_W_K + body.air_W_K * air;
  if (!(total > 0 && body.capacity_J_K > 0 && Number.isFinite(total + ambient_C + power_W)))
    throw new RangeError(`no cooling with ${total} W/K, ${body.capacity_J_K} J/K, ${ambient_C} C, ${power_W} W`);
  return total;
}

/** Temperature in Celsius that a body tends to. */
export const settledTemperature_C = (body: ThermalBody, heating: Heating): number =>
  heating.ambient_C + heating.power_W / conductance_W_K(body, heating);

/** Time constant in seconds. */
export const thermalTau_s = (body: ThermalBody, heating: Heating): number =>
  body.capacity_J_K / conductance_W_K(body, heating);

/** Temperature in Celsius `after_s` seconds (from 0) from `start_C` under constant conditions. */
export function temperatureAfter_C(body: ThermalBody, heating: Heating, start_C: number, after_s: number): number {
  if (!(after_s >= 0 && Number.isFinite(start_C)))
    throw new RangeError(`no temperature ${after_s} s after ${start_C} C`);
  const settled = settledTemperature_C(body, heating);
  return settled + (start_C - settled) * exp(-after_s / thermalTau_s(body, heating));
}

/** Seconds until a body passes `target_C` from `start_C`, going either way: 0 when it is there, Infinity when it never gets there. */
export function secondsUntil_C(body: ThermalBody, heating: Heating, start_C: number, target_C: number): number {
  const settled = settledTemperature_C(body, heating);
  if (start_C === target_C) return 0;
  const left = (target_C - settled) / (start_C - settled);
  return left > 0 && left < 1 ? -thermalTau_s(body, heating) * ln(left) : Number.POSITIVE_INFINITY;
}
