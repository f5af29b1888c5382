/** How a station carries an event through its boxes, and the waves on its wires. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setup } from 'xstate';
import { prune } from '../../../src/core/kernel/history.ts';
import { newQueue, type Queue, takeDue } from '../../../src/core/kernel/queue.ts';
import { misfit } from '../../../src/core/record/range.ts';
import type { LineBody } from '../../../src/core/record/record.ts';
import type { Edge, Json } from '../../../src/core/signals.ts';
import {
  type Box,
  type BoxState,
  type Control,
  type Found,
  onStep,
  rest,
  TICK_US,
} from '../../../src/core/station/box.ts';
import { Station, type StationHost, type StationState } from '../../../src/core/station/station.ts';
import { markAt, put, replan, series, steady } from '../../../src/core/station/wave.ts';
import { silentEar } from './boxes/rig.ts';

type Kettle = BoxState & { heat: number; settled: number; woken: Json[] };

const controls: readonly Control[] = [
  { id: 'lever', name: 'lever', face: 'tiller', range: { kind: 'words', words: ['off', 'on', 'stuck'] }, inside: '' },
  {
    id: 'knob',
    name: 'knob',
    face: 'limpet',
    range: { kind: 'number', min: -1, max: 2, step: 0.1, unit: '' },
    inside: '',
  },
];

/** A box that does a little of everything. */
const kettle = (id: string): Box<Kettle> => ({
  id,
  name: id,
  bay: 'desk',
  about: '',
  source: '',
  controls,
  indicators: [{ id: 'heat', name: 'heat', face: 'window', read: (s) => s.heat }],
  sampled: [{ id: 'heat', unit: '', step: 0.5, read: (s) => s.heat }],
  machine: setup({ types: { events: {} as { type: 'ON' | 'OFF' } } }).createMachine({
    id: 'kettle',
    initial: 'cold',
    states: {
      cold: { on: { ON: 'warming' } },
      warming: { after: { 1000: 'hot' }, on: { OFF: 'cold' } },
      hot: { on: { OFF: 'cold' } },
    },
  }),
  inner: {},
  start: () => ({ mode: '', set: { lever: 'off', knob: 0 }, heat: 0, settled: 0, woken: [] }),
  turn(_s, control, value, _w, bench) {
    if (control !== 'lever') return undefined;
    if (value === 'stuck') return 'it is stuck';
    bench.fire(value === 'on' ? 'ON' : 'OFF');
    bench.after(300_000, 'soon');
    return undefined;
  },
  settle(s, w) {
    s.settled += 1;
    w.bus_V = s.heat;
  },
  tick(s, _w, dt_s) {
    if (s.mode !== 'cold') s.heat += dt_s;
  },
  woken(s, event) {
    s.woken.push(event);
  },
});

type Copy = { queue: Queue; state: StationState };
function at(boxes: readonly Box[], found: Record<string, Found> = {}, from?: Copy) {
  const queue: Queue = from?.queue ?? newQueue();
  const notes: ({ t: number } & LineBody)[] = [];
  const host: StationHost = {
    queue,
    seed: 1,
    utc0_s: 0,
    ear: silentEar,
    note: (body) => notes.push({ t: queue.now_us, ...body }),
    end: () => {},
  };
  const station = from ? new Station(boxes, from.state, host) : Station.found(boxes, 'QV4M', found, host);
  const run = (until_us: number) => {
    for (let due = takeDue(queue, until_us as never); due; due = takeDue(queue, until_us as never))
      if (due.to === 'tick') station.tick();
      else station.wake(due.to, due.event);
  };
  const state = (id: string) => station.state.boxes[id] as Kettle;
  return { station, queue, notes, run, state };
}

describe('station', () => {
  it('refuses what does not fit, in words, and leaves the control where it stood', () => {
    const { station } = at([kettle('a')]);
    expect(station.turn('a.lever', 'up')).toMatch(/off, on, stuck/);
    expect(station.turn('a.knob', 2.5)).toMatch(/-1 to 2/);
    expect(station.turn('a.knob', Number.NaN)).toMatch(/number/);
    expect(station.turn('a.bell', true)).toMatch(/no control a.bell/);
    expect(station.turn('b.lever', 'on')).toMatch(/no control b.lever/);
    expect(station.turn('a.lever', 'stuck')).toBe('it is stuck');
    expect(station.standing('a.lever')).toBe('off');
  });

  it('settles every box twice after an event', () => {
    const { station, state } = at([kettle('a'), kettle('b')]);
    const before = state('b').settled;
    station.turn('a.knob', 1);
    expect(state('b').settled).toBe(before + 2);
  });

  it('runs the delays of a machine as its own queue says, and forgets them when the mode ends', () => {
    const { station, run, state, notes } = at([kettle('a')]);
    station.turn('a.lever', 'on');
    run(999_999);
    expect(state('a').mode).toBe('warming');
    run(1_000_000);
    expect(state('a').mode).toBe('hot');
    expect(notes.filter((n) => n.k === 'mode').map((n) => [n.t, n.k === 'mode' && n.mode])).toEqual([
      [0, 'warming'],
      [1_000_000, 'hot'],
    ]);
    station.turn('a.lever', 'off');
    station.turn('a.lever', 'on');
    run(1_500_000);
    station.turn('a.lever', 'off');
    run(3_000_000);
    expect(state('a').mode).toBe('cold');
  });

  it('ticks at whole multiples of a quarter second', () => {
    const { station, run, state } = at([kettle('a')]);
    run(100_000);
    station.turn('a.lever', 'on');
    run(10 * TICK_US);
    expect(TICK_US).toBe(250_000);
    expect(state('a').heat).toBeCloseTo(2.5, 12);
  });

  it('wakes the box that asked, not its neighbour', () => {
    const { station, run, state } = at([kettle('a'), kettle('b')]);
    station.turn('b.lever', 'on');
    run(400_000);
    expect([state('a').woken, state('b').woken]).toEqual([[], ['soon']]);
    expect(() => station.wake('c', null)).toThrow(RangeError);
  });

  it('records a sampled number when it has moved by its step, rounded to it', () => {
    const { station, run, notes } = at([kettle('a')]);
    station.turn('a.lever', 'on');
    run(2_000_000);
    expect(notes.flatMap((n) => (n.k === 'value' ? [[n.t, n.v]] : []))).toEqual([
      [0, 0],
      [500_000, 0.5],
      [1_000_000, 1],
      [1_500_000, 1.5],
      [2_000_000, 2],
    ]);
  });

  it('goes on from a copy of its plain state exactly as it would have', () => {
    const a = at([kettle('a')]);
    a.station.turn('a.lever', 'on');
    a.run(700_000);
    const b = at([kettle('a')], {}, structuredClone({ queue: a.queue, state: a.station.state }));
    for (const x of [a, b]) x.run(3_000_000);
    expect(b.station.state).toEqual(a.station.state);
  });
});

describe('controls', () => {
  it('rest at the first word, out, the least number, nothing written', () => {
    expect(controls.map(rest)).toEqual(['off', -1]);
    expect(rest({ ...controls[0]!, range: { kind: 'switch', words: ['out', 'in'] } })).toBe(false);
    expect(rest({ ...controls[0]!, range: { kind: 'text', max: 3, allowed: '' } })).toBe('');
  });

  it('land on a whole step within their range, and twice lands no further', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(0.005, 0.05, 0.1, 1, 5),
        fc.integer({ min: -50, max: 50 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (step, min, part) => {
          const c: Control = { ...controls[1]!, range: { kind: 'number', min, max: min + 200 * step, step, unit: '' } };
          const set = Number(onStep(c, min + part * 200 * step));
          expect(Math.abs((set - min) / step - Math.round((set - min) / step))).toBeLessThan(1e-6);
          expect(Math.abs(set - (min + part * 200 * step))).toBeLessThan(step * 0.5001);
          expect(misfit(c.range, set)).toBeUndefined();
          expect(onStep(c, set)).toBe(set);
        },
      ),
      { seed: 41, numRuns: 300 },
    );
  });
});

describe('waves', () => {
  const wave = fc
    .tuple(fc.boolean(), fc.uniqueArray(fc.integer({ min: 0, max: 1000 }), { maxLength: 12 }))
    .map(([first, times]): Edge[] =>
      times.sort((a, b) => a - b).map((t_us, i) => ({ t_us, mark: i % 2 === 0 ? first : !first })),
    );
  const times = Array.from({ length: 1003 }, (_, i) => i - 1);

  it('are steady mark when empty, and stand in the other state before their first edge', () => {
    expect(markAt([], 5)).toBe(true);
    expect([markAt([{ t_us: 3, mark: false }], 2), markAt([{ t_us: 3, mark: false }], 3)]).toEqual([true, false]);
    expect([markAt(steady(true, 4), 9), markAt(steady(false, 4), 9)]).toEqual([true, false]);
  });

  it('pass current in series only where every contact does', () => {
    fc.assert(
      fc.property(fc.array(wave, { minLength: 1, maxLength: 4 }), fc.integer({ min: 0, max: 500 }), (waves, from) => {
        const all = series(waves, from);
        for (const t of times) if (t >= from) expect(markAt(all, t)).toBe(waves.every((w) => markAt(w, t)));
      }),
      { seed: 42, numRuns: 100 },
    );
  });

  it('keep history and follow a new plan, and a second time changes nothing', () => {
    fc.assert(
      fc.property(wave, wave, fc.integer({ min: 1, max: 1000 }), (history, plan, now) => {
        const next = replan(history, now, plan);
        for (const t of times) if (t >= now) expect(markAt(next, t)).toBe(markAt(plan, t));
        const first = history[0];
        // Before the first edge that is kept, a wave stands in the other state: only a history that had begun can tell.
        if (first && first.t_us < now)
          for (const t of times) if (t < now && t >= first.t_us) expect(markAt(next, t)).toBe(markAt(history, t));
        expect(replan(next, now, plan)).toEqual(next);
        const alternates = next.every((e, i) => i === 0 || e.mark !== next[i - 1]!.mark);
        expect(alternates && next.every((e, i) => i === 0 || e.t_us > next[i - 1]!.t_us)).toBe(true);
      }),
      { seed: 43, numRuns: 200 },
    );
  });

  it('forget what is past without changing what follows', () => {
    fc.assert(
      fc.property(wave, fc.integer({ min: 0, max: 1000 }), (w, before) => {
        const short = structuredClone(w);
        prune(short, before);
        for (const t of times) if (t >= before) expect(markAt(short, t)).toBe(markAt(w, t));
        expect(short.filter((e) => e.t_us <= before).length).toBeLessThanOrEqual(1);
      }),
      { seed: 44, numRuns: 200 },
    );
  });

  it('take appended states, and two changes at one instant cancel', () => {
    const w: Edge[] = [];
    put(w, 5, true);
    expect(w).toEqual([]);
    put(w, 5, false);
    put(w, 9, true);
    put(w, 9, false);
    expect(w).toEqual([{ t_us: 5, mark: false }]);
    put(w, 5, true);
    expect(w).toEqual([]);
    const space: Edge[] = [{ t_us: 7, mark: true }];
    put(space, 7, false);
    expect([markAt(space, 3), markAt(space, 7), markAt(space, 9)]).toEqual([false, false, false]);
  });
});
