/** How a scenario leaves the station to be found: its `box.thing` names sorted to their boxes. */
import type { ControlValue, Json } from '../signals.ts';
import type { Scenario } from './scenario.ts';

/** One box as it is found: controls that do not stand at rest, and what is inside. */
export type FoundBox = { controls: Record<string, ControlValue>; inner: Record<string, Json> };

/** Every box of `boxes` by its id; names of other boxes are left out (a check has refused them). */
export function foundOf(
  { own, order }: Pick<Scenario, 'own' | 'order'>,
  boxes: readonly string[],
): Record<string, FoundBox> {
  const found: Record<string, FoundBox> = Object.fromEntries(boxes.map((id) => [id, { controls: {}, inner: {} }]));
  const put = (part: 'controls' | 'inner', from: Record<string, Json>) => {
    for (const [name, value] of Object.entries(from)) {
      const dot = name.indexOf('.');
      const box = found[name.slice(0, dot)];
      if (box) (box[part] as Record<string, Json>)[name.slice(dot + 1)] = value;
    }
  };
  put('inner', { 'desk.order': order.task });
  put('controls', own.controls);
  put('inner', own.inner);
  return found;
}
