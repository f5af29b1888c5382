/** A queue, an ether, distant stations, and an own station that follows a script. */
import { CORRESPONDENTS } from '../../../src/core/distant/correspondents/list.ts';
import { type DistantSpec, DistantStations } from '../../../src/core/distant/distant.ts';
import { Ether, type EtherState } from '../../../src/core/ether/ether.ts';
import { newQueue, type Queue, schedule, takeDue } from '../../../src/core/kernel/queue.ts';
import { micros } from '../../../src/core/quantity/quantity.ts';
import { type AirSeen, watchAir } from '../../../src/core/record/air-watch.ts';
import type { Line, LineBody } from '../../../src/core/record/record.ts';
import type { CarrierStep, Radiation } from '../../../src/core/signals.ts';
import { encode } from '../../../src/core/telegraphy/ita2.ts';
import { codesEdges } from '../../../src/core/telegraphy/startstop.ts';
import { surroundings } from '../ether/setting.ts';

export const OWN = 'QV4M';
export const POST = 'QV7K';
export const ISLE = 'QV9B';
export const CHANNEL_HZ = 4_718_000;
const TICK_US = 250_000;
const WORD_US = 400_000;

/** Ten by ten, cell by place: row A column M is AM and so on. */
export const card = {
  name: 'test',
  rows: 'ABCDEFGHKL',
  columns: 'MNPQRSTUWX',
  valid: '2031-10-06',
  cells: Array.from('ABCDEFGHKL', (r) => Array.from('MNPQRSTUWX', (c) => r + c)),
};
export const message = {
  id: 'NR14',
  to: POST,
  precedence: 'PRIORITY' as const,
  lines: [
    'QV7K DE QV4M',
    'NR 14 PRIORITY 060930Z',
    'FM SAND QUAY',
    'TO TERN NESS',
    'GR 8',
    '=',
    'ROAD OPEN UNTIL 1600. BRING 40 BLANKETS TODAY',
    '=',
  ],
};

export type Sent = { power_W?: number; f_Hz?: number };
export type Printed = Sent & { steady_s?: number; shift_Hz?: number; markLow?: boolean };
/** All of a rig as plain data. */
export type Saved = { queue: Queue; state: DistantStations['state']; ether: EtherState; own: Radiation; air: AirSeen };

export class Rig {
  readonly lines: Line[] = [];
  readonly distant: DistantStations;
  readonly ether: Ether;
  readonly own: Radiation;
  private readonly queue: Queue;
  private readonly air: AirSeen;

  constructor(
    readonly specs: readonly DistantSpec[],
    readonly seed = 1,
    readonly stretch = 1,
    from?: Saved,
    papers = { card, messages: [message] },
  ) {
    this.queue = from?.queue ?? newQueue();
    this.own = from?.own ?? { station: OWN, emission: 'A3E', steps: [], words: [], depth: 0.8 };
    this.air = from?.air ?? {};
    this.ether = new Ether(surroundings, seed, () => this.radiations(), from?.ether);
    this.distant = new DistantStations(CORRESPONDENTS, specs, {
      queue: this.queue,
      seed,
      utc0_s: 34_800,
      stretch,
      papers,
      earOf: (call) => this.ether.earOf(call),
      note: (body) => this.note(body),
    });
    if (from) this.distant.state = from.state;
    else {
      this.distant.start();
      schedule(this.queue, TICK_US, 'tick', null);
    }
  }

  get now_s(): number {
    return this.queue.now_us / 1e6;
  }

  private radiations(): Radiation[] {
    return [this.own, ...this.distant.radiations()];
  }

  private note(body: LineBody): void {
    this.lines.push({ t: this.queue.now_us, i: this.lines.length + 1, ...body });
  }

  private look(): void {
    this.ether.follow(this.queue.now_us);
    watchAir(this.radiations(), this.air, this.queue.now_us, (body) => this.note(body));
    this.distant.stir();
  }

  /** Let seconds pass. */
  run(seconds: number): this {
    const until = micros(Math.round(this.queue.now_us + seconds * 1e6));
    for (let due = takeDue(this.queue, until); due; due = takeDue(this.queue, until)) {
      if (due.to === 'tick') schedule(this.queue, TICK_US, 'tick', null);
      else this.distant.wake(due.to, due.event);
      this.look();
    }
    return this;
  }

  private on(steps: CarrierStep[]): void {
    this.own.steps.push(...steps);
    this.look();
  }

  /** Say words now and let the time pass that they take. */
  say(text: string, { power_W = 8, f_Hz = CHANNEL_HZ }: Sent = {}): this {
    const { now_us } = this.queue;
    const words = text.split(' ');
    const t0 = now_us + 200_000;
    const end = t0 + words.length * WORD_US + 400_000;
    this.own.emission = 'A3E';
    for (const [i, word] of words.entries())
      this.own.words.push({ t0_us: t0 + i * WORD_US, t1_us: t0 + (i + 1) * WORD_US, word, by: 'voice' });
    this.on([
      { t_us: now_us, f_Hz, power_W },
      { t_us: end, f_Hz, power_W: 0 },
    ]);
    return this.run((end - now_us) / 1e6);
  }

  /** Send text as print now: steady mark, the text, a little mark; lets the time pass that it takes. */
  print(text: string, o: Printed = {}): this {
    const { power_W = 8, f_Hz = CHANNEL_HZ, steady_s = 3, shift_Hz = 400, markLow = true } = o;
    const { now_us } = this.queue;
    const at = (mark: boolean) => f_Hz + (mark === markLow ? -shift_Hz : shift_Hz) / 2;
    const { edges, end_us } = codesEdges(encode(text).codes, now_us + steady_s * 1e6, 50, 1.5);
    const end = end_us + 500_000;
    this.own.emission = 'F1B';
    this.on([
      { t_us: now_us, f_Hz: at(true), power_W },
      ...edges.map((e) => ({ t_us: e.t_us, f_Hz: at(e.mark), power_W })),
      { t_us: end, f_Hz: at(true), power_W: 0 },
    ]);
    return this.run((end - now_us) / 1e6);
  }

  /** The inner truth of a station, in order. */
  far(station = POST): string[] {
    return this.lines.flatMap((l) => (l.k === 'far' && l.station === station ? [l.what] : []));
  }

  /** Detail of the last such line. */
  detail(what: string): { [key: string]: unknown } | undefined {
    const found = this.lines.filter((l) => l.k === 'far' && l.what === what).at(-1);
    return found?.k === 'far' ? found.detail : undefined;
  }

  /** When a station last did something, s. */
  when(what: string): number {
    return (this.lines.filter((l) => l.k === 'far' && l.what === what).at(-1)?.t ?? Number.NaN) / 1e6;
  }

  /** What a station said, an utterance a string. */
  said(station = POST): string[] {
    return this.lines.flatMap((l) => (l.k === 'spoke' && l.station === station ? [l.words] : []));
  }

  /** What a station printed. */
  printed(station = POST): string {
    return this.lines.flatMap((l) => (l.k === 'print' && l.at === station ? [l.c] : [])).join('');
  }

  save(): Saved {
    const { queue, own, air } = this;
    return JSON.parse(JSON.stringify({ queue, state: this.distant.state, ether: this.ether.state, own, air }));
  }
}

export const spelledCall = { [OWN]: 'QUEBEC VICTOR FOUR MIKE', [POST]: 'QUEBEC VICTOR SEVEN KILO' } as const;
/** The opening of a transmission from the own station to the post. */
export const TO_POST = `${spelledCall[POST]} THIS IS ${spelledCall[OWN]}`;
export const FROM_POST = `${spelledCall[OWN]} THIS IS ${spelledCall[POST]}`;
