/** The keys of a place, at the right end of its imprint. */
import { el } from '../controls/dom.ts';
import type { Place } from '../host.ts';
import { box } from './bed.ts';

/** Where they stand. */
export const KEYS = box(880, 684, 1256, 716);

/** Their caps and what they do; the one that explains, where there is such help, is a button too, for the mouse. */
export function placeKeys(place: Place, explain: (() => void) | undefined): HTMLElement {
  const keys: [string, string][] =
    place === 'shelter'
      ? [
          ['Alt 1–5', 'come close'],
          ['Alt R', 'ribbon'],
        ]
      : [
          ['Tab', 'next control'],
          ...(explain ? [['Alt E', 'explain'] satisfies [string, string]] : []),
          ['Alt 0', 'back'],
        ];
  return el(
    'p',
    { class: 'imprint' },
    ...keys.flatMap(([k, does]) => {
      const key = [el('kbd', {}, k), el('span', {}, does)];
      return explain && does === 'explain' ? [explainButton(key, explain)] : key;
    }),
  );
}

function explainButton(key: HTMLElement[], explain: () => void): HTMLElement {
  const button = el('button', { type: 'button', class: 'imprint__do', 'aria-keyshortcuts': 'Alt+E' }, ...key);
  button.addEventListener('click', explain);
  return button;
}
