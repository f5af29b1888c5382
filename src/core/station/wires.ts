/**
 * What passes between the boxes of one station. Each field names the one box that writes it; every box may read it.
 * Fields hold what stood at the end of the last settling, so a box earlier in the order sees a later one's last value;
 * the station settles twice, which closes these loops.
 */
import type { Edge, Radiation, SpokenWord } from '../signals.ts';

/** What hangs on a breaker of its own. */
export type Load = 'inverter' | 'sender' | 'receiver' | 'terminal' | 'vent';
/** Every load. */
export const LOADS: readonly Load[] = ['inverter', 'sender', 'receiver', 'terminal', 'vent'];

/** What feeds the line loop. */
export type Contact = 'keys' | 'tape' | 'unit' | 'far';

/** The wires. */
export type Wires = {
  // --- feed
  /** Bus volts at the breakers, 0 when isolated. */
  bus_V: number;
  /** Amperes drawn from the bus. */
  bus_A: number;
  /** Alternator turning. */
  engine: boolean;
  /** The load's breaker is in and the bus is live. */
  live: Record<Load, boolean>;
  /** The fuse in the holder of inverter A or B is good. */
  fuse: { A: boolean; B: boolean };
  // --- each load writes what it draws from the bus at the present volts, A
  draw_A: Record<Load, number>;
  /** The part of it that is plain resistance, siemens (0 unless the load says so); the feed takes the rest as constant power. */
  ohmic_S: Record<Load, number>;
  // --- inverter
  /** Volts and hertz of the mains-type supply; 0 when it stands still. */
  mains_V: number;
  mains_Hz: number;
  /** The inverter that its lever chooses. */
  chosen: 'A' | 'off' | 'B';
  // --- printer and tape set write what they take from it, W
  mains_W: { printer: number; tape: number };
  // --- aerial
  whip: {
    /** Sections fitted, 0..4, and the whip's height and radius. */
    sections: number;
    height_m: number;
    radius_m: number;
    /** Loss of ground, counterpoise and earth in series at the foot, ohm. */
    ground_ohm: number;
    guard: boolean;
    earthed: boolean;
    /** Second whip: up or stowed, and its distance from the first. */
    second: boolean;
    distance_m: number;
  };
  // --- hand (hand key, microphone): mark = key down / pressed
  handKey: Edge[];
  talking: boolean;
  /** Words that the operator is saying into an open microphone, history and plan. */
  words: SpokenWord[];
  /** Headset volume 0..10 and loudspeaker on. */
  ears: { phones: number; speaker: boolean };
  // --- printer and tape set: contacts in the line loop (at mark when they are not in it)
  contact: Record<Contact, Edge[]>;
  /** The printer's own local loop. */
  local: Edge[];
  /** Which loop the printer and the tape set stand in. */
  source: 'local' | 'line';
  /** The tape reader's contact, whichever loop it stands in. */
  tapeOut: Edge[];
  /** What the printer has read: how many characters so far, and the last 16 of their codes. */
  read: { n: number; codes: number[] };
  /** Tape set: punching follows the printer's loop when true. */
  punching: boolean;
  // --- keyer and terminal unit
  /** Loop supply set by the unit, mA; 0 when it is off. */
  supply_mA: number;
  /** What the terminal unit decides from the receiver, before the cover adaptor. */
  decided: Edge[];
  /** Shift set, Hz, and sense: true = mark is the lower frequency. */
  shift_Hz: number;
  markLow: boolean;
  /** What the keyer gives the sender: mark or space. */
  keyed: Edge[];
  // --- line box
  lever: 'OUT' | 'STEADY' | 'IN';
  /** Current in the line loop at mark, mA. */
  loop_mA: number;
  /** The line loop as its printer sees it: all contacts in series. */
  loop: Edge[];
  // --- cover adaptor: the loop as it goes on to the keyer (ciphered or plain)
  sent: Edge[];
  // --- sender
  /** The sender could radiate now if keyed: readiness at send, hot heaters, supply, no trip. */
  armed: boolean;
  /** Set frequency, Hz. */
  sender_Hz: number;
  forward_W: number;
  reflected_W: number;
  /** Radiated by the whip at this instant, W. */
  radiated_W: number;
  /** Who has the whip. */
  relay: 'sender' | 'receiver';
  radiation: Radiation;
  // --- receiver
  rx: {
    on: boolean;
    /** No aerial: the relay is at the sender and no second whip is up. */
    deaf: boolean;
    /** True centre of the passband, Hz. */
    tuned_Hz: number;
    bandwidth_Hz: number;
    /** RF gain ahead of the detector relative to full, dB (0 or less). */
    gain_dB: number;
    agc: 'off' | 'fast' | 'slow';
    bfo: boolean;
    pitch_Hz: number;
    limiter: boolean;
    /** Loss of the aerial trim off its peak, dB (0 or more). */
    trimLoss_dB: number;
    /** The receiver's own noise relative to the external noise, both after the RF gain, dB. */
    innerNoise_dB: number;
    /** No carrier stood near the passband at the last tick. */
    quiet: boolean;
  };
  /** What the ear has made out, oldest first, the last 20; the newest may be unfinished. */
  captions: Caption[];
};

/** One transmission as the operator's ear had it. */
export type Caption = {
  /** Counts from 1. */
  n: number;
  from_us: number;
  to_us: number;
  by: 'voice' | 'morse';
  /** '...' where words were lost. */
  words: string;
  /** 0.7 s have passed without a further word. */
  ended: boolean;
};

/** Wires of a station where nothing is connected. */
export function newWires(station: string): Wires {
  return {
    bus_V: 0,
    bus_A: 0,
    engine: false,
    live: { inverter: false, sender: false, receiver: false, terminal: false, vent: false },
    fuse: { A: true, B: true },
    draw_A: { inverter: 0, sender: 0, receiver: 0, terminal: 0, vent: 0 },
    ohmic_S: { inverter: 0, sender: 0, receiver: 0, terminal: 0, vent: 0 },
    mains_V: 0,
    mains_Hz: 0,
    chosen: 'off',
    mains_W: { printer: 0, tape: 0 },
    whip: {
      sections: 0,
      height_m: 0,
      radius_m: 0.01,
      ground_ohm: 10,
      guard: false,
      earthed: false,
      second: false,
      distance_m: 0,
    },
    handKey: [{ t_us: 0, mark: false }],
    talking: false,
    words: [],
    ears: { phones: 0, speaker: false },
    contact: { keys: [], tape: [], unit: [], far: [] },
    local: [],
    source: 'local',
    tapeOut: [],
    read: { n: 0, codes: [] },
    punching: false,
    supply_mA: 0,
    decided: [],
    shift_Hz: 400,
    markLow: true,
    keyed: [],
    lever: 'STEADY',
    loop_mA: 0,
    loop: [],
    sent: [],
    armed: false,
    sender_Hz: 0,
    forward_W: 0,
    reflected_W: 0,
    radiated_W: 0,
    relay: 'receiver',
    radiation: { station, emission: 'N0N', steps: [], words: [], depth: 0.8 },
    rx: {
      on: false,
      deaf: false,
      tuned_Hz: 400_000,
      bandwidth_Hz: 3000,
      gain_dB: 0,
      agc: 'slow',
      bfo: false,
      pitch_Hz: 0,
      limiter: false,
      trimLoss_dB: 0,
      innerNoise_dB: -60,
      quiet: true,
    },
    captions: [],
  };
}
