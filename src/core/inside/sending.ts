/** Inside keys, loop and keyer: contacts, current, and the shift that they make. */
import { cos } from '../numeric/elementary.ts';
import type { Edge, Emission, Radiation, SpokenWord } from '../signals.ts';
import { HOLDS_mA } from '../station/boxes/line.ts';
import { markAt, put } from '../station/wave.ts';
import { measureDistortion } from '../telegraphy/distortion.ts';
import { designatorOf, necessary_Hz } from './bandwidth.ts';
import { type Carried, moves, onAir, onLine } from './carried.ts';
import { caseAt, isTurning, printsIncoming } from './case.ts';
import { type Scene, type Sending, sendingOf, sendWay, stepAt } from './scene.ts';
import { type Letter, lettersOf, type Piece, piecesOf, type Window, windowOf } from './window.ts';

/** What all looks share. */
export interface Look {
  /** Whose link it is: a call sign. */
  readonly who: string;
  readonly isOwn: boolean;
  readonly emission: Emission;
  /** What is there now, and what the emission is called in full. */
  readonly on: Carried;
  readonly designator: string;
  /** The band that the emission needs, Hz; null for a bare carrier. */
  readonly needs_Hz: number | null;
  readonly window: Window;
  /** Shift in Hz and sense at this end. */
  readonly shift_Hz: number;
  readonly markLow: boolean;
}

/** Letters that came just before, and the hand, the voice or the machine that makes them. */
export interface KeysLook extends Look {
  readonly link: 'keys';
  readonly by: 'keyboard' | 'tape' | 'hand key' | 'voice' | 'line' | 'nobody';
  readonly contact: readonly Piece[];
  readonly letters: readonly Letter[];
  /** Contact of the hand key over the last two seconds. */
  readonly handKey: readonly Piece[];
  readonly words: readonly string[];
}

/** The loop: contacts in series and what flows. */
export interface LoopLook extends Look {
  readonly link: 'loop';
  readonly contacts: readonly { name: string; pieces: readonly Piece[]; isIn: boolean }[];
  readonly loop: readonly Piece[];
  readonly supply_mA: number;
  readonly loop_mA: number;
  /** Less than this does not hold the magnets. */
  readonly holds_mA: number;
  readonly lever: 'OUT' | 'STEADY' | 'IN';
  /** The printer stands in its own local loop: what is shown is that, and supply and current are the line loop's. */
  readonly isLocal: boolean;
  /** Start-stop distortion of the last seconds, percent; null when no character ran. */
  readonly distortion_pct: number | null;
}

/** The keyer: the line, and the carrier that it shifts. */
export interface KeyerLook extends Look {
  readonly link: 'keyer';
  readonly line: readonly Piece[];
  /** The line after the cover adaptor; equal to `line` in plain. */
  readonly keyed: readonly Piece[];
  readonly isCovered: boolean;
  /** Carrier as it would look beside a reference `below_Hz` under its middle, -1..1. */
  readonly carrier: readonly number[];
  readonly below_Hz: number;
  readonly isOn: boolean;
}

/** Points of a drawn carrier. */
export const POINTS = 1500;

/** The reference stands this far under the carrier's middle so that mark and space can be told apart by eye, Hz. */
export const referenceBelow_Hz = (shift_Hz: number): number => Math.round(shift_Hz * 1.25);

/** Letters of the line that keys, those that begin shortly with them. */
function lettersSent(scene: Scene, { who, line }: Sending): Letter[] {
  const isTold = who === scene.own ? isTurning(scene) : printsIncoming(scene);
  return lettersOf(line, scene.now_us + 200_000, (t_us) => (isTold ? caseAt(scene, 'own', t_us) : null));
}

/** What every look begins with: `at` is where it looks, at the keys, on the line or on the air. */
export function lookOf(
  scene: Scene,
  sending: Sending,
  start_us: number | null,
  at: 'keys' | 'line' | 'air' = 'air',
): Look {
  const { who, shift_Hz, markLow, radiation } = sending;
  const window = windowOf(lettersSent(scene, sending), scene.now_us, start_us);
  const { emission } = radiation;
  const has = window.letter !== null;
  const on = at === 'air' ? onAir(radiation, scene.now_us, has) : onLine(scene, sending, has, at);
  return { who, isOwn: who === scene.own, on, ...needsOf(emission, shift_Hz), window, shift_Hz, markLow };
}

/** An emission, its name in full and the band that it needs. */
export const needsOf = (emission: Emission, shift_Hz: number): Pick<Look, 'emission' | 'designator' | 'needs_Hz'> => ({
  emission,
  designator: designatorOf(emission, shift_Hz),
  needs_Hz: necessary_Hz(emission, shift_Hz),
});

/** A phase-continuous carrier whose frequency follows `f_Hz(t)`, drawn over a window; 0 where it gives null. */
export function drawCarrier({ from_us, to_us }: Window, f_Hz: (t_us: number) => number | null): number[] {
  const step_us = (to_us - from_us) / POINTS;
  let turns = 0;
  return Array.from({ length: POINTS + 1 }, (_, i) => {
    const f = f_Hz(from_us + i * step_us);
    if (f === null) return 0;
    turns += (f * step_us) / 1e6;
    return Math.round(1000 * cos(2 * Math.PI * (turns - Math.floor(turns)))) / 1000;
  });
}

function spoken(words: readonly SpokenWord[], now_us: number): string[] {
  return words.filter((w) => w.t0_us <= now_us && w.t1_us > now_us - 3e6).map((w) => w.word);
}

function keyedBy({ station: { wires: w }, now_us }: Scene, on: Carried): KeysLook['by'] {
  if (on === 'Morse') return 'hand key';
  if (on === 'voice') return 'voice';
  if (moves(w.source === 'line' ? w.contact.tape : w.tapeOut, now_us)) return 'tape';
  return moves(w.source === 'line' ? w.contact.keys : w.local, now_us) ? 'keyboard' : 'nobody';
}

/** A distant station's hand is known by its carrier only. */
const keyedThere = (on: Carried, hasLetter: boolean): KeysLook['by'] =>
  on === 'Morse' ? 'hand key' : on === 'voice' ? 'voice' : hasLetter ? 'line' : 'nobody';

/** A keyed carrier as the contact that keys it. */
function keyingOf({ emission, steps }: Radiation): Edge[] {
  const up: Edge[] = [{ t_us: 0, mark: false }];
  if (emission === 'A1A') for (const s of steps) put(up, s.t_us, s.power_W > 0);
  return up;
}

/** Inside the keys. */
export function insideKeys(scene: Scene, start_us: number | null): KeysLook {
  const way = sendWay(scene);
  const sending = sendingOf(scene, way);
  const { wires: w } = scene.station;
  const look = lookOf(scene, sending, start_us, 'keys');
  const begun = lettersSent(scene, sending).filter((l) => l.start_us <= scene.now_us);
  const second: Window = { ...look.window, from_us: scene.now_us - 2e6, to_us: scene.now_us };
  return {
    ...look,
    link: 'keys',
    by: look.isOwn ? keyedBy(scene, look.on) : keyedThere(look.on, look.window.letter !== null),
    contact: piecesOf(sending.line, look.window),
    letters: begun.slice(-14),
    handKey: piecesOf(look.isOwn ? w.handKey : keyingOf(sending.radiation), second),
    words: spoken(look.isOwn ? w.words : sending.radiation.words, scene.now_us),
  };
}

/** Inside the loop. */
export function insideLoop(scene: Scene, start_us: number | null): LoopLook {
  const sending = sendingOf(scene, sendWay(scene));
  const look = lookOf(scene, sending, start_us, 'line');
  const { wires: w, boxes } = scene.station;
  const patched = (id: string) => boxes['line']?.set[id] === true;
  const local = w.source === 'local';
  const contacts = look.isOwn
    ? [
        {
          name: 'keyboard',
          wave: local ? w.local : w.contact.keys,
          isIn: local || (w.lever !== 'STEADY' && patched('keys')),
        },
        {
          name: 'tape',
          wave: local ? w.tapeOut : w.contact.tape,
          isIn: local || (w.lever !== 'STEADY' && patched('tape')),
        },
        { name: 'terminal unit', wave: w.contact.unit, isIn: !local && w.lever === 'IN' },
      ]
    : [{ name: 'their machine', wave: sending.line, isIn: true }];
  const seen = sending.line.filter((e) => e.t_us <= scene.now_us);
  const { characters, degree } = measureDistortion(seen, 50);
  return {
    ...look,
    link: 'loop',
    contacts: contacts.map(({ name, wave, isIn }) => ({ name, isIn, pieces: piecesOf(wave, look.window) })),
    loop: piecesOf(sending.line, look.window),
    supply_mA: look.isOwn ? w.supply_mA : 20,
    loop_mA: look.isOwn ? w.loop_mA : 20,
    holds_mA: HOLDS_mA,
    lever: look.isOwn ? w.lever : 'OUT',
    isLocal: look.isOwn && local,
    distortion_pct: characters > 0 ? Math.round(degree) : null,
  };
}

/** Inside the keyer. */
export function insideKeyer(scene: Scene, start_us: number | null): KeyerLook {
  const sending = sendingOf(scene, sendWay(scene));
  const look = lookOf(scene, sending, start_us, 'line');
  const { wires: w, boxes } = scene.station;
  const keyed = look.isOwn ? w.keyed : sending.line;
  const below_Hz = referenceBelow_Hz(sending.shift_Hz);
  const half = sending.shift_Hz / 2;
  const isOn = look.isOwn ? w.supply_mA > 0 : true;
  return {
    ...look,
    link: 'keyer',
    line: piecesOf(sending.line, look.window),
    keyed: piecesOf(keyed, look.window),
    isCovered: look.isOwn && boxes['cover']?.set['cover'] === 'cover',
    carrier: drawCarrier(look.window, (t) =>
      isOn ? below_Hz + (markAt(keyed, t) === sending.markLow ? -half : half) : null,
    ),
    below_Hz,
    isOn,
  };
}

/** Carrier on the air beside its reference. */
export function carrierOnAir(sending: Sending, window: Window): number[] {
  const below = referenceBelow_Hz(sending.shift_Hz);
  return drawCarrier(window, (t) => {
    const { f_Hz, power_W } = stepAt(sending.radiation, t);
    return power_W > 0 ? f_Hz - sending.middle_Hz + below : null;
  });
}
