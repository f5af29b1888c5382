/** Receiver 0.4 to 28 MHz: tuning with an honest scale that may be wrong, selectivity, gains, BFO, calibrator, and the ear behind it. */
import { setup } from 'xstate';
import { dbToRatio, ratioToDb } from '../../quantity/quantity.ts';
import { number } from '../../record/shape.ts';
import { AGC_RELEASE_dB_s, type Agc } from '../../samples/agc.ts';
import { voiceChance } from '../../samples/voice.ts';
import type { Arrival, HeardWord } from '../../signals.ts';
import { atRest, type Bench, type Box, type BoxState } from '../box.ts';
import { endHeard, type Heard, hearWord, nothingHeard } from '../captions.ts';
import { EAR_Hz, morseChance } from '../morse-ear.ts';
import type { Wires } from '../wires.ts';
import { receiverControls } from './receiver-controls.ts';
import {
  blocking_dB,
  type Carrier,
  carrierOf,
  drift_Hz,
  harm,
  harmonicNear,
  innerNoise_dB,
  levelled_dB,
  loudness_dB,
  noise_dBuV,
  passed_dBuV,
  rfGain_dB,
  scale_kHz,
  trimLoss_dB,
  tuned_Hz,
} from './receiver-front.ts';

/** Drawn from the bus, A. */
const DRAW_A = 1.2;
/** What the own sender leaves in a receiver without a whip, dB above 1 microvolt (ours): enough to press the AGC down. */
export const LEAK_dBuV = 90;
/** Carriers remembered between ticks: this many, this near. */
const CARRIERS = 8;
const NEAR_Hz = 20_000;
/** A note is made out this far over the noise in the ear's own filter of 100 Hz, dB. */
const NOTE_dB = 3;

/** State of the receiver. Levels are dB above 1 microvolt after the RF gain; `noise` is what the whip brought at the last tick, dBuV/m in 1 Hz. */
export type ReceiverState = BoxState & {
  dialError_kHz: number;
  crystal_ppm: number;
  on_us: number;
  drift: number;
  noise: number;
  carriers: Carrier[];
  level: number;
  agc: number;
  heard: Heard;
  deaf_us: number;
  heardTo_us: number;
};

const machine = setup({ types: {} as { events: { type: 'ON' } | { type: 'OFF' } } }).createMachine({
  id: 'receiver',
  initial: 'off',
  states: { off: { on: { ON: 'on' } }, on: { on: { OFF: 'off' } } },
});

const agcOf = (s: ReceiverState): Agc => s.set['agc'] as Agc;

// AGC still pressed down by something stronger a moment ago leaves less for the ear.
const detected_dB = (s: ReceiverState, level_dB: number): number =>
  levelled_dB(level_dB, agcOf(s)) - (agcOf(s) === 'off' ? 0 : Math.max(0, s.agc - level_dB));

const canHear = (s: ReceiverState, w: Wires, level_dB: number): boolean =>
  w.rx.on && !w.rx.deaf && loudness_dB(detected_dB(s, level_dB), s.set, w.ears) > 0;

function audibleCarriers(s: ReceiverState, w: Wires): Carrier[] {
  const { tuned_Hz: at, bandwidth_Hz } = w.rx;
  const all = s.set['calibrator'] === true ? [...s.carriers, harmonicNear(at, s.crystal_ppm)] : s.carriers;
  return all.filter((c) => Math.abs(c.f_Hz - at) <= 0.6 * bandwidth_Hz);
}

/** The beat note that an ear makes out, Hz to the nearest 5; null when there is none. */
function note_Hz(s: ReceiverState, w: Wires): number | null {
  if (!w.rx.bfo) return null;
  const loudest = audibleCarriers(s, w).sort((a, b) => passed_dBuV(b, w.rx) - passed_dBuV(a, w.rx))[0];
  if (!loudest) return null;
  const passed = passed_dBuV(loudest, w.rx);
  const isOver = passed - noise_dBuV(s.noise, w.whip.height_m, w.rx, EAR_Hz) > NOTE_dB;
  const beat = 5 * Math.round(Math.abs(loudest.f_Hz - w.rx.tuned_Hz - w.rx.pitch_Hz) / 5);
  return isOver && beat <= 4000 && canHear(s, w, passed + w.rx.gain_dB) ? beat : null;
}

function measureLevel(s: ReceiverState, w: Wires, dt_s: number): void {
  const { rx } = w;
  let power = dbToRatio(noise_dBuV(s.noise, w.whip.height_m, rx, rx.bandwidth_Hz));
  for (const c of audibleCarriers(s, w)) power += dbToRatio(passed_dBuV(c, rx));
  const leak = w.relay === 'sender' && w.radiated_W > 0 ? LEAK_dBuV : -100;
  s.level = rx.on ? Math.max(rx.deaf ? -20 : ratioToDb(power), leak) + rx.gain_dB : -60;
  const agc = agcOf(s);
  // Off it remembers nothing.
  s.agc = agc === 'off' ? s.level : Math.max(s.level, s.agc - AGC_RELEASE_dB_s[agc] * dt_s);
}

function lookRound(s: ReceiverState, w: Wires, bench: Bench): Arrival[] {
  s.noise = bench.ear.noise_dBuV(w.rx.tuned_Hz);
  const arrivals = w.rx.deaf ? [] : bench.ear.arrivals(bench.now_us);
  const near = arrivals.filter((a) => Math.abs(a.f_Hz - w.rx.tuned_Hz) < NEAR_Hz).slice(0, CARRIERS);
  s.carriers = near.map((a) => carrierOf(a, w.whip.height_m));
  return near;
}

function chanceOf(s: ReceiverState, w: Wires, word: HeardWord, others: readonly Arrival[]): number {
  // A third of a word is enough to lose it.
  if (s.deaf_us > word.t0_us + (word.t1_us - word.t0_us) / 3) return 0;
  if (!canHear(s, w, s.level)) return 0;
  const chance = word.by === 'voice' ? voiceChance : morseChance;
  return chance(word, others, w.rx, harm(s.level, agcOf(s), w.rx.limiter));
}

function listen(s: ReceiverState, w: Wires, others: readonly Arrival[], bench: Bench): void {
  const from = s.heardTo_us;
  s.heardTo_us = bench.now_us;
  for (const word of bench.ear.words(from, bench.now_us))
    hearWord(s.heard, word, chanceOf(s, w, word, others), bench.seed);
}

function isDeaf(w: Wires): boolean {
  return w.relay === 'sender' && !w.whip.second;
}

function blockedBy(w: Wires, f_Hz: number): number {
  if (w.relay !== 'sender') return 0;
  const { distance_m, height_m } = w.whip;
  return blocking_dB(w.radiated_W, distance_m, height_m, Math.abs(w.sender_Hz - f_Hz), f_Hz);
}

function wire(s: ReceiverState, w: Wires): void {
  const { rx, whip } = w;
  const { set } = s;
  rx.on = s.mode === 'on';
  rx.deaf = isDeaf(w);
  rx.tuned_Hz = tuned_Hz(set, s.dialError_kHz, s.drift);
  rx.bandwidth_Hz = 1000 * Number(set['bandwidth']);
  rx.gain_dB = rfGain_dB(set);
  rx.agc = agcOf(s);
  rx.bfo = set['bfo'] === true;
  rx.pitch_Hz = Math.round(1000 * Number(set['pitch']));
  rx.limiter = set['limiter'] === true;
  rx.trimLoss_dB = trimLoss_dB(set);
  rx.innerNoise_dB = innerNoise_dB(s.noise, whip.height_m, rx.gain_dB, rx.trimLoss_dB) + blockedBy(w, rx.tuned_Hz);
}

/** The receiver. */
export const receiver = {
  id: 'receiver',
  name: 'Receiver',
  bay: 'radio',
  about: 'Receiver for 0.4 to 28 MHz in bands of two megahertz, with beat oscillator and crystal calibrator.',
  source:
    'Intelligibility: articulation index, French and Steinberg 1947, Kryter 1962 (from memory). Level meter: decibels above 1 microvolt EMF, S9 (50 microvolts across 50 ohm, IARU Region 1 Recommendation R.1) at 40. Field to EMF: effective height of a short whip, half its height.',
  controls: receiverControls,
  indicators: [
    { id: 'scale', name: 'Scale', face: 'scale', unit: 'kHz', read: (s: ReceiverState) => scale_kHz(s.set) },
    {
      // Reads EMF: S9 of IARU Region 1 R.1, 50 microvolts across 50 ohm (-73 dBm), is 40 here; an S unit is 6 dB.
      id: 'level',
      name: 'Level',
      face: 'sail',
      unit: 'dB',
      min: 0,
      max: 100,
      read: (s: ReceiverState) => (s.mode === 'on' && agcOf(s) !== 'off' ? Math.max(0, Math.round(s.agc)) : 0),
    },
    {
      id: 'note',
      name: 'Beat note',
      face: 'caption',
      shows: 'number',
      unit: 'Hz',
      read: (s: ReceiverState, w: Wires) => note_Hz(s, w),
    },
    { id: 'lamp', name: 'Receiver on', face: 'lamp', read: (s: ReceiverState) => s.mode === 'on' },
  ],
  sampled: [
    { id: 'tuned_Hz', unit: 'Hz', step: 5, read: (_s: ReceiverState, w: Wires) => w.rx.tuned_Hz },
    {
      id: 'dialOffset_Hz',
      unit: 'Hz',
      step: 5,
      read: (s: ReceiverState, w: Wires) => w.rx.tuned_Hz - 1000 * scale_kHz(s.set),
    },
    { id: 'hearing', unit: '', step: 1, shows: 'flag', read: (s: ReceiverState, w: Wires) => canHear(s, w, s.level) },
    { id: 'level_dB', unit: 'dB', step: 3, read: (s: ReceiverState) => s.level },
  ],
  machine,
  inner: {
    dialError_kHz: {
      default: 0,
      schema: number(-8, 8),
      about: 'True tuning minus what the dial stands at, kHz, -8 to 8, the same over the band.',
    },
    crystal_ppm: {
      default: 0,
      schema: number(-200, 200),
      about: 'How many parts in a million the calibrator crystal is high.',
    },
  },
  start(found) {
    const middle = { fine: 0, index: 0, pitch: 0 };
    return {
      mode: '',
      set: atRest(receiverControls, { controls: { ...middle, ...found.controls }, inner: found.inner }),
      dialError_kHz: Number(found.inner['dialError_kHz'] ?? 0),
      crystal_ppm: Number(found.inner['crystal_ppm'] ?? 0),
      on_us: 0,
      drift: 0,
      noise: -30,
      carriers: [],
      level: -60,
      agc: -60,
      heard: nothingHeard(),
      deaf_us: -1,
      heardTo_us: 0,
    };
  },
  upset(s, thing, value) {
    s[thing === 'crystal_ppm' ? 'crystal_ppm' : 'dialError_kHz'] = value as number;
  },
  settle(s, w, bench) {
    const isOn = s.set['power'] === true && w.live.receiver;
    if (isOn !== (s.mode === 'on')) bench.fire(isOn ? 'ON' : 'OFF');
    const wasDeaf = w.rx.deaf;
    wire(s, w);
    if (w.rx.deaf || wasDeaf) s.deaf_us = bench.now_us;
    w.draw_A.receiver = isOn ? DRAW_A : 0;
    w.captions = s.heard.captions;
  },
  entered(s, _w, bench) {
    s.on_us = bench.now_us;
  },
  tick(s, w, dt_s, bench) {
    const isOn = s.mode === 'on';
    s.drift = isOn ? Math.round(10 * drift_Hz((bench.now_us - s.on_us) / 1e6)) / 10 : 0;
    const others = isOn ? lookRound(s, w, bench) : [];
    w.rx.quiet = others.length === 0;
    if (isOn) listen(s, w, others, bench);
    else s.heardTo_us = bench.now_us;
    measureLevel(s, w, dt_s);
    endHeard(s.heard, bench.now_us, bench.note);
  },
} satisfies Box<ReceiverState>;
