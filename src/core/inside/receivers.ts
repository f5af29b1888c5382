/** The end that receives: whose it is, where it stands, and what comes through its passband. */

import { VOICE_HZ } from '../distant/hearing.ts';
import { converterRate } from '../samples/converter.ts';
import { butterworthLowPass, filterInPlace, restOf } from '../samples/filter.ts';
import type { Ear } from '../signals.ts';
import { passbandBlock } from '../station/boxes/terminal-unit.ts';
import type { Wires } from '../station/wires.ts';
import { hasWords } from './carried.ts';
import { type Far, isPrint, receiveWay, type Scene } from './scene.ts';

type Samples = { re: Float64Array; im: Float64Array };
/** One end that receives. */
export type Receiving = {
  who: string;
  ear: Ear;
  tuned_Hz: number;
  shift_Hz: number;
  markLow: boolean;
  hold: boolean;
  bandwidth_Hz: number;
  /** Its own noise over the external, dB. */
  innerNoise_dB: number;
  rate: number;
  /** Why nothing can be had of it, or ''. */
  deaf: string;
  /** What comes through the passband between two instants. */
  passband(span: readonly [number, number], rate: number): Samples;
};

function deafness(rx: Wires['rx']): string {
  if (!rx.on) return 'the receiver is off';
  return rx.deaf ? 'the whip is at the sender' : '';
}

function ownReceiver(scene: Scene): Receiving {
  const { wires: w, boxes } = scene.station;
  const rate = converterRate(w.shift_Hz);
  return {
    who: scene.own,
    ear: scene.ear,
    tuned_Hz: w.rx.tuned_Hz,
    shift_Hz: w.shift_Hz,
    markLow: w.markLow,
    hold: boxes['keyer']?.set['hold'] === true,
    bandwidth_Hz: w.rx.bandwidth_Hz,
    innerNoise_dB: w.rx.innerNoise_dB,
    rate,
    deaf: deafness(w.rx),
    passband: (span, at) => passbandBlock(scene.ear, w.rx, at, span, scene.seed, [[], []]),
  };
}

const FAR_RATE = 2400;
/** A far terminal unit's front filter is this much wider than its shift (converter.ts: four times the bauds). */
const FAR_FRONT_HZ = 200;
/** A far receiver's own noise counts for nothing, dB. */
const FAR_NOISE_dB = -60;

/** How wide the distant operator listens: through the terminal unit's front filter to print alone, else by ear. */
function farWidth_Hz({ own, now_us }: Scene, { ear, shift_Hz }: Far): number {
  const isPrinting = ear.arrivals(now_us).some((a) => a.station === own && isPrint(a.emission));
  return isPrinting && !hasWords(ear, now_us) ? shift_Hz + FAR_FRONT_HZ : VOICE_HZ;
}

/** The far one's while the own sender radiates, else the own. */
export function receiverOf(scene: Scene): Receiving {
  const { far } = scene;
  if (!far || receiveWay(scene) === 'in') return ownReceiver(scene);
  const { ear, tuned_Hz, shift_Hz, call: who } = far;
  const bandwidth_Hz = farWidth_Hz(scene, far);
  return {
    who,
    ear,
    tuned_Hz,
    shift_Hz,
    markLow: true,
    hold: true,
    bandwidth_Hz,
    innerNoise_dB: FAR_NOISE_dB,
    rate: FAR_RATE,
    deaf: '',
    passband: ([a, b], rate) => {
      const samples = ear.samples(a, b, tuned_Hz, rate);
      // At its own rate the converter does the filtering.
      if (rate === FAR_RATE) return samples;
      const front = butterworthLowPass(4, bandwidth_Hz / 2, rate);
      filterInPlace(samples.re, front, restOf(front));
      filterInPlace(samples.im, front, restOf(front));
      return samples;
    },
  };
}
