import { heardNear } from './carried.ts';
import { caseAt, printsIncoming } from './case.ts';
import { type Spectrum, spectrumOf } from './radiating.ts';
import { AHEAD_US, over, type Reading, read, toneOf, type UnitRead, unitsOf, WIDE_RATE } from './reading.ts';
import { type Receiving, receiverOf } from './receivers.ts';
import { isPrint, type Scene } from './scene.ts';
import { type Look, needsOf, referenceBelow_Hz } from './sending.ts';
import { type CaseBefore, type Letter, type Piece, piecesOf, UNIT_US, windowOf } from './window.ts';

/** A carrier at the whip. */
export interface Heard {
  readonly station: string;
  readonly off_Hz: number;
  readonly field_dBuV: number;
  readonly cn0_dB: number;
  /** Its emission in full, and the band that this needs, Hz. */
  readonly designator: string;
  readonly needs_Hz: number | null;
}

/** The whip that receives. */
export interface FarWhipLook extends Look {
  readonly link: 'far whip';
  readonly tuned_kHz: number;
  readonly bandwidth_Hz: number;
  readonly noise_dBuV: number;
  readonly arrivals: readonly Heard[];
  /** The air round the frequency tuned to, the last second; null when the whip is at the sender. */
  readonly spectrum: Spectrum | null;
  readonly deaf: string;
}

/** The receiver. */
export interface ReceiverLook extends Look {
  readonly link: 'receiver';
  readonly tuned_kHz: number;
  readonly bandwidth_Hz: number;
  readonly before: Spectrum | null;
  readonly after: Spectrum | null;
  /** What comes out of the passband, beside a reference. */
  readonly tones: readonly number[];
  readonly below_Hz: number;
  readonly innerNoise_dB: number;
  readonly agc: string;
  readonly bfo_Hz: number | null;
  readonly gain_dB: number;
  readonly deaf: string;
}

/** The terminal unit. */
export interface TerminalLook extends Look {
  readonly link: 'terminal unit';
  readonly line: readonly Piece[];
  readonly tones: readonly number[];
  readonly below_Hz: number;
  readonly markTone: readonly number[];
  readonly spaceTone: readonly number[];
  readonly decision: readonly number[];
  readonly units: readonly UnitRead[];
  readonly spectrum: Spectrum | null;
  readonly before: Spectrum | null;
  readonly deaf: string;
}

/** The printer. */
export interface PrintLook extends Look {
  readonly link: 'print';
  readonly line: readonly Piece[];
  readonly units: readonly UnitRead[];
  /** Least distance of a sample from a transition, percent of a unit, 50 at best; null while the letter runs. */
  readonly margin_pct: number | null;
  readonly page: readonly string[];
  readonly letters: readonly Letter[];
  readonly deaf: string;
}

/** Either side of the frequency tuned to, Hz: both sidebands of a voice and a little more. */
const WIDE_HZ = 3600;
/** What the record calls the printer of an end. */
const printerOf = ({ own }: Scene, { who }: Receiving): string => (who === own ? 'own' : who);

type Opened = { look: Look; r: Receiving; reading: Reading };

/** `isLine`: behind the receiver, where print is print though somebody speaks on its carrier. */
function open(scene: Scene, start_us: number | null, isLine = false): Opened {
  const r = receiverOf(scene);
  const isOwn = r.who === scene.own;
  const before: CaseBefore = (t_us) =>
    isOwn && !printsIncoming(scene) ? null : caseAt(scene, printerOf(scene, r), t_us);
  const reading = read(r, start_us === null ? scene.now_us : Math.min(scene.now_us, start_us + 2 * AHEAD_US), before);
  const { shift_Hz, markLow } = r;
  const window = windowOf(r.deaf ? [] : reading.letters, scene.now_us, start_us);
  const heard = r.deaf
    ? ({ emission: 'N0N', on: 'nothing' } as const)
    : heardNear(r.ear, r.tuned_Hz, scene.now_us, window.letter !== null);
  const { emission } = heard;
  const on = isLine && isPrint(emission) ? 'print' : heard.on;
  const look: Look = { who: r.who, isOwn, on, ...needsOf(emission, shift_Hz), window, shift_Hz, markLow };
  return { look, r, reading };
}

/** The air of the last second round the frequency tuned to, and the same behind the passband. */
function spectra(scene: Scene, r: Receiving): { before: Spectrum | null; after: Spectrum | null } {
  if (r.deaf) return { before: null, after: null };
  const span = [Math.max(0, scene.now_us - 1e6), scene.now_us] as const;
  const air = r.ear.samples(span[0], span[1], r.tuned_Hz, WIDE_RATE);
  if (air.re.length < 1024) return { before: null, after: null };
  const before = spectrumOf(air.re, air.im, WIDE_RATE, 512, WIDE_HZ);
  const passed = r.passband(span, WIDE_RATE);
  // Both on one scale, so that what the passband takes away shows.
  const after = spectrumOf(passed.re, passed.im, WIDE_RATE, 512, WIDE_HZ, before.top);
  return { before, after };
}

/** Inside the whip that receives. */
export function insideFarWhip(scene: Scene, start_us: number | null): FarWhipLook {
  const { look, r } = open(scene, start_us);
  return {
    ...look,
    link: 'far whip',
    tuned_kHz: r.tuned_Hz / 1000,
    bandwidth_Hz: r.bandwidth_Hz,
    noise_dBuV: r.ear.noise_dBuV(r.tuned_Hz),
    arrivals: r.deaf
      ? []
      : r.ear.arrivals(scene.now_us).map(({ station, emission, f_Hz, field_dBuV, cn0_dB }) => {
          const { designator, needs_Hz } = needsOf(emission, r.shift_Hz);
          return { station, off_Hz: f_Hz - r.tuned_Hz, field_dBuV, cn0_dB, designator, needs_Hz };
        }),
    spectrum: spectra(scene, r).before,
    deaf: r.deaf,
  };
}

/** Inside the receiver. */
export function insideReceiver(scene: Scene, start_us: number | null): ReceiverLook {
  const { look, r } = open(scene, start_us);
  const { rx } = scene.station.wires;
  const below_Hz = referenceBelow_Hz(r.shift_Hz);
  return {
    ...look,
    link: 'receiver',
    tuned_kHz: r.tuned_Hz / 1000,
    bandwidth_Hz: r.bandwidth_Hz,
    ...spectra(scene, r),
    tones: r.deaf ? [] : toneOf(r, look.window, below_Hz),
    below_Hz,
    innerNoise_dB: r.innerNoise_dB,
    agc: look.isOwn ? rx.agc : 'slow',
    bfo_Hz: look.isOwn && rx.bfo ? rx.pitch_Hz : null,
    gain_dB: look.isOwn ? rx.gain_dB - rx.trimLoss_dB : 0,
    deaf: r.deaf,
  };
}

/** Inside the terminal unit. */
export function insideTerminal(scene: Scene, start_us: number | null): TerminalLook {
  const { look, r, reading } = open(scene, start_us, true);
  const below_Hz = referenceBelow_Hz(r.shift_Hz);
  const { waves, delay } = reading;
  const wave = (w: Float64Array, late_us: number) => (r.deaf ? [] : over(w, reading, r.rate, look.window, late_us));
  const { before, after } = spectra(scene, r);
  return {
    ...look,
    link: 'terminal unit',
    line: piecesOf(r.deaf ? [] : reading.line, look.window),
    tones: r.deaf ? [] : toneOf(r, look.window, below_Hz),
    below_Hz,
    markTone: wave(waves.mark, delay.tones),
    spaceTone: wave(waves.space, delay.tones),
    decision: wave(waves.decided, delay.decided),
    units: unitsOf(reading, r.rate, look.window),
    spectrum: after,
    before,
    deaf: r.deaf,
  };
}

const PAGE_LINES = 4;
const PAGE_PRINTS = 240;

/** The last lines that a printer has printed, from the record. */
function pageOf(scene: Scene, at: string): string[] {
  const { lines } = scene.record;
  let text = '';
  let n = 0;
  for (let i = lines.length - 1; i >= 0 && i > lines.length - 4000 && n < PAGE_PRINTS; i--) {
    const line = lines[i]!;
    if (line.k !== 'print' || line.at !== at) continue;
    text = line.c + text;
    n++;
  }
  return text.replace(/\r/g, '').split('\n').slice(-PAGE_LINES);
}

/** Inside the printer. */
export function insidePrint(scene: Scene, start_us: number | null): PrintLook {
  const { look, r, reading } = open(scene, start_us, true);
  const { letter, now_us } = look.window;
  const char = letter && reading.chars.find((c) => c.start_us === letter.start_us);
  return {
    ...look,
    link: 'print',
    line: piecesOf(r.deaf ? [] : reading.line, look.window),
    units: unitsOf(reading, r.rate, look.window),
    margin_pct: char && char.start_us + 7 * UNIT_US <= now_us ? Math.round(char.margin) : null,
    page: pageOf(scene, printerOf(scene, r)),
    letters: reading.letters.filter((l) => l.start_us <= now_us).slice(-14),
    deaf: r.deaf,
  };
}
