/** Laws of time: chopping, saving, restoring and looking change nothing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOXES } from '../../src/core/catalogue.ts';
import { Drill, type Snapshot } from '../../src/core/drill.ts';
import { begin, bringUp, type RandomAct, randomActs, scenarioOf, settingOf } from './first-call.ts';

const lookAtAll = (d: Drill) => BOXES.flatMap((b) => b.indicators.map((i) => d.see(`${b.id}.${i.id}`)));
const ended = (d: Drill) => JSON.stringify(d.record);

function work(
  d: Drill,
  acts: readonly RandomAct[],
  between: (d: Drill, until_us: number) => Drill = (same) => same,
): string {
  for (const { gap_ms, control, value } of acts) {
    const until = d.now_us + gap_ms * 1000;
    d = between(d, until);
    d.advance(until);
    d.act(control, value);
  }
  d.advance(d.now_us + 3_000_000);
  return ended(d);
}

function live(): Snapshot {
  const d = begin(11);
  bringUp(d);
  return JSON.parse(d.save()) as Snapshot;
}
const start = live();
const fresh = () => begin(11, structuredClone(start));

describe('time', () => {
  it('may be chopped in any way', () => {
    fc.assert(
      fc.property(
        randomActs(60, 300),
        fc.array(fc.integer({ min: 1, max: 400_000 }), { minLength: 1, maxLength: 20 }),
        (acts, steps) => {
          let i = 0;
          const chopped = work(fresh(), acts, (d, until) => {
            for (let t = d.now_us + (steps[0] as number); t < until; t += steps[++i % steps.length] as number)
              d.advance(t);
            return d;
          });
          expect(chopped).toBe(work(fresh(), acts));
        },
      ),
      { seed: 21, numRuns: 12 },
    );
  });

  it('may be saved and restored at any instant', () => {
    fc.assert(
      fc.property(
        randomActs(60, 300),
        fc.integer({ min: 0, max: 59 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (acts, at, part) => {
          let n = 0;
          const restored = work(fresh(), acts, (d, until) => {
            if (n++ !== at) return d;
            d.advance(Math.floor(d.now_us + part * (until - d.now_us)));
            return begin(11, JSON.parse(d.save()) as Snapshot);
          });
          expect(restored).toBe(work(fresh(), acts));
        },
      ),
      { seed: 22, numRuns: 12 },
    );
  });

  it('does not notice being looked at', () => {
    fc.assert(
      fc.property(randomActs(60, 300), (acts) => {
        const watched = fresh();
        const plain = fresh();
        for (const { gap_ms, control, value } of acts) {
          for (const d of [watched, plain]) {
            d.advance(d.now_us + gap_ms * 1000);
            d.act(control, value);
          }
          lookAtAll(watched);
          watched.heard(0);
          watched.printed(0);
          expect(watched.save()).toBe(plain.save());
        }
      }),
      { seed: 23, numRuns: 6 },
    );
  });

  it('the time limit is as many times longer as the drill is stretched', () => {
    const scenario = { ...scenarioOf(11), time_limit_min: 1 };
    const d = new Drill(scenario, { ...settingOf(11), stretch: 1.5 });
    d.advance(89_999_999);
    expect(d.ended).toBe(false);
    d.advance(90_000_000);
    expect(d.ended).toBe(true);
  });
});
