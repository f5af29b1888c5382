/** The sender from one instant to the next: heaters, drive, motors, carrier, relay, trips. */
import { MATCH_TICK_MS, matchAt } from '../../physics/match-motors.ts';
import { servoStep } from '../../physics/match-servo.ts';
import type { Edge, Emission } from '../../signals.ts';
import type { Bench } from '../box.ts';
import { follow } from '../follow.ts';
import type { Wires } from '../wires.ts';
import { carrierPlan, emissionOnAir, type Keying, replanSteps, replanWords } from './sender-air.ts';
import { SETTINGS } from './sender-controls.ts';
import { DROP_OUT_V, offered_W } from './sender-load.ts';
import { readMatch, travelTime_us } from './sender-match.ts';
import { dials, kHzNow, lit, RELAY_US, radiating, type SenderState, tuningNow } from './sender-state.ts';

/** Drive stages after the lever leaves off and heat. */
const DRIVE_US = 3e6;
const COOLING_US = 30e6;
const TRIP_BACK_W = 25;
const TRIP_US = 3e6;
/** How long the matcher's servo runs on between two wake-ups. */
const SEEK_US = 100_000;

/** Heaters follow lever and supply; valves that still hold the heat of high tension are hurt by going cold at once. */
export function heat(s: SenderState, w: Wires, bench: Bench): void {
  if (lit(s, w)) {
    if (s.mode === 'off' || s.mode === 'hotOff') bench.fire('HEAT');
    return;
  }
  if (s.mode === 'off' || s.mode === 'hotOff') return;
  const sudden = s.tension || (s.tensionEnd_us !== null && bench.now_us - s.tensionEnd_us < COOLING_US);
  if (sudden) s.hurts += 1;
  bench.fire(sudden ? 'HOT_OFF' : 'OFF');
}

/** Drive and high tension, and from them whether the sender could radiate. */
export function standsReady(s: SenderState, w: Wires, now_us: number): void {
  const drive = lit(s, w) && s.set['readiness'] !== 'heat';
  s.driven_us = drive ? (s.driven_us ?? now_us) : null;
  const tension = s.mode === 'hot' && s.set['readiness'] === 'send' && lit(s, w);
  if (s.tension && !tension) s.tensionEnd_us = now_us;
  s.tension = tension;
  const driven = s.driven_us !== null && now_us - s.driven_us >= DRIVE_US;
  w.armed = tension && driven && w.bus_V >= DROP_OUT_V && s.travel === null;
}

/** Why the sender could not radiate now, in words. */
export function unready(s: SenderState, w: Wires): string {
  if (s.mode !== 'hot') return 'the valves are not hot';
  if (s.set['readiness'] !== 'send') return 'readiness is not at send';
  if (w.bus_V < DROP_OUT_V) return 'the bus is too low';
  return 'the drive comes up three seconds after readiness has left heat';
}

/** Motors begin what a stored setting wants, and stop where they are when the supply goes. */
export function drive(s: SenderState, w: Wires, bench: Bench): void {
  const now_us = bench.now_us;
  if (s.travel && !lit(s, w)) {
    halt(s, bench);
    s.wanted = SETTINGS.indexOf(s.set['setting'] as never);
  }
  if (s.wanted === null || !lit(s, w)) return;
  const to = s.settings[s.wanted] ?? null;
  s.wanted = null;
  if (to === null) return;
  halt(s, bench);
  s.travel = { from_us: now_us, from: s.at, to };
  bench.after(travelTime_us(s.travel), 'arrived');
}

/** Motors and servo stop where they are. */
export function halt(s: SenderState, bench: Bench): void {
  s.at = tuningNow(s, bench.now_us);
  s.travel = null;
  s.seek = null;
  bench.forget((e) => e === 'arrived' || e === 'seek');
  dials(s, bench.now_us);
}

function keying(s: SenderState, w: Wires): Keying {
  return {
    armed: w.armed,
    emission: s.set['emission'] as Emission,
    lever: w.lever,
    talking: w.talking,
    handKey: w.handKey,
    keyed: w.keyed,
    shift_Hz: w.shift_Hz,
    markLow: w.markLow,
    bareUntil_us: s.bareUntil_us,
    seeking: s.seek !== null,
  };
}

function power(s: SenderState, w: Wires, now_us: number): number {
  const up = radiating(s, now_us);
  if (up) s.reading = readMatch(tuningNow(s, now_us), w.whip, s.reading);
  const offer_W = up ? offered_W(s, w) : 0;
  w.forward_W = offer_W;
  w.reflected_W = up ? offer_W * (s.reading?.back ?? 1) : 0;
  w.radiated_W = up ? Math.round(offer_W * (s.reading?.radiated ?? 0) * 1e4) / 1e4 : 0;
  if (up) s.lastBack_W = w.reflected_W;
  // A planned carrier radiates what the present match gives.
  if (!up) s.reading = plans(s, now_us) ? readMatch(tuningNow(s, now_us), w.whip, s.reading) : s.reading;
  return up ? w.radiated_W : Math.round(offered_W(s, w) * (s.reading?.radiated ?? 0) * 1e4) / 1e4;
}

const plans = (s: SenderState, now_us: number): boolean => s.carrier.some((e) => e.mark && e.t_us > now_us);

function lastOff_us(s: SenderState, now_us: number): number {
  for (let i = s.carrier.length - 1; i >= 0; i--) {
    const e = s.carrier[i] as Edge;
    if (e.t_us <= now_us) return e.mark ? now_us : e.t_us;
  }
  return Number.NEGATIVE_INFINITY;
}

/** The carrier from now on, its powers, words and the relay. */
export function radiate(s: SenderState, w: Wires, bench: Bench): void {
  const now_us = bench.now_us;
  const k = keying(s, w);
  const plan = carrierPlan(k, now_us);
  s.carrier = follow(s.carrier, now_us, plan);
  w.sender_Hz = Math.round(kHzNow(s, now_us) * 1000);
  const power_W = power(s, w, now_us);
  w.radiation.emission = emissionOnAir(k);
  replanSteps(w.radiation.steps, plan, k, w.sender_Hz, power_W, now_us);
  w.radiation.words = replanWords(w.radiation.words, w.words, w.radiation.emission, s.carrier, now_us);
  w.relay = radiating(s, now_us) || now_us - lastOff_us(s, now_us) < RELAY_US ? 'sender' : 'receiver';
}

/** Too much power back without a break for three seconds trips the sender. */
export function guardValves(s: SenderState, w: Wires, bench: Bench): void {
  const tooMuch = w.reflected_W > TRIP_BACK_W;
  if (tooMuch && s.back_us === null) {
    s.back_us = bench.now_us;
    bench.after(TRIP_US, 'back');
  } else if (!tooMuch && s.back_us !== null) {
    s.back_us = null;
    bench.forget((e) => e === 'back');
  }
}

/** Ask to be woken when carrier, relay or drive will next change by themselves. */
export function wake(s: SenderState, bench: Bench): void {
  const now_us = bench.now_us;
  const release_us = lastOff_us(s, now_us) + RELAY_US;
  const driven_us = (s.driven_us ?? now_us - DRIVE_US) + DRIVE_US;
  let next = Number.POSITIVE_INFINITY;
  for (const e of s.carrier) if (e.t_us > now_us) next = Math.min(next, e.t_us);
  if (!radiating(s, now_us) && release_us > now_us) next = Math.min(next, release_us);
  if (driven_us > now_us) next = Math.min(next, driven_us);
  const wish = Number.isFinite(next) ? next : null;
  if (wish === s.wake_us) return;
  if (s.wake_us !== null) bench.forget((e) => e === 'wake');
  s.wake_us = wish;
  if (wish !== null) bench.after(wish - now_us, 'wake');
}

/** Five ticks of the matcher's servo, each with its own reading. */
export function search(s: SenderState, w: Wires, bench: Bench): void {
  if (!s.seek) return;
  for (let ms = 0; ms < SEEK_US / 1000; ms += MATCH_TICK_MS) {
    s.at = { kHz: s.at.kHz, ...matchAt(s.seek.at) };
    s.reading = readMatch(s.at, w.whip, s.reading);
    s.seek = servoStep(s.seek, Math.min(1, Math.max(0, s.reading.back)));
  }
  s.at = { kHz: s.at.kHz, ...matchAt(s.seek.at) };
  dials(s, bench.now_us);
  s.sought = s.seek.phase;
  if (s.seek.phase === 'found' || s.seek.phase === 'failed') s.seek = null;
  else bench.after(SEEK_US, 'seek');
}
