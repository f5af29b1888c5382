/** What the look inside a link sees: the drill at one instant, nothing of it to be changed. */

import type { Climate, Route } from '../ether/paths.ts';
import { inForce } from '../kernel/history.ts';
import type { DrillRecord } from '../record/record.ts';
import type { Ear, Edge, Emission, Radiation } from '../signals.ts';
import type { StationState } from '../station/station.ts';

/** The distant station at the other end. */
export interface Far {
  readonly call: string;
  readonly place: string;
  readonly path: Route;
  readonly ear: Ear;
  readonly radiation: Radiation;
  /** Middle of its receiver's passband, Hz, and its shift. */
  readonly tuned_Hz: number;
  readonly shift_Hz: number;
}

/** The drill at one instant. */
export interface Scene {
  readonly now_us: number;
  readonly seed: number;
  readonly own: string;
  readonly station: StationState;
  readonly ear: Ear;
  readonly climate: Climate;
  readonly far: Far | null;
  readonly record: DrillRecord;
}

/** Morse pauses for no longer than this between two words, us. */
export const PAUSE_US = 1_200_000;

/** When a sender was last on the air, us: now, or between two signs of Morse the end of the last; null when it is silent. */
export function upAt(r: Radiation, now_us: number): number | null {
  const now = inForce(r.steps, now_us);
  if (!now || now.power_W > 0) return now ? now_us : null;
  const isBetween = r.emission === 'A1A' && now.t_us > now_us - PAUSE_US && stepAt(r, now.t_us - 1).power_W > 0;
  return isBetween ? now.t_us - 1 : null;
}

/** Whose sender the links before the ether belong to: the far one's while it alone radiates, else the own. */
export const sendWay = ({ station, far, now_us }: Scene): 'out' | 'in' =>
  upAt(station.wires.radiation, now_us) === null && far !== null && upAt(far.radiation, now_us) !== null ? 'in' : 'out';

/** Whose receiver the links behind it belong to: the far one's while the own sender radiates, else the own. */
export const receiveWay = ({ station, far, now_us }: Scene): 'out' | 'in' =>
  upAt(station.wires.radiation, now_us) !== null && far !== null ? 'out' : 'in';

/** Does the carrier's frequency carry print? */
export const isPrint = (emission: Emission): boolean => emission === 'F1B' || emission === 'A3E+F1B';

const SILENT = { f_Hz: 0, power_W: 0 };
/** Frequency and power at an instant; 0 and 0 before the first step. */
export const stepAt = (r: Radiation, t_us: number): { f_Hz: number; power_W: number } =>
  inForce(r.steps, t_us) ?? SILENT;

/** One end that sends, as line, keying and carrier. */
export interface Sending {
  readonly who: string;
  /** The line that keys: its edges, history and plan. */
  readonly line: readonly Edge[];
  readonly shift_Hz: number;
  readonly markLow: boolean;
  readonly radiation: Radiation;
  /** Where the carrier stands or would stand unshifted, Hz; 0 when a distant sender was never on the air. */
  readonly middle_Hz: number;
}

/** Middle between the lowest and highest frequency of print within the last seconds, Hz; mark is the lower. */
function middleOf(r: Radiation, shift_Hz: number): number {
  const f = r.steps.filter((s) => s.power_W > 0).map((s) => s.f_Hz);
  if (f.length === 0) return 0;
  const [low, high] = [Math.min(...f), Math.max(...f)];
  // A carrier that has not moved yet stands at mark.
  return high - low > shift_Hz / 2 ? (low + high) / 2 : low + shift_Hz / 2;
}

/** A distant sender's line, read back from its carrier. */
function lineOf(r: Radiation, shift_Hz: number): Edge[] {
  const middle = middleOf(r, shift_Hz);
  const edges: Edge[] = [];
  for (const s of r.steps) {
    const mark = s.power_W === 0 || s.f_Hz < middle;
    if (mark !== (edges[edges.length - 1]?.mark ?? true)) edges.push({ t_us: s.t_us, mark });
  }
  return edges;
}

/** The sending end. */
export function sendingOf(scene: Scene, way: 'out' | 'in'): Sending {
  const { wires } = scene.station;
  const { far } = scene;
  if (way === 'in' && far) {
    const { radiation, shift_Hz, call } = far;
    return {
      who: call,
      line: isPrint(radiation.emission) ? lineOf(radiation, shift_Hz) : [],
      shift_Hz,
      markLow: true,
      radiation,
      middle_Hz: isPrint(radiation.emission)
        ? middleOf(radiation, shift_Hz)
        : (radiation.steps.filter((s) => s.power_W > 0).at(-1)?.f_Hz ?? 0),
    };
  }
  const { shift_Hz, markLow, radiation, sender_Hz: middle_Hz } = wires;
  const line = wires.source === 'line' ? wires.loop : wires.local;
  return { who: scene.own, line, shift_Hz, markLow, radiation, middle_Hz };
}
