/** The receiver as a listener needs it: from the box's state and wires to what the sample kernels take. Looking changes nothing. */
import type { Listening } from '../../samples/receiver-input.ts';
import type { Ear } from '../../signals.ts';
import type { StationState } from '../station.ts';
import type { Wires } from '../wires.ts';
import { LEAK_dBuV, type ReceiverState } from './receiver.ts';
import { effectiveHeight_dB, innerNoise_dB, loudness_dB } from './receiver-front.ts';

/** Volume of AF gain and headset or loudspeaker together, dB: 0 is full; null is silent. */
function volume_dB(s: ReceiverState, w: Wires): number | null {
  const isSilent = Number(s.set['afGain']) === 0 || (w.ears.phones === 0 && !w.ears.speaker);
  return isSilent ? null : loudness_dB(0, s.set, w.ears);
}

/** What stands between the ear and the operator's own now; null when the receiver is off. */
export function listeningOf(state: StationState, ear: Ear): Listening | null {
  const s = state.boxes['receiver'] as ReceiverState;
  const { rx, whip, relay, radiated_W } = state.wires;
  if (!rx.on) return null;
  const noise = ear.noise_dBuV(rx.tuned_Hz);
  const gain_dB = rx.gain_dB - rx.trimLoss_dB;
  // The wire holds own noise and blocking together: a valve pressed down by so much, beside noise that stays, is the same ratio.
  const inner_dB = innerNoise_dB(s.noise, whip.height_m, rx.gain_dB, rx.trimLoss_dB);
  return {
    tuned_Hz: rx.tuned_Hz,
    outside_dBuV: noise + effectiveHeight_dB(whip.height_m) + gain_dB,
    inner_dB,
    desensed_dB: Math.max(0, rx.innerNoise_dB - inner_dB),
    gain_dB,
    deaf: rx.deaf,
    leak_dBuV: rx.deaf && relay === 'sender' && radiated_W > 0 ? LEAK_dBuV + rx.gain_dB : null,
    calibrator_ppm: s.set['calibrator'] === true ? s.crystal_ppm : null,
    settings: {
      bandwidth_Hz: rx.bandwidth_Hz,
      agc: rx.agc,
      bfo_Hz: rx.bfo ? rx.pitch_Hz : null,
      limiter: rx.limiter,
      volume_dB: rx.deaf ? null : volume_dB(s, state.wires),
    },
  };
}
