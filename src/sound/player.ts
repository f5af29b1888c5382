/** The loudspeaker of the browser: one shared audio context, Howler's. It sounds once the trainee has touched something. */
import { Howl, Howler } from 'howler';
import { LOOPS, type Loop, recordingOf, STRIKES, type Strike } from './cues.ts';
import type { Running } from './shelter.ts';

const files = import.meta.glob<string>('../../assets/sounds/*.wav', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
});

/** Loops swell and sink over so long, ms. */
const FADE_MS = 250;
/** Howler plays no slower and no faster than this. */
const SLOWEST = 0.5;
const FASTEST = 2;
/** The same strike follows itself no sooner than this, ms. */
const APART_MS = 25;

/** Howler's context, made on first use. Two of its habits are switched off: suspending it after 30 silent seconds would mute the receiver, and its own unlocking replaces a context of 48 kHz by a new one. */
export function openContext(): AudioContext | null {
  Howler.autoSuspend = false;
  Howler.autoUnlock = false;
  Howler.volume(Howler.volume());
  return Howler.usingWebAudio ? Howler.ctx : null;
}

/** Lets the context begin, now if the browser allows it, else at the next touch or key. Returns how to stop waiting. */
export function unlock(ctx: AudioContext, target: EventTarget): () => void {
  const gestures = ['pointerdown', 'keydown', 'touchend'];
  const stop = () => {
    for (const g of gestures) target.removeEventListener(g, begin, true);
  };
  const begin = () => void ctx.resume().then(stop, () => undefined);
  for (const g of gestures) target.addEventListener(g, begin, true);
  begin();
  return stop;
}

const pace = (p: number): number => Math.min(FASTEST, Math.max(SLOWEST, p));

/** Plays strikes and keeps loops going. */
export class Player {
  private readonly howls = new Map<string, Howl>();
  private readonly going = new Map<Loop, number>();
  private readonly last = new Map<Strike, number>();

  /** Fetches what strikes, so that the first one is not late. */
  constructor() {
    for (const strike of Object.keys(STRIKES) as Strike[]) this.howl(strike);
  }

  strike(strike: Strike, now_ms: number): void {
    if (now_ms - (this.last.get(strike) ?? -APART_MS) < APART_MS) return;
    this.last.set(strike, now_ms);
    const howl = this.howl(strike);
    howl.volume(STRIKES[strike].share, howl.play());
  }

  /** Begins what is new, follows the pace of what goes on, ends the rest. */
  keep(loops: ReadonlyMap<Loop, Running>): void {
    for (const [loop, running] of loops) {
      const howl = this.howl(loop);
      const id = this.going.get(loop) ?? this.begin(howl, loop);
      howl.rate(pace(running.pace), id);
    }
    for (const [loop, id] of this.going) if (!loops.has(loop)) this.end(loop, id);
  }

  close(): void {
    for (const howl of this.howls.values()) howl.unload();
    this.howls.clear();
    this.going.clear();
  }

  private begin(howl: Howl, loop: Loop): number {
    const id = howl.play();
    howl.loop(true, id);
    howl.fade(0, LOOPS[loop].share, FADE_MS, id);
    this.going.set(loop, id);
    return id;
  }

  private end(loop: Loop, id: number): void {
    const howl = this.howl(loop);
    this.going.delete(loop);
    howl.fade(LOOPS[loop].share, 0, FADE_MS, id);
    howl.once('fade', () => howl.stop(id), id);
  }

  private howl(cue: Strike | Loop): Howl {
    const name = recordingOf(cue);
    let howl = this.howls.get(name);
    if (!howl) {
      howl = new Howl({ src: [files[`../../assets/sounds/${name}.wav`] as string], format: ['wav'] });
      this.howls.set(name, howl);
    }
    return howl;
  }
}
