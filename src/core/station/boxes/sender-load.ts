/** What the sender takes, offers, and turns into heat. */
import { exp } from '../../numeric/elementary.ts';
import { loadCurrent_A } from '../../physics/alternator.ts';
import { airFlow, coolingAfter, type ThermalBody, temperatureAfter_C } from '../../physics/thermal.ts';
import type { Wires } from '../wires.ts';
import { AMBIENT_C, busy, lit, type SenderState } from './sender-state.ts';

const FULL_W = 120;
const LOW_W = 15;
/** The matcher's own carrier. */
const SEEK_W = 5;
/** Full power down to these volts, less by their square below, and none under the second. */
const STABILISED_V = 24;
/** Under this bus voltage no high tension stands. */
export const DROP_OUT_V = 19;
/** Output lost to each switching off of hot valves. */
const HURT = 0.05;
/** Amperes of the hot heaters at 28.5 V; how many times more they add when cold, and how fast that fades (ours). */
const HEATER_A = 5;
const HEATER_INRUSH = 10;
const HEATER_TAU_US = 6e6;
const DRIVE_W = 35;
const IDLE_W = 45;
const MOTORS_W = 50;
const FAN_W = 40;
/** Share of the input of the output stage that becomes carrier (class C with modulator, ours). */
const EFFICIENCY = 0.45;
/** What heaters and high tension at rest put into the output stage. */
const STANDBY_HEAT_W = 60;

/** The output stage (ours): 120 W into a good match through a clean filter settle at 0.7 of what trips it. */
const STAGE: ThermalBody = { capacity_J_K: 240, still_W_K: 0.6, air_W_K: 1.36 };
const TRIP_C = 171;
/** How dusty the air is that the fan draws, 0 to 1. */
const DUSTINESS = 0.5;

/** Full output from 24 V up, by the square of the volts below, nothing under 19 V. */
function supplyShare(bus_V: number): number {
  if (bus_V < DROP_OUT_V) return 0;
  return bus_V >= STABILISED_V ? 1 : (bus_V / STABILISED_V) * (bus_V / STABILISED_V);
}

/** What the output stage offers to 50 ohm when keyed, W. */
export function offered_W(s: SenderState, w: Wires): number {
  const set_W = s.seek ? SEEK_W : s.set['power'] === 'full' ? FULL_W : LOW_W;
  return set_W * supplyShare(w.bus_V) * Math.max(0.5, 1 - HURT * s.hurts);
}

/** Heaters are cold wire at first and draw several times their current, falling as they warm; the rest is constant power. */
export function draw(s: SenderState, w: Wires, now_us: number): void {
  const heaters = lit(s, w);
  const cold = 1 + HEATER_INRUSH * exp(-Math.max(0, now_us - s.heaters_us) / HEATER_TAU_US);
  w.ohmic_S.sender = heaters ? (HEATER_A * cold) / 28.5 : 0;
  let watts = s.set['fan'] === true && w.live.sender ? FAN_W : 0;
  if (heaters && s.driven_us !== null) watts += DRIVE_W;
  if (heaters && s.tension) watts += IDLE_W;
  if (heaters && busy(s)) watts += MOTORS_W;
  watts += w.forward_W / EFFICIENCY;
  w.draw_A.sender =
    w.bus_V > 0 ? w.ohmic_S.sender * w.bus_V + loadCurrent_A({ kind: 'power', power_W: watts }, w.bus_V) : 0;
}

/** Heat of the output stage: 0 cold, 1 trips. */
export const heatShare = (s: SenderState): number => Math.max(0, (s.stage_C - AMBIENT_C) / (TRIP_C - AMBIENT_C));

/** The output stage after `dt_s` seconds of the present powers and air. */
export function warm(s: SenderState, w: Wires, dt_s: number): void {
  const fan = s.set['fan'] === true && w.live.sender;
  const filter = s.set['filter'] === true ? 'fitted' : 'missing';
  s.cooling = coolingAfter({ ...s.cooling, fan, filter }, dt_s / 3600, DUSTINESS);
  const standby_W = lit(s, w) ? STANDBY_HEAT_W : 0;
  const power_W = standby_W + w.forward_W / EFFICIENCY - (w.forward_W - w.reflected_W);
  s.stage_C = temperatureAfter_C(
    STAGE,
    { ambient_C: AMBIENT_C, power_W, airFlow: airFlow(s.cooling) },
    s.stage_C,
    dt_s,
  );
}
