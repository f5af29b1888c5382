/** One box for the hand and the ear: a group of its controls, and of what its indicators read. */
import type { Control } from '../core/station/box.ts';
import type { Boxed } from './boxes.ts';
import { readingOf } from './cards.ts';
import type { Handle } from './controls/control.ts';
import { el, tell } from './controls/dom.ts';
import { makeControl } from './controls/make.ts';
import type { BoxLayout } from './layout/layout.ts';
import type { Bed } from './places/bed.ts';

/** What the box's place does with it. `hasPage`: a printed page is read out here; elsewhere the place has it as text. */
type Ways = { refresh(): void; explained(control: Control, full: string): void; hasPage: boolean };

/** Indicators that a strip or a paper on the desk has as text. */
const ON_PAPER = ['hand.heard', 'desk.logLines'];

/** The group of box `b`, to be laid over the whole design; it follows the drill through the bed. */
export function boxGroup({ hand, follow }: Bed, b: Boxed, layout: BoxLayout, ways: Ways): HTMLElement {
  const group = el('div', { role: 'group', class: 'pass', 'aria-label': b.name, 'data-box': b.id });
  const handles: Handle[] = [];
  for (const [id, spot] of Object.entries(layout.controls)) {
    const control = b.controls.find((c) => c.id === id);
    if (!control) continue;
    const full = `${b.id}.${id}`;
    const handle = makeControl(hand, full, control, spot, ways.refresh);
    if (!handle) continue;
    handles.push(handle);
    group.append(handle.el);
    group.prepend(...(handle.names ?? []));
    handle.el.addEventListener('focusin', () => ways.explained(control, full));
  }
  for (const indicator of b.indicators) {
    const full = `${b.id}.${indicator.id}`;
    if (ON_PAPER.includes(full)) continue;
    if (indicator.face === 'page') {
      if (!ways.hasPage) continue;
      const text = el('pre', {});
      group.append(el('section', { class: 'unseen', 'aria-label': indicator.name, 'data-indicator': full }, text));
      follow((s) => tell(text, ((s.see(full) as string[] | null) ?? []).join('\n')));
      continue;
    }
    const reading = readingOf(full, indicator);
    group.append(reading.el);
    follow(reading.update);
  }
  follow(() => {
    for (const h of handles) h.update();
  });
  return group;
}
