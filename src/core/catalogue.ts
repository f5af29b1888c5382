/** The kinds that this program knows: joins the lists of boxes, correspondents and measures for those who need all three. */
import { CORRESPONDENTS } from './distant/correspondents/list.ts';
import { MEASURES } from './marking/measures/list.ts';
import type { Kinds } from './scenario/scenario.ts';
import type { InnerThing } from './station/box.ts';
import { BOXES } from './station/boxes/list.ts';

/** Name and version of the engine, as in a record's header. */
export const ENGINE = 'keydown 0.1.0';

const named = <T extends { id: string }>(of: (box: (typeof BOXES)[number]) => readonly T[]) =>
  BOXES.flatMap((box) => of(box).map((one) => [`${box.id}.${one.id}`, one] as const));

/** What a scenario may name. */
export const KINDS: Kinds = {
  controls: new Map(named((b) => b.controls).map(([name, c]) => [name, c.range])),
  inner: new Map(
    BOXES.flatMap((b) => Object.entries<InnerThing>(b.inner).map(([id, thing]) => [`${b.id}.${id}`, thing] as const)),
  ),
  indicators: new Set(named((b) => b.indicators).map(([name]) => name)),
  sampled: new Set(named((b) => b.sampled).map(([name]) => name)),
  correspondents: new Map(CORRESPONDENTS.map((c) => [c.id, c])),
  measures: new Map(MEASURES.map((m) => [m.id, m.schema])),
};

export { BOXES, CORRESPONDENTS, MEASURES };
