/** How fast a drill runs without a screen: first-call by the model operator, and a random hand. */
import fc from 'fast-check';
import { Drill } from '../../src/core/drill.ts';
import { Stuck, workThrough } from '../../src/core/hand/model.ts';
import { begin, bringUp, randomActs, scenarioOf, settingOf } from '../laws/first-call.ts';
import { cpu_ms, percentile, type Table } from './table.ts';

const SEEDS = 12;
const ROUNDS = 4;
const ACTS = 100_000;
const BATCH = 10_000;

/** Drill time over time of one core, one seed; NaN when the operator got stuck. */
function ratio(seed: number): number {
  const scenario = scenarioOf(seed);
  const drill = new Drill(scenario, settingOf(seed));
  let isStuck = false;
  const ms = cpu_ms(() => {
    try {
      workThrough(scenario, drill, seed);
    } catch (e) {
      if (!(e instanceof Stuck)) throw e;
      isStuck = true;
    }
  });
  return isStuck ? Number.NaN : drill.now_us / 1000 / ms;
}

function ratios(): number[] {
  const seeds = Array.from({ length: SEEDS }, (_, i) => i + 1);
  // The first rounds are the compiler's; after them each seed's best is what the work costs.
  for (const seed of seeds) ratio(seed);
  return seeds.map((seed) => Math.max(...Array.from({ length: ROUNDS }, () => ratio(seed))));
}

function randomHand(): void {
  const [acts = []] = fc.sample(randomActs(BATCH, 200), { seed: 31, numRuns: 1 });
  let drill: Drill | undefined;
  for (let done = 0; done < ACTS; done++) {
    if (!drill || drill.ended) {
      drill = begin(31 + done);
      bringUp(drill);
    }
    const { gap_ms, control, value } = acts[(done * 7919 + Math.floor(done / BATCH)) % BATCH] as (typeof acts)[number];
    drill.advance(drill.now_us + gap_ms * 1000);
    drill.act(control, value);
  }
}

/** Speed of drills. */
export function drillTable(): Table {
  const tried = ratios();
  const all = tried.filter((x) => !Number.isNaN(x));
  return {
    title: 'A drill without a screen, on samples (one core)',
    rows: [
      {
        what: `first-call by the model operator, median of ${SEEDS} seeds, warm`,
        value: percentile(all, 0.5),
        unit: 'x real time',
        bar: { least: 2000 },
      },
      {
        what: 'drills worked to their end',
        value: all.length,
        unit: `of ${SEEDS}`,
        bar: { least: SEEDS },
      },
      { what: 'the slowest of them', value: Math.min(...all), unit: 'x real time' },
      {
        what: `${ACTS} random acts, 200 ms apart on average, on a live station`,
        value: cpu_ms(randomHand) / 1000,
        unit: 's',
        bar: { most: 60 },
      },
    ],
  };
}
