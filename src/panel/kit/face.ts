import { type Box, grow, inkBox, join } from './bounds.ts';
import type { Op } from './ops.ts';

/** A drawn control: what never moves goes to the sheet, what does goes to its own tile. All pure. */
export interface Face<Spec, Value> {
  /** Size in sheet units at which the face was designed. */
  readonly natural: { readonly w: number; readonly h: number };
  staticOps(spec: Spec): Op[];
  liveOps(spec: Spec, value: Value): Op[];
  /** Bounds of everything live, for every value. */
  tileBox(spec: Spec): Box;
}

/** A label under, over or beside a face: bold name at 14. */
export interface Labelled {
  /** Name printed with the face. */
  label?: string;
}

/** Bounds of the live ops over the values given, grown by a hair. */
export function boxOver<S, V>(live: (spec: S, value: V) => Op[], spec: S, values: readonly V[], pad = 1): Box {
  return grow(values.map((v) => inkBox(live(spec, v))).reduce(join), pad);
}
