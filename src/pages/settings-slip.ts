/** Settings: light, and time for those who need more of it. */
import { h, type Inside } from './dom.ts';
import type { Lent, Settings } from './host.ts';
import { openSlip } from './slip.ts';

const THEMES: readonly (readonly [Settings['theme'], string])[] = [
  ['paper', 'paper, by day'],
  ['night', 'night lamp'],
  ['contrast', 'high contrast'],
];
const STRETCHES: readonly (readonly [Settings['stretch'], string])[] = [
  [1, 'as stated'],
  [1.5, 'one and a half times'],
  [2, 'twice'],
];

/** Puts the theme on the page. */
export function wearTheme(theme: Settings['theme']): void {
  document.documentElement.dataset['theme'] = theme;
}

function choice<T extends string | number>(
  legend: string,
  name: string,
  of: readonly (readonly [T, string])[],
  chosen: T,
  pick: (value: T) => void,
  note: Inside,
): HTMLElement {
  const hole = ([value, says]: readonly [T, string]) =>
    h('label', {}, h('input', { type: 'radio', name, checked: value === chosen, onchange: () => pick(value) }), says);
  return h(
    'fieldset',
    { class: 'holes' },
    h('legend', {}, legend),
    h('div', { class: 'how__manners' }, ...of.map(hole)),
    note,
  );
}

/** Opens the settings. */
export function settingsSlip(lent: Lent, onClose?: () => void): void {
  const now = lent.settings.read();
  const change = (some: Partial<Settings>) => {
    lent.settings.keep({ ...lent.settings.read(), ...some });
    if (some.theme) wearTheme(some.theme);
  };
  const sound = h('input', {
    type: 'checkbox',
    class: 'tick',
    checked: now.sound,
    onchange: () => change({ sound: sound.checked }),
  });
  const letters = h('input', {
    type: 'checkbox',
    class: 'tick',
    checked: now.letters,
    onchange: () => change({ letters: letters.checked }),
  });
  openSlip(
    'Settings',
    () => [
      choice('Light', 'theme', THEMES, now.theme, (theme) => change({ theme }), false),
      choice(
        'Time for what has a limit',
        'stretch',
        STRETCHES,
        now.stretch,
        (stretch) => change({ stretch }),
        h('p', { class: 'aside' }, 'Holds from the next drill on. The record says so.'),
      ),
      h(
        'label',
        { class: 'holes__one' },
        letters,
        'Plain letters and figures are shortcuts on pages where no text is entered',
      ),
      h('label', { class: 'holes__one' }, sound, 'Sound. When it is off, what sounds is written out'),
    ],
    onClose,
  );
}
