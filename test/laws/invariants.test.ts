/** What holds whatever an operator does: 100,000 random acts, seeded, on a live station. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drill } from '../../src/core/drill.ts';
import type { Line } from '../../src/core/record/record.ts';
import type { FeedLedger } from '../../src/core/station/boxes/feed.ts';
import { markAt } from '../../src/core/station/wave.ts';
import { LOADS } from '../../src/core/station/wires.ts';
import { begin, bringUp, controls, randomActs, valueFor } from './first-call.ts';

const COUNT = 100_000;
const BATCH = 10_000;
const AT_PRINTER = 10_000;
/** The starter's current while it cranks (ours). */
const CRANK_A = 600;
/** A line magnet holds at 12 mA or more (ours; 20 mA is usual). */
const HOLDS_MA = 12;
/** Under a fifth of its speed the printer's cam stands still; a character at that speed takes 750 ms. */
const TURNS = 0.2;
const CHARACTER_US = 750_000;

function notNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => notNumbers(v, `${path}.${key}`));
}

/** The table of who does what (lever and emission), and what nothing may do. */
function broken(d: Drill): string[] {
  const w = d.station.state.wires;
  const wrong: string[] = [];
  const say = (held: boolean, law: string) => held || wrong.push(law);
  const up = w.forward_W > 0;
  const { emission } = w.radiation;
  say(!up || (w.armed && d.see('sender.ready') === true), 'nothing radiates without hot valves and readiness send');
  say(!up || w.bus_V > 0, 'nothing radiates without supply');
  say(
    w.radiated_W <= w.forward_W + 1e-6 && w.reflected_W <= w.forward_W + 1e-6,
    'no more is radiated or reflected than goes forward',
  );
  say(!up || w.relay === 'sender', 'the relay gives the whip to the sender whenever it radiates');
  say(!up || w.whip.second || w.rx.deaf, 'with one whip the receiver is deaf while the sender radiates');
  say(!(up && emission === 'F1B') || w.lever !== 'IN', 'print: lever IN is silent');
  say(!(up && emission === 'A3E') || w.talking, 'voice radiates while talking only');
  say(!(up && emission === 'A1A') || markAt(w.handKey, d.now_us), 'Morse radiates while the key is down only');
  return wrong;
}

type Feed = { mode: string; bus: { battery_A: number; alternator_A: number }; ledger: FeedLedger };

/** What the feed gives it must get: amperes now (Kirchhoff) and joules since the beginning. */
function unbalanced(d: Drill): string[] {
  // A load behind the inverter reaches the bus with the next settling.
  d.station.settle();
  const { boxes, wires } = d.station.state;
  const { mode, bus, ledger: l } = boxes['feed'] as unknown as Feed;
  const cranks = mode === 'cranking' && d.standing('feed.isolator') === true;
  const taken_A = LOADS.reduce((sum, load) => sum + wires.draw_A[load], cranks ? CRANK_A : 0);
  const given_A = bus.battery_A + bus.alternator_A;
  const given_J = l.alternator_J + l.chemical_J;
  const spent_J = l.loads_J + l.heat_J + l.stored_J;
  const wrong: string[] = [];
  // Loads are solved anew when they have moved by more than a little, and the bank's own volts creep within a tick.
  if (Math.abs(given_A - taken_A) > 0.1 + 0.01 * taken_A) wrong.push(`${taken_A} A taken, ${given_A} A given`);
  if (Math.abs(given_J - spent_J) > 1 + 2e-3 * (l.loads_J + l.alternator_J))
    wrong.push(`${spent_J} J spent, ${given_J} J given`);
  return wrong;
}

type PrinterSeen = { speed: number; onLine: boolean; since_us: number; holds: boolean };

/** What the printer does from one look to the next, and how often each law was put to the test. */
class PrinterWatch {
  readonly put = { turning: 0, still: 0, held: 0, dropped: 0 };
  private last: PrinterSeen | undefined;

  look(d: Drill, lines: readonly Line[]): string[] {
    const { boxes, wires } = d.station.state;
    const { speed } = boxes['printer'] as unknown as { speed: number };
    const holds = wires.loop_mA >= HOLDS_MA;
    const onLine = wires.source === 'line';
    const before = this.last;
    const isSame = before !== undefined && before.onLine === onLine && before.holds === holds;
    const since_us = isSame ? before.since_us : d.now_us;
    this.last = { speed, onLine, holds, since_us };
    if (!before) return [];
    const own = lines.flatMap((l) => (l.k === 'print' && l.at === 'own' ? [l] : []));
    const turns = before.speed >= TURNS || speed >= TURNS;
    this.put[turns ? 'turning' : 'still'] += turns ? own.length : 1;
    const wrong = !turns && own.length > 0 ? ['nothing prints while the motor stands'] : [];
    if (!isSame || !onLine || !turns) return wrong;
    // An open loop is a space without end: the machine reads blanks, or all but one unit of them off its range.
    const text = own.filter((l) => l.t > since_us + CHARACTER_US && l.code !== 0 && l.code !== 16);
    this.put[holds ? 'held' : 'dropped'] += holds ? text.length : 1;
    return !holds && text.length > 0 ? [...wrong, 'nothing prints without loop current'] : wrong;
  }
}

describe('a random hand', () => {
  it(`does ${COUNT} acts, 200 ms apart, and breaks nothing`, () => {
    const [acts = []] = fc.sample(randomActs(BATCH, 200), { seed: 31, numRuns: 1 });
    let done = 0;
    let d = begin(31);
    bringUp(d);
    while (done < COUNT) {
      if (d.ended) {
        d = begin(31 + done);
        bringUp(d);
      }
      // The same acts meet the station in other states each round, because a prime stride shifts them.
      const act = acts[(done * 7919 + Math.floor(done / BATCH)) % BATCH] as (typeof acts)[number];
      d.advance(d.now_us + act.gap_ms * 1000);
      d.act(act.control, act.value);
      done++;
      const wrong = [...broken(d), ...(done % 20 === 0 ? unbalanced(d) : [])];
      if (wrong.length > 0)
        expect.fail(`after ${done} acts, last ${act.control} = ${act.value} at ${d.now_us} us: ${wrong.join('; ')}`);
      if (done % 500 === 0) expect(notNumbers(d.station.state)).toEqual([]);
    }
  });

  it('at keys, tape, lever and loop prints nothing without motor and current', () => {
    const near = controls.filter(([name]) => /^(printer|tape|line|keyer)\./.test(name));
    const act = fc
      .constantFrom(...near)
      .chain(([control, c]) => fc.record({ control: fc.constant(control), value: valueFor(c), gap_ms: fc.nat(400) }));
    const d = begin(31);
    bringUp(d);
    const watch = new PrinterWatch();
    let seen = d.record.lines.length;
    for (const { control, value, gap_ms } of fc.sample(act, { seed: 32, numRuns: AT_PRINTER })) {
      d.advance(d.now_us + gap_ms * 1000);
      d.act(control, value);
      const wrong = watch.look(d, d.record.lines.slice(seen));
      seen = d.record.lines.length;
      if (wrong.length > 0) expect.fail(`${control} = ${value} at ${d.now_us} us: ${wrong.join('; ')}`);
    }
    // A law that never met its case has proved nothing.
    for (const [law, times] of Object.entries(watch.put)) expect(times, law).toBeGreaterThan(100);
  });
});
