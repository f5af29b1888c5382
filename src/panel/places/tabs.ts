/** Ways from place to place: the tabs on the beam, the bays of the whole view, the chips of a phone. */
import { type Design, el, lay, tell } from '../controls/dom.ts';
import { BAYS, type Place, type Sight } from '../host.ts';
import type { Box } from '../kit/bounds.ts';
import { textWidth } from '../kit/metrics.ts';
import { type Bed, box } from './bed.ts';
import { TARGETS } from './shelter.ts';

type Go = (place: Place) => void;

function tab(
  go: Go,
  design: Design,
  place: Place,
  name: string,
  where: Box,
  keys: string,
  isHere = false,
): HTMLElement {
  const button = el('button', {
    type: 'button',
    class: 'ctl',
    'aria-label': name,
    'aria-keyshortcuts': keys,
    'aria-current': isHere ? 'page' : undefined,
    'data-place': place,
  });
  button.addEventListener('click', () => go(place));
  return lay(button, where, design);
}

/** The tabs over a close view. */
export function tabs(design: Design, go: Go, here: Place): HTMLElement {
  const nav = el('nav', { class: 'pass', 'aria-label': 'Bays' });
  let x = 24;
  for (const [i, { place, name }] of BAYS.entries()) {
    const w = textWidth(name, 16);
    nav.append(tab(go, design, place, name, box(x - 8, 88, x + w + 34, 120), `Alt+${i + 1}`, place === here));
    x += w + 62;
  }
  nav.append(tab(go, design, 'shelter', 'Whole shelter', box(1112, 88, 1264, 120), 'Alt+0'));
  return lay(nav, box(0, 0, design.w, design.h), design);
}

/** In the whole view each bay is one target. */
export function bayTargets(design: Design, go: Go): HTMLElement {
  const nav = el('nav', { class: 'pass', 'aria-label': 'Bays' });
  for (const [i, { place, name }] of BAYS.entries()) {
    const button = tab(go, design, place, name, TARGETS[place as keyof typeof TARGETS], `Alt+${i + 1}`);
    button.classList.add('ctl--bay');
    nav.append(button);
  }
  return lay(nav, box(0, 0, design.w, design.h), design);
}

/** On a phone the tabs stand above all else. */
export function chips(go: Go, here: Place): HTMLElement {
  const nav = el('nav', { class: 'chips', 'aria-label': 'Bays' });
  for (const [i, { place, name }] of [{ place: 'shelter', name: 'All' } as const, ...BAYS].entries()) {
    const chip = el(
      'button',
      {
        type: 'button',
        class: 'chip',
        'data-place': place,
        'aria-keyshortcuts': `Alt+${i}`,
        'aria-current': place === here ? 'page' : undefined,
        'aria-label': place === 'shelter' ? 'All, whole shelter' : undefined,
      },
      name,
    );
    chip.addEventListener('click', () => go(place));
    nav.append(chip);
  }
  return nav;
}

const number = (v: unknown, places = 0): string => Number(v ?? 0).toFixed(places);
/** How a bay stands, in a line. */
const SUMMARY: Partial<Record<Place, (s: Sight) => string>> = {
  power: (s) => `bus ${number(s.see('feed.volts'), 1)} V, mains ${number(s.see('inverter.volts'))} V`,
  radio: (s) =>
    `sender ${s.standing('sender.readiness')}, ${number(s.see('sender.out'))} W out; receiver ${s.see('receiver.lamp') === true ? `${number(s.see('receiver.scale'), 1)} kHz` : 'off'}`,
  messages: (s) =>
    `line ${s.standing('line.lever')}, printer ${s.standing('printer.source')}, column ${number(s.see('printer.column'))}`,
  desk: (s) => `${s.see('desk.utc')} UTC, cards ${s.see('desk.cardsState')}`,
  outside: (s) =>
    `whip ${s.see('aerial.height')} m, guard ${s.standing('aerial.guard') === true ? 'on' : 'off'}, earth ${s.standing('aerial.earth') === true ? 'made' : 'not made'}`,
};

/** Bays as cards that say how they stand. */
export function bayList(bed: Bed, go: Go): HTMLElement {
  const list = el('div', { class: 'bays' });
  for (const { place, name } of BAYS) {
    const said = el('span', {});
    const card = el('button', { type: 'button', class: 'bay', 'data-place': place }, el('b', {}, name), said);
    card.addEventListener('click', () => go(place));
    bed.follow((s) => tell(said, SUMMARY[place]?.(s) ?? ''));
    list.append(card);
  }
  return list;
}
