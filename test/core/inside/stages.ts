/** Instants of the first-call drill worth looking at, reached by the model operator. */
import { Drill, type Snapshot } from '../../../src/core/drill.ts';
import { workThrough } from '../../../src/core/hand/model.ts';
import { begin, scenarioOf, settingOf } from '../../laws/first-call.ts';

class Reached extends Error {}

const STEP_US = 50_000;

/** The drill at the first instant at which `is` holds, with seed 1. */
export function drillWhen(is: (d: Drill) => boolean, seed = 1): Drill {
  const drill = begin(seed);
  const at = new Proxy(drill, {
    get(target, name) {
      const own = Reflect.get(target, name, target);
      if (name !== 'advance') return typeof own === 'function' ? own.bind(target) : own;
      return (to_us: number) => {
        while (target.now_us < to_us) {
          target.advance(Math.min(to_us, target.now_us + STEP_US));
          if (is(target)) throw new Reached();
        }
      };
    },
  });
  try {
    workThrough(drill.scenario, at, seed);
  } catch (e) {
    if (!(e instanceof Reached)) throw e;
    return drill;
  }
  throw new Error('the model operator never came there');
}

/** The same drill again, from its snapshot. */
export const again = (d: Drill, seed = 1): Drill =>
  new Drill(scenarioOf(seed), settingOf(seed), JSON.parse(d.save()) as Snapshot);

const prints = (d: Drill, at: string) =>
  d.record.lines.slice(-40).filter((l) => l.k === 'print' && l.at === at && l.t > d.now_us - 1_500_000).length;

/** The tape runs and Tern Ness prints. */
export const sending = (d: Drill): boolean => d.station.state.wires.radiated_W > 0 && prints(d, 'QV7K') > 7;
/** Tern Ness sends and the own printer prints. */
export const receiving = (d: Drill): boolean =>
  d.station.state.wires.radiated_W === 0 &&
  prints(d, 'own') > 7 &&
  d.ear.arrivals(d.now_us).some((a) => a.emission === 'F1B');
/** Tern Ness speaks. */
export const spokenTo = (d: Drill): boolean =>
  d.ear.words(d.now_us - 500_000, d.now_us).some((w) => w.station === 'QV7K');
/** The own voice is on the air. */
export const speaking = (d: Drill): boolean => d.station.state.wires.radiation.words.length > 2;
/** A carrier of the own sender, bare. */
export const bare = (d: Drill): boolean => {
  const { radiated_W, radiation } = d.station.state.wires;
  return radiated_W > 0 && radiation.emission === 'N0N';
};
/** Steady mark before the tape. */
export const steady = (d: Drill): boolean => {
  const { radiated_W, radiation, lever } = d.station.state.wires;
  return radiated_W > 0 && radiation.emission === 'F1B' && lever === 'OUT';
};
