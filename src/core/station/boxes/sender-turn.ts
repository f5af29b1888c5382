/** What each control of the sender does when it is set, and when it refuses. */
import { nearestPosition } from '../../physics/match-motors.ts';
import { startSearch } from '../../physics/match-servo.ts';
import type { ControlValue } from '../../signals.ts';
import type { Bench } from '../box.ts';
import type { Wires } from '../wires.ts';
import type { Tuning } from './sender-match.ts';
import { halt, unready } from './sender-run.ts';
import { busy, type SenderState, tripped } from './sender-state.ts';

const BARE_US = 5e6;

type Turned = (s: SenderState, value: ControlValue, w: Wires, bench: Bench) => string | undefined;

/** Drums, coil, loading and relay by hand: not while the motors have them. */
function byHand(change: (value: ControlValue) => Partial<Tuning>): Turned {
  return (s, value) => {
    if (busy(s)) return 'the motors are turning it';
    s.at = { ...s.at, ...change(value) };
    return undefined;
  };
}

/** By control; what is missing has no effect of its own. */
export const TURN: Record<string, Turned> = {
  readiness(s, value, _w, bench) {
    if ((value === 'off' || value === 'heat') && tripped(s)) bench.fire('RESET');
    return undefined;
  },
  frequency: byHand((v) => ({ kHz: v as number })),
  coil: byHand((v) => ({ coil_uH: v as number })),
  loading: byHand((v) => ({ loading_pF: v as number })),
  side: byHand((v) => ({ side: v as Tuning['side'] })),
  setting(s, value, _w, bench) {
    halt(s, bench);
    s.wanted = value === 'hand' ? null : Number(value) - 1;
    return undefined;
  },
  keep(s, value) {
    if (value !== true) return undefined;
    if (s.set['setting'] === 'hand') return 'choose a stored setting first';
    if (busy(s)) return 'wait until the motors stand still';
    s.settings[Number(s.set['setting']) - 1] = { ...s.at };
    return undefined;
  },
  seek(s, value, w, bench) {
    if (value !== true) return undefined;
    if (busy(s)) return 'wait until the motors stand still';
    if (!w.armed) return unready(s, w);
    s.seek = startSearch(s.at.kHz / 1000, nearestPosition(s.at));
    s.sought = s.seek.phase;
    bench.after(0, 'seek');
    return undefined;
  },
  cage(s, value) {
    if (value === false) s.bareUntil_us = null;
    return undefined;
  },
  carrier(s, value, _w, bench) {
    if (value === true && s.set['cage'] !== true) return 'the cage is shut';
    s.bareUntil_us = value === true ? bench.now_us + BARE_US : null;
    return undefined;
  },
  clean(s, value) {
    if (value !== true) return undefined;
    if (s.set['filter'] === true) return 'take the filter out first';
    s.cooling = { ...s.cooling, dirt: 0 };
    return undefined;
  },
};
