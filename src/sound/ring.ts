/**
 * Audio that comes in blocks at one rate and goes out steadily at another. Blocks come by the drill's clock and go by the
 * sound card's, so the pace of reading follows how much lies in store.
 */

/** Taps of the interpolating filter to each side, and steps between two samples. */
const REACH = 8;
const STEPS = 128;

/** A sinc under a raised cosine that ends REACH samples to each side. */
const KERNEL = Float64Array.from({ length: REACH * STEPS + 2 }, (_, i) => {
  const t = i / STEPS;
  if (t === 0) return 1;
  if (t >= REACH) return 0;
  return (Math.sin(Math.PI * t) / (Math.PI * t)) * (0.5 + 0.5 * Math.cos((Math.PI * t) / REACH));
});

function kernelAt(t: number): number {
  const at = Math.abs(t) * STEPS;
  const i = Math.floor(at);
  const a = KERNEL[i] ?? 0;
  return a + (at - i) * ((KERNEL[i + 1] ?? 0) - a);
}

/** Store held, seconds: covers a slow frame or two. */
export const STORE_S = 0.15;
/** Over this the oldest is left out, seconds. */
const MOST_S = 0.5;
/** Pace changes by at most this share, too little to hear as a note moving, and follows a mean of the store over so long, seconds. */
const PACE = 0.002;
const MEAN_S = 2;
/** The end of the store fades over so many samples. */
const FADE = 160;
/** And the beginning over so long, seconds. */
const RISE_S = 0.01;

/** Blocks in, steady audio out. */
export class Ring {
  private store: Float64Array;
  /** Where reading stands and where the store ends, in samples since the beginning. */
  private at = REACH;
  private end = REACH;
  private isPlaying = false;
  private gain = 0;
  private mean = 0;

  constructor(
    private readonly inRate: number,
    private readonly outRate: number,
  ) {
    this.store = new Float64Array(2 ** Math.ceil(Math.log2(inRate * 4)));
  }

  /** Samples in store, seconds. */
  get stored_s(): number {
    return Math.max(0, this.end - this.at - REACH) / this.inRate;
  }

  push(block: ArrayLike<number>): void {
    const { store } = this;
    for (let i = 0; i < block.length; i++) store[this.end++ % store.length] = block[i]!;
    if (this.stored_s <= MOST_S) return;
    this.at = this.end - REACH - STORE_S * this.inRate;
    this.gain = 0;
  }

  /** Fills `out` with what is next; silence where there is nothing. */
  pull(out: Float32Array): void {
    const { store } = this;
    const target = STORE_S * this.inRate;
    for (let i = 0; i < out.length; i++) {
      const left = this.end - this.at - REACH;
      if (!this.isPlaying && left >= target) {
        this.isPlaying = true;
        this.mean = target;
      }
      if (!this.isPlaying || left <= 0) {
        this.isPlaying = false;
        this.gain = 0;
        out[i] = 0;
        continue;
      }
      const whole = Math.floor(this.at);
      const part = this.at - whole;
      let sum = 0;
      for (let k = 1 - REACH; k <= REACH; k++) sum += store[(whole + k) % store.length]! * kernelAt(k - part);
      this.gain = Math.min(1, this.gain + 1 / (RISE_S * this.outRate));
      out[i] = sum * Math.min(this.gain, left / FADE);
      this.mean += (left - this.mean) / (MEAN_S * this.outRate);
      const off = Math.max(-1, Math.min(1, this.mean / target - 1));
      this.at += (this.inRate / this.outRate) * (1 + PACE * off);
    }
  }
}
