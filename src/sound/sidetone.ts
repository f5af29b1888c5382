/** The note that an operator hears of the own hand key. It comes from an oscillator of the sound card, without the receiver's delay. */
import type { Drill } from '../core/drill.ts';

/** Pitch, Hz (common practice: 600 to 800). */
export const SIDETONE_HZ = 700;
const SHARE = 0.15;
/** Time constant of rise and fall, seconds: no clicks. */
const EDGE_S = 0.003;

/** The key is down and the sender would follow it. */
export const sidetoneOn = (drill: Drill): boolean =>
  drill.standing('hand.key') === true &&
  drill.standing('sender.emission') === 'A1A' &&
  drill.station.state.wires.armed &&
  !drill.ended;

/** The sidetone's oscillator. */
export class Sidetone {
  private readonly oscillator: OscillatorNode;
  private readonly gain: GainNode;
  private isOn = false;

  constructor(
    private readonly ctx: AudioContext,
    out: AudioNode,
  ) {
    this.oscillator = new OscillatorNode(ctx, { frequency: SIDETONE_HZ });
    this.gain = new GainNode(ctx, { gain: 0 });
    this.oscillator.connect(this.gain).connect(out);
    this.oscillator.start();
  }

  key(isOn: boolean): void {
    if (isOn === this.isOn) return;
    this.isOn = isOn;
    this.gain.gain.setTargetAtTime(isOn ? SHARE : 0, this.ctx.currentTime, EDGE_S);
  }

  close(): void {
    this.oscillator.stop();
    this.oscillator.disconnect();
    this.gain.disconnect();
  }
}
