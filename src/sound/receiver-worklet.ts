/** The sound card's side: blocks of receiver audio come by the port and go out through the ring. */
import { Ring } from './ring.ts';

const RATE = 8000;

class ReceiverOutlet extends AudioWorkletProcessor {
  private readonly ring = new Ring(RATE, sampleRate);

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<Float32Array>) => this.ring.push(data);
  }

  process(_inputs: Float32Array[][], [output]: Float32Array[][]): boolean {
    const [channel] = output ?? [];
    if (channel) this.ring.pull(channel);
    return true;
  }
}

registerProcessor('receiver-outlet', ReceiverOutlet);
