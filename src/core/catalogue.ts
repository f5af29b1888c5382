/** The kinds that this program knows: joins the lists of boxes, correspondents and measures for those who need all three. */
import { CORRESPONDENTS } from './distant/correspondents/list.ts';
import { MEASURES } from './marking/measures/list.ts';
import { FORM_FAULTS } from './procedure/transmission.ts';
import type { Names } from './record/names.ts';
import type { Kinds } from './scenario/scenario.ts';
import type { ControlValue } from './signals.ts';
import { type InnerThing, sampledAs, shownBy } from './station/box.ts';
import { BOXES } from './station/boxes/list.ts';

const named = <T extends { id: string }>(of: (box: (typeof BOXES)[number]) => readonly T[]) =>
  BOXES.flatMap((box) => of(box).map((one) => [`${box.id}.${one.id}`, one] as const));

/** What the own station notes of itself, by the note's name. */
const OWN_TELLS: Readonly<Record<string, string>> = { unsafe: 'danger[: {why}]' };
/** What all stations note. */
const TELLS: Readonly<Record<string, string>> = Object.assign({}, OWN_TELLS, ...CORRESPONDENTS.map((c) => c.tells));

/** What a scenario may name. */
export const KINDS: Kinds = {
  controls: new Map(named((b) => b.controls).map(([name, c]) => [name, c.range])),
  inner: new Map(
    BOXES.flatMap((b) => Object.entries<InnerThing>(b.inner).map(([id, thing]) => [`${b.id}.${id}`, thing] as const)),
  ),
  indicators: new Map(named((b) => b.indicators).map(([name, i]) => [name, shownBy(i)])),
  sampled: new Map(BOXES.flatMap((b) => b.sampled.map((q) => [`${b.id}.${q.id}`, sampledAs(b, q)] as const))),
  modes: new Map(BOXES.map((b) => [b.id, Object.keys(b.machine.states)])),
  ownNotes: Object.keys(OWN_TELLS),
  correspondents: new Map(CORRESPONDENTS.map((c) => [c.id, c])),
  measures: new Map(MEASURES.map((m) => [m.id, m.schema])),
};

/** How people call boxes, controls and what stations note. */
export const NAMES: Names = {
  boxes: new Map(BOXES.map((b) => [b.id, b.name])),
  controls: new Map(
    BOXES.flatMap((b) => {
      // Some controls stand elsewhere than at their range's first before anybody touches them; the box knows.
      const { set } = b.start({ controls: {}, inner: {} }, 0);
      return b.controls.map(
        ({ id, name, range }) => [`${b.id}.${id}`, { name, range, rest: set[id] as ControlValue }] as const,
      );
    }),
  ),
  modes: new Map(
    BOXES.flatMap((b) => Object.entries(b.modes ?? {}).map(([mode, words]) => [`${b.id}.${mode}`, words] as const)),
  ),
  tells: new Map(Object.entries(TELLS)),
  terms: new Map(Object.entries(FORM_FAULTS)),
};

export { BOXES, CORRESPONDENTS, MEASURES };
