/**
 * A flooded lead-acid bank: open-circuit volts by charge, inner resistance, a slow polarisation and Peukert's rule.
 * Current counts positive when it leaves the bank. The state is plain data; every step of constant current is exact.
 */
import { exp, pow } from '../numeric/elementary.ts';

/** What a bank is made of. */
export type Bank = {
  /** Blocks of 12 V in series, 1 or 2. */
  readonly blocks: number;
  /** Ampere-hours at the rate that empties the bank in `hours`, at 25 C. */
  readonly capacity_Ah: number;
  /** Hours of the rated discharge, usually 20. */
  readonly hours: number;
  /** Peukert's exponent, 1 (none) to 1.4. */
  readonly peukert: number;
  /** Inner resistance with leads, ohms, full and at 25 C. */
  readonly resistance_ohm: number;
  /** Resistance of the slow polarisation, ohms, and its time constant in seconds (30 to 300, from memory). */
  readonly polarisation_ohm: number;
  readonly polarisation_s: number;
};

/** The station's bank, 24 V 120 Ah: 5 milliohm per 100 Ah block (from memory), scaled and doubled; Peukert 1.2 (1.1 to 1.3 is usual). */
export const STATION_BANK: Bank = {
  blocks: 2,
  capacity_Ah: 120,
  hours: 20,
  peukert: 1.2,
  resistance_ohm: 0.0083,
  polarisation_ohm: 0.008,
  polarisation_s: 120,
};

/** A bank at one instant. */
export type BatteryState = {
  /** Charge as a share of what the bank holds at this temperature, -0.1 (dead flat) to 1. */
  readonly charge: number;
  /** Volts of polarisation: positive after discharge. */
  readonly polarisation_V: number;
  /** Temperature of the acid, Celsius, -40 to 60. */
  readonly temperature_C: number;
};

/** Where the energy of a step went, joules; chemical = delivered + heat + stored to rounding. */
export type EnergyLedger = {
  /** Given up by the chemistry; negative while charging. */
  readonly chemical_J: number;
  /** Delivered at the terminals; negative while charging. */
  readonly delivered_J: number;
  /** Turned into heat and gas, from 0. */
  readonly heat_J: number;
  /** Gone into the polarisation; negative when it comes back. */
  readonly stored_J: number;
};

/** Share of a charging current that is kept; the rest makes gas (from memory, 0.9 to 0.95). */
export const CHARGE_EFFICIENCY = 0.93;
/** Least charge: past empty the volts collapse to zero here. */
export const CHARGE_FLOOR = -0.1;

/**
 * Open-circuit volts of a 12 V flooded block by charge, at 26.7 C: 12.65, 12.45, 12.24, 12.06, 11.89 V at 100, 75, 50, 25, 0 %
 * (the usual trade table, as printed by a battery maker). The collapse below 0 % is ours.
 */
const OPEN_CIRCUIT: readonly (readonly [charge: number, volts: number])[] = [
  [CHARGE_FLOOR, 0],
  [0, 11.89],
  [0.25, 12.06],
  [0.5, 12.24],
  [0.75, 12.45],
  [1, 12.65],
];

function checkState({ charge, polarisation_V, temperature_C }: BatteryState): void {
  if (
    !(
      charge >= CHARGE_FLOOR &&
      charge <= 1 &&
      temperature_C >= -40 &&
      temperature_C <= 60 &&
      Number.isFinite(polarisation_V)
    )
  )
    throw new RangeError(`no battery with charge ${charge}, polarisation ${polarisation_V} V, ${temperature_C} C`);
}

/** Open-circuit volts of a bank at a charge from -0.1 to 1; straight lines between the table's points, clamped outside. */
export function openCircuitVolts(bank: Bank, charge: number): number {
  const at = Math.max(CHARGE_FLOOR, Math.min(1, charge));
  let next = 0;
  while (OPEN_CIRCUIT[next]![0] < at) next++;
  if (next === 0) return bank.blocks * OPEN_CIRCUIT[0]![1];
  const [c0, v0] = OPEN_CIRCUIT[next - 1]!;
  const [c1, v1] = OPEN_CIRCUIT[next]!;
  return bank.blocks * (v0 + ((v1 - v0) * (at - c0)) / (c1 - c0));
}

/** Integral of the open-circuit volts over charge from the floor up to `charge`; exact because the table is straight lines. */
function voltsTimesCharge(bank: Bank, charge: number): number {
  let sum = 0;
  for (let i = 1; i < OPEN_CIRCUIT.length; i++) {
    const from = OPEN_CIRCUIT[i - 1]![0];
    const to = Math.min(charge, OPEN_CIRCUIT[i]![0]);
    if (to > from) sum += ((to - from) * (openCircuitVolts(bank, from) + openCircuitVolts(bank, to))) / 2;
  }
  return sum;
}

/** Coulombs that the bank holds at a temperature: 1 % less for each degree below 25 C, not under 30 % (from memory). */
export function chargeHeld_As(bank: Bank, temperature_C: number): number {
  const share = Math.max(0.3, Math.min(1, 1 - 0.01 * (25 - temperature_C)));
  return bank.capacity_Ah * 3600 * share;
}

/** Cold doubles the resistance by -18 C (from memory); never under half. */
const coldFactor = (temperature_C: number): number => Math.max(0.5, 1 + (25 - temperature_C) / 43);

/** Near full a bank takes less and less current: at 28.5 V about one percent of its capacity (common practice). Ohms x ampere-hours for 24 V at full charge. */
const FULL_OHM_AH = 300;
const TAPER_FROM = 0.7;

/** How fast the resistance rises as the bank empties: 1.8 times at 20 % charge (1.5 to 2 from memory). */
const EMPTY_RISE = 1;

/** Inner resistance in ohms, polarisation left out; larger when empty and cold, and while charging it grows steeply toward full. */
export function innerResistance_ohm(bank: Bank, state: BatteryState, charging = false): number {
  const ohm = bank.resistance_ohm * (1 + EMPTY_RISE * (1 - state.charge)) * coldFactor(state.temperature_C);
  if (!charging) return ohm;
  const x = taper(state.charge);
  return ohm + ((FULL_OHM_AH * bank.blocks) / 2 / bank.capacity_Ah) * x * x * x * x;
}

/** Volts at the terminals with `current_A` leaving (negative: charging) at this instant; may fall under 0 with an impossible current. */
export function terminalVolts(bank: Bank, state: BatteryState, current_A: number): number {
  checkState(state);
  const ohm = innerResistance_ohm(bank, state, current_A < 0);
  return openCircuitVolts(bank, state.charge) - state.polarisation_V - current_A * ohm;
}

/** Charge current that the chemistry feels: a fast discharge empties the bank sooner (Peukert); a slow one is not rewarded; charging loses a part to gas. */
function chemicalCurrent_A(bank: Bank, current_A: number): number {
  if (current_A <= 0) return current_A * CHARGE_EFFICIENCY;
  return current_A * pow(Math.max(1, (current_A * bank.hours) / bank.capacity_Ah), bank.peukert - 1);
}

/** How far into the taper a charge is: 0 up to 70 %, then straight to 1 at full. */
const taper = (charge: number): number => Math.max(0, (charge - TAPER_FROM) / (1 - TAPER_FROM));

/** Mean over a stretch of charge of the fourth power of the taper, by its integral; only the part above the knee counts. */
function taperMean(from: number, to: number): number {
  const [a, b] = [taper(from), taper(to)];
  const low = Math.min(from, to);
  const part = low >= TAPER_FROM || from === to ? 1 : (Math.abs(b - a) * (1 - TAPER_FROM)) / Math.abs(to - from);
  return (part * (a * a * a * a + a * a * a * b + a * a * b * b + a * b * b * b + b * b * b * b)) / 5;
}

/** Mean inner resistance while the charge runs in a straight line from one value to another. */
function meanResistance_ohm(bank: Bank, state: BatteryState, to: number, charging: boolean): number {
  const middle = { ...state, charge: (state.charge + to) / 2 };
  const ohm = innerResistance_ohm(bank, middle, false);
  if (!charging) return ohm;
  return ohm + ((FULL_OHM_AH * bank.blocks) / 2 / bank.capacity_Ah) * taperMean(state.charge, to);
}

type Stepped = { readonly state: BatteryState; readonly ledger: EnergyLedger };

/** A stretch during which the charge runs straight, or stands at an end. */
function stretch(bank: Bank, state: BatteryState, current_A: number, chemical_A: number, dt_s: number): Stepped {
  const size_C = chargeHeld_As(bank, state.temperature_C);
  const charge = Math.max(CHARGE_FLOOR, Math.min(1, state.charge - (chemical_A * dt_s) / size_C));
  const steady_V = current_A * bank.polarisation_ohm;
  const fade = exp(-dt_s / bank.polarisation_s);
  const tau = bank.polarisation_s;
  const away_V = state.polarisation_V - steady_V;
  const polarisation_V = steady_V + away_V * fade;
  // Integrals over the stretch of the polarisation volts and of their square.
  const volts = steady_V * dt_s + away_V * tau * (1 - fade);
  const squares = steady_V * (2 * volts - steady_V * dt_s) + (away_V * away_V * tau * (1 - fade * fade)) / 2;
  const chemical_J = size_C * (voltsTimesCharge(bank, state.charge) - voltsTimesCharge(bank, charge));
  const source_J =
    charge === state.charge ? openCircuitVolts(bank, charge) * current_A * dt_s : (chemical_J * current_A) / chemical_A;
  const ohm = meanResistance_ohm(bank, state, charge, current_A < 0);
  const ohmic_J = current_A * current_A * ohm * dt_s;
  const farad = tau / bank.polarisation_ohm;
  return {
    state: { ...state, charge, polarisation_V },
    ledger: {
      chemical_J,
      delivered_J: source_J - ohmic_J - current_A * volts,
      heat_J: chemical_J - source_J + ohmic_J + squares / bank.polarisation_ohm,
      stored_J: (farad * (polarisation_V * polarisation_V - state.polarisation_V * state.polarisation_V)) / 2,
    },
  };
}

/**
 * The bank after `dt_s` seconds (from 0) of constant `current_A`, and where the energy went. At full a charging current makes
 * only gas; at the floor nothing more is given, so a caller must cut the load first. Throws RangeError on unbounded numbers.
 */
export function stepBattery(bank: Bank, state: BatteryState, current_A: number, dt_s: number): Stepped {
  checkState(state);
  if (!(Number.isFinite(current_A) && dt_s >= 0 && Number.isFinite(dt_s)))
    throw new RangeError(`no battery step of ${current_A} A for ${dt_s} s`);
  const chemical_A = chemicalCurrent_A(bank, current_A);
  const room = chemical_A > 0 ? state.charge - CHARGE_FLOOR : 1 - state.charge;
  const until_s = chemical_A === 0 ? dt_s : (room * chargeHeld_As(bank, state.temperature_C)) / Math.abs(chemical_A);
  if (until_s >= dt_s) return stretch(bank, state, current_A, chemical_A, dt_s);
  const first = stretch(bank, state, current_A, chemical_A, until_s);
  const end = { ...first.state, charge: chemical_A > 0 ? CHARGE_FLOOR : 1 };
  const second = stretch(bank, end, current_A, 0, dt_s - until_s);
  const sum = (key: keyof EnergyLedger) => first.ledger[key] + second.ledger[key];
  return {
    state: second.state,
    ledger: {
      chemical_J: sum('chemical_J'),
      delivered_J: sum('delivered_J'),
      heat_J: sum('heat_J'),
      stored_J: sum('stored_J'),
    },
  };
}

/**
 * Hours that a bank can feed `load_A` (above 0) with the engine stopped, until it is empty or its volts fall under `cutoff_V`
 * (0: until empty). With a full bank and no cut-off this is Peukert's t = H (C/(I H))^k.
 */
export function hoursOnBattery(bank: Bank, state: BatteryState, load_A: number, cutoff_V = 0): number {
  checkState(state);
  if (!(load_A > 0 && Number.isFinite(load_A)))
    throw new RangeError(`hours on battery need a load above 0, got ${load_A} A`);
  const settled = { ...state, polarisation_V: load_A * bank.polarisation_ohm };
  const low = (charge: number) => terminalVolts(bank, { ...settled, charge }, load_A) < cutoff_V;
  const start = Math.max(0, state.charge);
  if (low(start)) return 0;
  // Volts fall with charge, so the place where they cross is found by halving.
  let [empty, full] = [0, start];
  if (low(0)) {
    for (let i = 0; i < 50; i++) {
      const middle = (empty + full) / 2;
      if (low(middle)) empty = middle;
      else full = middle;
    }
  } else full = 0;
  const coulombs = (start - full) * chargeHeld_As(bank, state.temperature_C);
  return coulombs / chemicalCurrent_A(bank, load_A) / 3600;
}
