/** What holds whatever an operator does: 100,000 random acts, seeded, on a live station. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOXES } from '../../src/core/catalogue.ts';
import type { Drill } from '../../src/core/drill.ts';
import type { Line } from '../../src/core/record/record.ts';
import { markAt } from '../../src/core/station/wave.ts';
import { begin, bringUp, randomActs } from './first-call.ts';

const COUNT = 100_000;
const BATCH = 10_000;

function notNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => notNumbers(v, `${path}.${key}`));
}

/** The table of who does what (lever and emission), and what nothing may do. */
function broken(d: Drill, newLines: readonly Line[]): string[] {
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
  const prints = newLines.some((l) => l.k === 'print' && l.at === 'own');
  say(!prints || w.mains_V > 0 || d.standing('printer.motor') === true, 'nothing prints without a motor');
  say(!BOXES.some((b) => b.id === 'line') || w.loop_mA >= 0, 'no negative loop current');
  return wrong;
}

describe('a random hand', () => {
  it(`does ${COUNT} acts, 200 ms apart, and breaks nothing`, () => {
    const [acts = []] = fc.sample(randomActs(BATCH, 200), { seed: 31, numRuns: 1 });
    let done = 0;
    let d = begin(31);
    bringUp(d);
    let seen = d.record.lines.length;
    while (done < COUNT) {
      if (d.ended) {
        d = begin(31 + done);
        bringUp(d);
        seen = d.record.lines.length;
      }
      // The same acts meet the station in other states each round, because a prime stride shifts them.
      const act = acts[(done * 7919 + Math.floor(done / BATCH)) % BATCH] as (typeof acts)[number];
      d.advance(d.now_us + act.gap_ms * 1000);
      d.act(act.control, act.value);
      done++;
      const lines = d.record.lines.slice(seen);
      seen = d.record.lines.length;
      const wrong = broken(d, lines);
      if (wrong.length > 0)
        expect.fail(`after ${done} acts, last ${act.control} = ${act.value} at ${d.now_us} us: ${wrong.join('; ')}`);
      if (done % 500 === 0) expect(notNumbers(d.station.state)).toEqual([]);
    }
  });
});
