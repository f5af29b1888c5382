/** What comes to the operator's ears by wire: the receiver's audio and the own voice, drawn from a drill by looking only. */
import type { Drill } from '../core/drill.ts';
import {
  AUDIO_RATE,
  intermediateRate,
  type ReceiverState,
  receive,
  receiverAtRest,
} from '../core/samples/receiver-chain.ts';
import { type InputState, inputAtRest, inputInPlace, type Listening } from '../core/samples/receiver-input.ts';
import { addMurmur } from './murmur.ts';

/** Every rate has whole samples at whole multiples of this. */
const GRAIN_US = 500;
/** More than this to catch up and the older part is left out. */
const LATE_US = 400_000;
/** What is left of it then. */
const CATCH_US = 60_000;

const TABLE = 65_536;

function scramble(x: number): number {
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return (x ^ (x >>> 16)) >>> 0;
}

let table: Float64Array | undefined;
/** Normal values for the set's own hiss. They decide nothing, so they need not be the drill's dice. */
function hiss(index: number): number {
  table ??= Float64Array.from({ length: TABLE }, (_, i) => {
    const [u, v] = [(scramble(2 * i) + 1) / 2 ** 32, scramble(2 * i + 1) / 2 ** 32];
    return Math.sqrt(-2 * Math.log(Math.min(1, u))) * Math.cos(2 * Math.PI * v);
  });
  return table[scramble(index | 0) % TABLE] as number;
}

/** The ears' wire. It remembers where it left off and what the receiver's filters hold. */
export class Headset {
  private from_us = -1;
  private state: ReceiverState = receiverAtRest();
  private input: InputState = inputAtRest();

  constructor(private readonly drill: Drill) {}

  /** Audio at 8 kHz from where the last take ended up to the drill's now. Empty when nothing can come; silence while the receiver is off. */
  take(): Float64Array {
    const to_us = Math.floor(this.drill.now_us / GRAIN_US) * GRAIN_US;
    if (this.from_us < 0 || to_us - this.from_us > LATE_US) this.from_us = Math.max(0, to_us - CATCH_US);
    const t0_us = this.from_us;
    if (to_us <= t0_us) return new Float64Array(0);
    this.from_us = to_us;
    const listening = this.drill.listening();
    const audio = this.receiver(listening, t0_us, to_us);
    if (this.canMurmur()) addMurmur(audio, AUDIO_RATE, t0_us, this.drill.station.state.wires.words);
    return audio;
  }

  private receiver(listening: Listening | null, t0_us: number, to_us: number): Float64Array {
    const silence = () => new Float64Array(((to_us - t0_us) * AUDIO_RATE) / 1e6);
    if (!listening) {
      this.state = receiverAtRest();
      return silence();
    }
    const { settings } = listening;
    // Silenced for good, it need not be worked; muted while sending, it must: the AGC is pressed down meanwhile.
    if (settings.volume_dB === null && !listening.deaf && this.state.volume === 0) return silence();
    const rate = intermediateRate(settings.bandwidth_Hz);
    const { re, im } = this.drill.ear.samples(t0_us, to_us, listening.tuned_Hz, rate);
    const first = Math.ceil((t0_us * rate) / 1e6);
    this.input = inputInPlace(this.input, re, im, first, rate, listening, hiss);
    const { state, audio } = receive(this.state, re, im, settings);
    this.state = state;
    return audio;
  }

  /** The own voice needs no receiver, only a mouth; with headset and loudspeaker down it is heard as well as ever. */
  private canMurmur(): boolean {
    return this.drill.station.state.wires.talking;
  }
}

/** What the receiver brings, in words; null when it brings nothing that can be heard. */
export function broughtIn(drill: Drill): string | null {
  const listening = drill.listening();
  if (!listening || listening.deaf || listening.settings.volume_dB === null) return null;
  const { tuned_Hz, inner_dB, settings } = listening;
  const floor_dB = 10 * Math.log10((1 + 10 ** (inner_dB / 10)) * settings.bandwidth_Hz);
  const signal = drill.ear
    .arrivals(drill.now_us)
    .find((a) => Math.abs(a.f_Hz - tuned_Hz) < settings.bandwidth_Hz / 2 && a.cn0_dB > floor_dB);
  if (settings.bfo_Hz !== null && signal?.emission === 'F1B') return 'Receiver: two tones, print';
  const note = drill.see('receiver.note');
  if (typeof note === 'number' && note > 0) return `Receiver: a note of ${note} Hz`;
  if (signal?.emission === 'A3E' || signal?.emission === 'A3E+F1B') return 'Receiver: a carrier, the hiss sinks';
  return 'Receiver: hiss';
}
