/** Sound: the receiver through an AudioWorklet, the machines through Howler. It looks at the drill and changes nothing in it. */
import { Howler } from 'howler';
import { Captions } from './captions.ts';
import type { Loop } from './cues.ts';
import { broughtIn, Headset } from './headset.ts';
import type { Sound, SoundHost } from './host.ts';
import { openContext, Player, unlock } from './player.ts';
import workletUrl from './receiver-worklet.ts?worker&url';
import { type Running, Shelter } from './shelter.ts';
import { Sidetone, sidetoneOn } from './sidetone.ts';

/** How often the drill is looked at, ms. */
const LOOK_MS = 40;
/** A clock that has not moved for so long stands: everything falls silent, ms. */
const STANDS_MS = 400;

const NOTHING: ReadonlyMap<Loop, Running> = new Map();

/** A way out for the receiver's audio; without one (no worklet, no secure page) the drill goes on by captions. */
async function openOutlet(ctx: AudioContext): Promise<AudioWorkletNode | null> {
  if (!ctx.audioWorklet) return null;
  await ctx.audioWorklet.addModule(workletUrl);
  const node = new AudioWorkletNode(ctx, 'receiver-outlet', { numberOfInputs: 0, outputChannelCount: [1] });
  node.connect(Howler.masterGain);
  return node;
}

class SoundAtWork implements Sound {
  private readonly headset: Headset;
  private readonly shelter: Shelter;
  private readonly captions = new Captions();
  private readonly player = new Player();
  private readonly sidetone: Sidetone | null;
  private readonly ending: (() => void)[] = [];
  private isMuted = false;
  private seen_us = -1;
  private moved_ms = performance.now();

  constructor(
    private readonly host: SoundHost,
    ctx: AudioContext | null,
    private readonly outlet: AudioWorkletNode | null,
  ) {
    this.headset = new Headset(host.drill);
    this.shelter = new Shelter(host.drill);
    this.sidetone = ctx ? new Sidetone(ctx, Howler.masterGain) : null;
    if (ctx) this.ending.push(unlock(ctx, window));
    const timer = setInterval(() => this.look(), LOOK_MS);
    this.ending.push(
      () => clearInterval(timer),
      host.onChange(() => this.sidetone?.key(sidetoneOn(host.drill))),
    );
  }

  close(): void {
    for (const end of this.ending) end();
    this.captions.tell(performance.now(), [], null, []);
    this.player.close();
    this.sidetone?.close();
    this.outlet?.disconnect();
    this.outlet?.port.close();
  }

  mute(on: boolean): void {
    this.isMuted = on;
    Howler.mute(on);
  }

  volume(share: number): void {
    Howler.volume(Math.min(1, Math.max(0, share)));
  }

  sounding(): readonly string[] {
    return this.captions.words;
  }

  onSounding(listener: (words: readonly string[]) => void): () => void {
    return this.captions.onChange(listener);
  }

  private look(): void {
    const now_ms = performance.now();
    const { drill } = this.host;
    if (drill.now_us !== this.seen_us) this.moved_ms = now_ms;
    this.seen_us = drill.now_us;
    const stands = drill.ended || now_ms - this.moved_ms > STANDS_MS;
    const { strikes, loops } = this.shelter.hear();
    const running = stands ? NOTHING : loops;
    for (const strike of strikes) this.player.strike(strike, now_ms);
    this.player.keep(running);
    this.captions.tell(now_ms, running.values(), stands ? null : broughtIn(drill), strikes);
    this.receive();
  }

  private receive(): void {
    if (this.isMuted || !this.outlet) return;
    const audio = this.headset.take();
    // Mere silence need not travel: the outlet is silent when its store runs dry.
    if (audio.every((x) => x === 0)) return;
    const block = Float32Array.from(audio);
    this.outlet.port.postMessage(block, [block.buffer]);
  }
}

/** Sets sound going for a drill. Nothing is heard before the trainee's first touch or key. */
export async function openSound(host: SoundHost): Promise<Sound> {
  const ctx = openContext();
  const outlet = ctx ? await openOutlet(ctx).catch(() => null) : null;
  return new SoundAtWork(host, ctx, outlet);
}
