/**
 * The DC bus: an alternator with a regulator, a bank that may be isolated, and loads. One call finds the volts at which
 * what comes in equals what goes out.
 */
import { exp } from '../numeric/elementary.ts';
import { type Bank, type BatteryState, innerResistance_ohm, openCircuitVolts } from './battery.ts';

/** Most that the alternator gives at any speed, amperes. */
export const ALTERNATOR_MAX_A = 90;
/** Engine speed in revolutions a minute below which it gives nothing, and the speed that sets how soon it reaches its most. */
const CUT_IN_RPM = 500;
const RISE_RPM = 500;
/** Regulated bus at 25 C, and its change with temperature for twelve cells: 5 mV a cell and degree (from memory). */
const REGULATED_V = 28.5;
const REGULATED_V_PER_C = -0.06;
/** The regulator never goes beyond these. */
const REGULATED_MIN_V = 27;
const REGULATED_MAX_V = 29.5;
/** Under this a converter has dropped out of regulation and draws like a resistance. */
export const CONSTANT_POWER_MIN_V = 18;

/** Amperes that the alternator can give at an engine speed (revolutions a minute, from 0): I_max (1 - exp(-(n - n0)/n1)), from memory. */
export function alternatorLimit_A(engine_rpm: number): number {
  if (!(engine_rpm >= 0)) throw new RangeError(`engine speed must be from 0, got ${engine_rpm} rpm`);
  return engine_rpm <= CUT_IN_RPM ? 0 : ALTERNATOR_MAX_A * (1 - exp(-(engine_rpm - CUT_IN_RPM) / RISE_RPM));
}

/** Volts that the regulator holds at an air temperature in Celsius: 28.5 at 25, more in the cold up to 29.5, less in the heat down to 27. */
export function regulatedVolts(temperature_C: number): number {
  const wish = REGULATED_V + REGULATED_V_PER_C * (temperature_C - 25);
  return Math.max(REGULATED_MIN_V, Math.min(REGULATED_MAX_V, wish));
}

/** What hangs on the bus: amperes, watts or ohms, each above or from 0. A load in watts draws like a resistance under 18 V. */
export type BusLoad =
  | { readonly kind: 'current'; readonly current_A: number }
  | { readonly kind: 'power'; readonly power_W: number }
  | { readonly kind: 'resistance'; readonly resistance_ohm: number };

/** What feeds the bus; null is a source that is disconnected or at rest. */
export type BusSources = {
  readonly battery: { readonly bank: Bank; readonly state: BatteryState } | null;
  readonly alternator: { readonly limit_A: number; readonly setpoint_V: number } | null;
};

/** The bus at one instant. */
export type Bus = {
  /** Volts of the bus, from 0. */
  readonly bus_V: number;
  /** Amperes out of the bank; negative while it charges. */
  readonly battery_A: number;
  /** Amperes out of the alternator, 0 to its limit. */
  readonly alternator_A: number;
  /** Amperes of each load, in the order given; they sum to the two sources. */
  readonly loads_A: readonly number[];
};

function checkLoad(load: BusLoad): void {
  const value = load.kind === 'current' ? load.current_A : load.kind === 'power' ? load.power_W : load.resistance_ohm;
  if (!(value >= 0 && Number.isFinite(value) && (load.kind !== 'resistance' || value > 0)))
    throw new RangeError(`no load of ${value} (${load.kind})`);
}

/** Amperes of a load at a bus voltage; a load in amperes fades below 1 V, so that an empty bus draws nothing. */
export function loadCurrent_A(load: BusLoad, bus_V: number): number {
  if (load.kind === 'resistance') return bus_V / load.resistance_ohm;
  if (load.kind === 'current') return load.current_A * Math.min(1, bus_V);
  const low = CONSTANT_POWER_MIN_V;
  return bus_V >= low ? load.power_W / bus_V : (load.power_W * bus_V) / (low * low);
}

/** Amperes out of a bank as a function of the volts that its terminals are held at. */
function batteryCurrent_A({ battery }: BusSources): (bus_V: number) => number {
  if (!battery) return () => 0;
  const { bank, state } = battery;
  const still_V = openCircuitVolts(bank, state.charge) - state.polarisation_V;
  const giving_ohm = innerResistance_ohm(bank, state, false);
  const taking_ohm = innerResistance_ohm(bank, state, true);
  return (bus_V) => {
    const gap_V = still_V - bus_V;
    return gap_V / (gap_V < 0 ? taking_ohm : giving_ohm);
  };
}

/** Volts between 0 and `top_V` where the surplus of current changes sign, by a fixed number of halvings. */
function balance(surplus_A: (bus_V: number) => number, top_V: number): number {
  let [low, high] = [0, top_V];
  for (let i = 0; i < 64; i++) {
    const middle = (low + high) / 2;
    if (surplus_A(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Solves the bus. Within its limit the alternator holds its setpoint and charges the bank; beyond it the bus falls until the
 * bank gives the rest. Without any source the bus is dead. What leaves the bus equals what enters, whatever the volts.
 */
export function solveBus(sources: BusSources, loads: readonly BusLoad[]): Bus {
  loads.forEach(checkLoad);
  const given_A = batteryCurrent_A(sources);
  const drawn = (bus_V: number) => {
    let sum = 0;
    for (const load of loads) sum += loadCurrent_A(load, bus_V);
    return sum;
  };
  const { limit_A, setpoint_V } = sources.alternator ?? { limit_A: 0, setpoint_V: 0 };
  const wanted_A = limit_A > 0 ? drawn(setpoint_V) - given_A(setpoint_V) : 0;
  const holds = limit_A > 0 && wanted_A >= 0 && wanted_A <= limit_A;
  const flat_A = wanted_A > limit_A ? limit_A : 0;
  const rest_V = sources.battery ? openCircuitVolts(sources.battery.bank, sources.battery.state.charge) : 0;
  const slack_V = Math.abs(sources.battery?.state.polarisation_V ?? 0);
  // With the alternator at its limit the bus stands under the setpoint, with none under the bank's rest.
  const top_V = flat_A > 0 ? setpoint_V : rest_V + slack_V;
  const bus_V = holds ? setpoint_V : balance((v) => given_A(v) + flat_A - drawn(v), top_V);
  const loads_A = loads.map((load) => loadCurrent_A(load, bus_V));
  const total_A = loads_A.reduce((sum, amps) => sum + amps, 0);
  // One source is the exact remainder, so current is conserved to rounding at any residual of the search.
  if (!sources.battery) return { bus_V, battery_A: 0, alternator_A: total_A, loads_A };
  const alternator_A = holds ? wanted_A : flat_A;
  return { bus_V, battery_A: total_A - alternator_A, alternator_A, loads_A };
}
