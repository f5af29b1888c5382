/** How far a signal gets, link by link: what is sent, what leaves the whip, what arrives, what is read and printed. */
import { dbToRatio, ratioToDb } from '../quantity/quantity.ts';
import { passbandLoss_dB } from '../samples/voice.ts';
import type { Emission } from '../signals.ts';
import type { KeyerState } from '../station/boxes/keyer.ts';
import { HOLDS_mA } from '../station/boxes/line.ts';
import { markAt } from '../station/wave.ts';
import { type Receiving, receiverOf } from './receivers.ts';
import { isPrint, type Scene, sendingOf, sendWay, upAt } from './scene.ts';

/** A signal on its way. */
export interface Passage {
  readonly way: 'out' | 'in';
  /** Call signs of both ends; `''` when there is no distant station. */
  readonly from: string;
  readonly to: string;
  /** Ten links, keys first: does it pass there now? A link that it does not need is passed by. */
  readonly passes: readonly boolean[];
}

/** Keys, loop, keyer, sender and whip. */
type Sent = readonly [boolean, boolean, boolean, boolean, boolean];

/** A printed character shows that print works for so long, us. */
const LATELY_US = 1_500_000;
/** A carrier is noticed from here on, dB over the noise in 1 Hz: an ear parts a tone from noise some 100 Hz wide. */
export const NOTICED_dB = 20;

/** The own station. What the line does counts until something radiates without it. */
function sentOut({ station: { wires: w }, now_us }: Scene): Sent {
  const { emission } = w.radiation;
  const radiates = upAt(w.radiation, now_us) !== null;
  const offers = radiates || w.forward_W > 0;
  if (emission === 'A1A' || emission === 'A3E') {
    const made = emission === 'A1A' ? radiates || markAt(w.handKey, now_us) : w.talking;
    // Key and microphone go straight to the sender.
    return [made, false, false, offers, radiates];
  }
  if (emission === 'N0N' && offers) return [false, false, false, offers, radiates];
  const holds = w.loop_mA >= HOLDS_mA;
  const keys = w.source === 'line' && w.lever !== 'STEADY' && holds;
  const keyer = w.supply_mA > 0 && w.lever !== 'IN';
  if (offers) return [keys || (emission === 'A3E+F1B' && w.talking), holds, keyer, offers, radiates];
  return [keys, keys, keys && keyer, false, false];
}

/** A distant sender, known by what it radiates. */
function sentIn(emission: Emission): Sent {
  const print = isPrint(emission);
  return [emission !== 'N0N', print, print, true, true];
}

/** Has a printer printed of late? */
function prints({ record: { lines }, now_us }: Scene, at: string): boolean {
  for (let i = lines.length - 1; i >= 0; i--) {
    const line = lines[i]!;
    if (line.t < now_us - LATELY_US) return false;
    if (line.k === 'print' && line.at === at) return true;
  }
  return false;
}

/** Terminal unit and printer of the own station. */
function readHere(scene: Scene): [boolean, boolean] {
  const { wires: w, boxes } = scene.station;
  const isLocked = w.supply_mA > 0 && (boxes['keyer'] as KeyerState).isLocked;
  return [isLocked, w.lever === 'IN' && w.source === 'line' && prints(scene, 'own')];
}

/** Far whip, receiver, terminal unit and print for what `from` had on the air at an instant. */
function arrived(scene: Scene, r: Receiving, from: string, t_us: number): boolean[] {
  const none = [false, false, false, false];
  const a = r.deaf ? undefined : r.ear.arrivals(t_us).find((x) => x.station === from);
  if (!a || a.cn0_dB < NOTICED_dB) return none;
  const off_Hz = a.f_Hz - r.tuned_Hz;
  const left_dB = a.cn0_dB - passbandLoss_dB(off_Hz, r.bandwidth_Hz) - ratioToDb(1 + dbToRatio(r.innerNoise_dB));
  if (left_dB < NOTICED_dB) return [true, false, false, false];
  if (r.who === scene.own) return [true, true, ...readHere(scene)];
  // A distant operator turns the terminal unit on for print; voice and Morse are had by ear.
  return [true, true, isPrint(a.emission), prints(scene, r.who)];
}

/** How far the signal gets now: the own one, or the distant one's while it alone radiates. */
export function passageOf(scene: Scene): Passage {
  const { far, own } = scene;
  const way = sendWay(scene);
  const [from, to] = way === 'out' ? [own, far?.call ?? ''] : [far?.call ?? '', own];
  const sent = way === 'in' && far ? sentIn(far.radiation.emission) : sentOut(scene);
  if (!sent[4]) return { way, from, to, passes: [...sent, false, false, false, false, false] };
  const t_us = upAt(sendingOf(scene, way).radiation, scene.now_us) ?? scene.now_us;
  const there = far ? arrived(scene, receiverOf(scene), from, t_us) : [false, false, false, false];
  // Nothing is printed that was not read.
  const [whip, receiver, unit, print] = there as [boolean, boolean, boolean, boolean];
  return { way, from, to, passes: [...sent, true, whip, receiver, unit, unit && print] };
}
