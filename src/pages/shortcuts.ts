/** Shortcuts of the shelter: all behind Alt, and each can be put on another key. */
import { h, refill } from './dom.ts';
import type { Lent } from './host.ts';
import { openSlip } from './slip.ts';

/** What can be had by Alt and a key: the usual key, as the keyboard names it, and what it does. */
export const SHORTCUTS: readonly (readonly [code: string, does: string])[] = [
  ['Digit0', 'the whole shelter'],
  ['Digit1', 'power bay'],
  ['Digit2', 'radio bay'],
  ['Digit3', 'message bay'],
  ['Digit4', 'desk'],
  ['Digit5', 'outside'],
  ['KeyE', 'explain the control in hand, but not in assessed'],
  ['KeyR', 'the ribbon: how far the signal gets'],
  ['KeyM', 'message form'],
  ['KeyH', 'help, in prompted'],
  ['KeyW', 'watch: pause, hand over, leave'],
  ['KeyK', 'this list'],
];

/** The other keys of the shelter, which do not change. */
const FIXED: readonly (readonly [string, string])[] = [
  ['Tab', 'next control'],
  ['Arrows', 'one step; Page Up and Down ten; Home and End to the ends'],
  ['Enter', 'on a knob: type its value; on the log or word line: write or say it'],
  ['Space', 'press and hold; with the hand key in hand: key down'],
  ['F1, F2', 'letters and figures shift, with the printer in hand'],
  ['Esc', 'a step back'],
];

const keyName = (code: string): string => code.replace(/^(Key|Digit)/, '');
const isKey = (code: string): boolean => /^(Key[A-Z]|Digit\d)$/.test(code);

/** Which usual key is meant by the key that was pressed; undefined if none. `own` holds the trainee's changes. */
export function meant(code: string, own: Readonly<Record<string, string>>): string | undefined {
  return SHORTCUTS.find(([usual]) => (own[usual] ?? usual) === code)?.[0];
}

/** The changes after `usual` was put on `code`: whoever had that key gets the one that is free now. */
export function rekeyed(own: Readonly<Record<string, string>>, usual: string, code: string): Record<string, string> {
  const at = (one: string) => own[one] ?? one;
  const other = SHORTCUTS.find(([one]) => one !== usual && at(one) === code)?.[0];
  const all = { ...own, [usual]: code, ...(other === undefined ? {} : { [other]: at(usual) }) };
  return Object.fromEntries(Object.entries(all).filter(([from, to]) => from !== to));
}

/**
 * Turns a changed shortcut into the usual one before anybody else hears of it, so that no other part of the program need
 * know of changes. Returns how to stop.
 */
export function translate(lent: Lent): () => void {
  const heard = (event: KeyboardEvent) => {
    if (!event.isTrusted || !event.altKey || event.ctrlKey || event.metaKey || !isKey(event.code)) return;
    const usual = meant(event.code, lent.settings.read().keys);
    if (usual === event.code || document.querySelector('dialog[open]')) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (usual === undefined || event.repeat) return;
    const key = keyName(usual).toLowerCase();
    event.target?.dispatchEvent(
      new KeyboardEvent('keydown', { code: usual, key, altKey: true, bubbles: true, cancelable: true }),
    );
  };
  addEventListener('keydown', heard, { capture: true });
  return () => removeEventListener('keydown', heard, { capture: true });
}

function row(lent: Lent, usual: string, does: string, redraw: () => void): HTMLElement {
  const at = lent.settings.read().keys[usual] ?? usual;
  const change = h(
    'button',
    { type: 'button', class: 'keys__change', 'aria-label': `Change the key for ${does}` },
    'change',
  );
  const listen = (event: KeyboardEvent) => {
    if (event.key === 'Tab' || event.key === 'Shift' || event.key === 'Alt') return;
    event.preventDefault();
    event.stopPropagation();
    if (!isKey(event.code)) return redraw();
    const settings = lent.settings.read();
    lent.settings.keep({ ...settings, keys: rekeyed(settings.keys, usual, event.code) });
    redraw();
  };
  change.addEventListener('click', () => {
    refill(change, 'press a letter or figure');
    change.addEventListener('keydown', listen);
  });
  return h(
    'div',
    { class: 'keys__row' },
    h('kbd', { class: 'cap' }, `Alt ${keyName(at)}`),
    h('span', {}, does),
    change,
  );
}

/** The list of keys in the shelter. */
export function shortcutsSlip(lent: Lent, onClose?: () => void): void {
  const list = h('div', { class: 'keys__list' });
  const redraw = () => refill(list, ...SHORTCUTS.map(([usual, does]) => row(lent, usual, does, redraw)));
  redraw();
  const usual = () => {
    lent.settings.keep({ ...lent.settings.read(), keys: {} });
    redraw();
  };
  openSlip(
    'Keys in the shelter',
    () => [
      list,
      h(
        'dl',
        { class: 'keys' },
        ...FIXED.flatMap(([key, does]) => [h('dt', {}, h('kbd', { class: 'cap' }, key)), h('dd', {}, does)]),
      ),
      h(
        'p',
        { class: 'aside' },
        'Plain letters belong to what is written in while it has the focus; in the message bay, else, to the printer.',
      ),
      h('div', { class: 'slip__foot' }, h('button', { type: 'button', class: 'push', onclick: usual }, 'All as usual')),
    ],
    onClose,
  );
}
