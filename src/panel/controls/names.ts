/** Printed names as fields of touch: each sets its control, the one native element that takes input. */
import type { Box } from '../kit/bounds.ts';
import type { Made } from './control.ts';
import { el, lay } from './dom.ts';
import type { Positions } from './positions.ts';

/** Where an event fell, in sheet units, by an element that lies on `box`. */
export function fell(e: MouseEvent, on: Element, box: Box): [number, number] {
  const { left, top, width, height } = on.getBoundingClientRect();
  return [
    box.left + ((e.clientX - left) / width) * (box.right - box.left),
    box.top + ((e.clientY - top) / height) * (box.bottom - box.top),
  ];
}

/** A field for each name. They lie beneath all controls; where two share ground, the point that was touched decides. */
export function nameFields(
  { hand, full }: Made,
  { names, meant }: Positions,
  native: HTMLElement,
  present: () => number,
  go: (to: number) => void,
): HTMLElement[] {
  return names.map((box, i) => {
    const field = el('span', { class: 'position', 'aria-hidden': 'true', 'data-of': full, 'data-at': i });
    field.addEventListener('mousedown', (e) => e.preventDefault());
    field.addEventListener('pointerdown', () => native.focus({ preventScroll: true }));
    field.addEventListener('click', (e) => go(meant(...fell(e, field, box), present()) ?? i));
    return lay(field, box, hand.design);
  });
}
