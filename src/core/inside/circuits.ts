/** The circuits of a scenario: what the reach chart is reckoned for. */
import { type Circuit, eastOf } from '../physics/circuit.ts';
import { type GroundName, grounds } from '../physics/ground-wave/ground.ts';
import type { Scenario, StationSpec, World } from '../scenario/scenario.ts';

/** A circuit with the name of its far end. */
export type CircuitTo = Circuit & { readonly call: string; readonly place: string; readonly km: number };

/** Power of a station that the scenario does not give one. */
const FULL_W = 120;
const FAR_OFF_KM = [100, 300, 900];

/** To every distant station of the scenario, and to nobody in particular farther off (call sign empty). */
export function circuitsOf({ world, stations }: Pick<Scenario, 'world' | 'stations'>): CircuitTo[] {
  const away = FAR_OFF_KM.map((km) => ({
    call: '',
    place: 'somewhere',
    path: [{ ground: 'average', km }],
    with: null,
  }));
  return [...stations, ...away].map((s) => circuitTo(s, world));
}

/** The far end lies due east, as the ether has it: a scenario gives a path's length, not its bearing. */
function circuitTo(
  { call, place, path, with: params }: Omit<StationSpec, 'kind'>,
  { at, date, R12, noise }: World,
): CircuitTo {
  const km = path.reduce((sum, p) => sum + p.km, 0);
  const power = (params as { power_W?: unknown } | null)?.power_W;
  return {
    call,
    place,
    km,
    from: at,
    to: eastOf(at, km),
    sections: path.map((p) => ({ ground: grounds[p.ground as GroundName], d_km: p.km })),
    month: Number(date.slice(5, 7)),
    R12,
    noise,
    power_W: typeof power === 'number' ? power : FULL_W,
  };
}
