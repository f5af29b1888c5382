/** What the panel is lent. A Session (src/pages) satisfies it; so does any bench that holds a station. */
import type { Drill } from '../core/drill.ts';
import type { ControlValue, Json } from '../core/signals.ts';

/** The drill, to look at. Nothing here changes it. */
export type PanelDrill = Pick<
  Drill,
  | 'now_us'
  | 'see'
  | 'standing'
  | 'scenario'
  | 'setting'
  | 'recordings'
  | 'station'
  | 'record'
  | 'ended'
  | 'save'
  | 'inside'
  | 'passage'
  | 'circuits'
>;

/** The step that is due, as the guide words it. */
export type NowStep = { index: number; of: number; step: { title: string; form?: string }; tip: string; why: string };

/** All that the panel asks of its surroundings. */
export interface PanelHost {
  readonly drill: PanelDrill;
  readonly manner: 'shown' | 'prompted' | 'unaided' | 'assessed';
  /** Printed in the imprint; default the scenario's. */
  readonly title?: string;
  /** Sets a control; returns why not, in words. `stamp_ms` is the input event's `timeStamp`. */
  act(control: string, value: ControlValue, stamp_ms?: number): string | undefined;
  /** Calls back after anything that may have changed something, at most once a frame. */
  onChange(listener: () => void): () => void;
  /** Notes in the record that help was given. */
  help(what: string): void;
  /** The step that the manner allows to be told. */
  guideStep?(): NowStep | null;
}

/** Where the operator stands: before the whole shelter, or close to one bay. */
export type Place = 'shelter' | 'power' | 'radio' | 'messages' | 'desk' | 'outside';

/** Bays in the order of their keys: Alt and 1 to 5; the whole shelter is Alt and 0. */
export const BAYS: readonly { place: Place; name: string }[] = [
  { place: 'power', name: 'Power' },
  { place: 'radio', name: 'Radio' },
  { place: 'messages', name: 'Messages' },
  { place: 'desk', name: 'Desk' },
  { place: 'outside', name: 'Outside' },
];

/** How faces look at the drill. */
export interface Sight {
  readonly now_us: number;
  /** What an indicator shows, or null. */
  see(name: string): Json;
  /** Where a control stands. */
  standing(name: string): ControlValue | undefined;
  readonly wires: PanelDrill['station']['state']['wires'];
  readonly drill: PanelDrill;
  /** What stands on a face but is not taken by its box: drums between two numbers, keys held down. */
  readonly drafts: Map<string, string>;
}

/** Eyes on a drill. */
export const sightOf = (drill: PanelDrill): Sight => ({
  drill,
  drafts: new Map(),
  get now_us() {
    return drill.now_us;
  },
  see: (name) => drill.see(name) ?? null,
  standing: (name) => drill.standing(name),
  get wires() {
    return drill.station.state.wires;
  },
});
