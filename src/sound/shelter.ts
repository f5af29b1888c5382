/** What the machines of the shelter sound like now, from a drill by looking only: strikes since the last look, and what goes on. */
import type { Drill } from '../core/drill.ts';
import { LOOPS, type Loop, type Strike } from './cues.ts';

/** A sound that goes on: its pace (1 as recorded) and the words for it. */
export interface Running {
  readonly pace: number;
  readonly words: string;
}

/** What is to be heard after a look. */
export interface Heard {
  readonly strikes: readonly Strike[];
  readonly loops: ReadonlyMap<Loop, Running>;
}

/** More strikes than this at one look are a leap of the clock, not a sound. */
const MOST = 6;
const BELL = '\u0007';

const OF_FACE: Readonly<Record<string, Strike>> = {
  tiller: 'lever',
  plunger: 'button',
  push: 'button',
  caged: 'button',
  limpet: 'detent',
  fine: 'detent',
  drums: 'detent',
  jack: 'plug',
  key: 'contact',
  microphone: 'contact',
  keyboard: 'keytop',
};

/** What struck of itself when it stands otherwise than at the last look. */
type Marks = { relay: string; tripped: number; trip: boolean; reading: number; punched: number };

function ofPrint(c: string): Strike {
  if (c === BELL) return 'bell';
  if (c === '\r') return 'carriage';
  return c >= ' ' ? 'hammer' : 'function';
}

const count = (words: unknown): number => (typeof words === 'string' && words !== 'none' ? words.split(' ').length : 0);

/** The machines of one drill. */
export class Shelter {
  private seen: number;
  private marks: Marks;

  /** What happened before now is not heard. */
  constructor(private readonly drill: Drill) {
    this.seen = drill.record.lines.length;
    this.marks = this.look();
  }

  /** Everything since the last call. */
  hear(): Heard {
    const strikes = [...this.ofLines(), ...this.ofMarks()];
    return { strikes: strikes.length > MOST ? strikes.slice(-MOST) : strikes, loops: this.loops() };
  }

  private ofLines(): Strike[] {
    const { lines } = this.drill.record;
    const fresh = lines.slice(this.seen);
    this.seen = lines.length;
    return fresh.flatMap((line): Strike[] => {
      if (line.k === 'print') return line.at === 'own' ? [ofPrint(line.c)] : [];
      if (line.k === 'mode') return line.box === 'feed' && line.mode === 'clicking' ? ['starter'] : [];
      if (line.k !== 'do') return [];
      const next = lines[line.i];
      // A key that is refused does not go down: it knocks.
      const isLocked = next?.k === 'refused' && line.control === 'printer.key';
      return isLocked ? ['locked'] : this.ofHand(line.control);
    });
  }

  private ofHand(control: string): Strike[] {
    if (control === 'tape.tear' || control === 'printer.tearOff') return ['paper'];
    const strike = OF_FACE[this.drill.control(control)?.face ?? ''];
    return strike ? [strike] : [];
  }

  private look(): Marks {
    const { drill } = this;
    const reading = drill.see('tape.reading') as { at?: number } | undefined;
    return {
      relay: drill.station.state.wires.relay,
      tripped: count(drill.see('feed.tripped')),
      trip: drill.see('sender.trip') === true,
      reading: drill.see('tape.lamp') === true ? (reading?.at ?? 0) : -1,
      punched: Number(drill.see('tape.count') ?? 0),
    };
  }

  private ofMarks(): Strike[] {
    const was = this.marks;
    const now = this.look();
    this.marks = now;
    const out: Strike[] = [];
    if (now.relay !== was.relay) out.push('relay');
    if (now.tripped > was.tripped || (now.trip && !was.trip)) out.push('breaker');
    if (was.reading >= 0 && now.reading > was.reading) out.push('tick');
    if (now.punched > was.punched) out.push('punch');
    return out;
  }

  private loops(): Map<Loop, Running> {
    const { drill } = this;
    const { boxes, wires } = drill.station.state;
    const out = new Map<Loop, Running>();
    if (drill.ended) return out;
    const on = (loop: Loop, pace = 1, words: string = LOOPS[loop].words) => out.set(loop, { pace, words });
    const inverter = boxes['inverter']?.mode;
    if (inverter === 'runUp') on('hum', wires.mains_Hz / 50, 'Inverter runs up');
    if (inverter === 'running') on('hum', wires.mains_Hz / 50);
    if (boxes['feed']?.mode === 'cranking') on('crank', wires.bus_V > 0 ? wires.bus_V / 24 : 1);
    if (boxes['feed']?.mode === 'running') on('engine');
    if (wires.live.vent) on('vent', wires.bus_V / 28);
    if (wires.live.sender && drill.standing('sender.fan') === true) on('fan', 1.3);
    const printer = boxes['printer']?.mode;
    if (printer === 'runUp') on('motor', wires.mains_Hz / 60, 'Printer motor runs up');
    if (printer === 'running') on('motor', wires.mains_Hz / 50);
    if (drill.see('sender.motors') === true) on('whirr');
    return out;
  }
}
