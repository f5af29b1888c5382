/** The printer's keyboard: the real keyboard while it has the focus, and each drawn key. */
import { KEY_ROWS, type KeyboardSpec, keyBoxes } from '../faces/keyboard.ts';
import type { Hand, Handle } from './control.ts';
import { el, lay } from './dom.ts';

/** A character takes 150 ms at 50 Bd and the keyboard is locked meanwhile: the finger waits on the key, as on the machine. */
const CHARACTER_US = 151_000;
/** Keys that fingers may be ahead of the machine. */
const MOST_AHEAD = 24;

const FIGURE_KEY: Readonly<Record<string, string>> = Object.fromEntries(
  KEY_ROWS.flatMap(({ keys }) => keys.flatMap((k) => (k.figure ? [[k.figure, k.id]] : []))),
);
/** What a drawn key sends: most one code; who-are-you and bell are figures D and figures J. */
const CODES: Readonly<Record<string, readonly string[]>> = { WRU: ['FIGS', 'D'], BELL: ['FIGS', 'J'] };
const NAMED: Readonly<Record<string, readonly string[]>> = {
  Enter: ['CR', 'LF'],
  F1: ['LTRS'],
  F2: ['FIGS'],
  F3: ['BLANK'],
  ' ': ['SPACE'],
};
const SPOKEN: Readonly<Record<string, string>> = {
  CR: 'Carriage return',
  LF: 'Line feed',
  LTRS: 'Letters',
  FIGS: 'Figures',
  SPACE: 'Space',
  WRU: 'Who are you, figures D',
  BELL: 'Bell, figures J',
};

/** What a real key sends, or undefined. A figure sends the key that carries it and does not shift by itself. */
export function codesOf(key: string): readonly string[] | undefined {
  if (NAMED[key]) return NAMED[key];
  if (/^[a-zA-Z]$/.test(key)) return [key.toUpperCase()];
  const carrier = FIGURE_KEY[key];
  return carrier ? [carrier] : undefined;
}

/** Keyboard `full`, drawn by `spec`. `shown` is told which keys are down. */
export function keys(
  hand: Hand,
  full: string,
  name: string,
  spec: KeyboardSpec,
  shown: (down: string) => void,
): Handle {
  const group = el('div', {
    role: 'group',
    tabindex: 0,
    class: 'ctl ctl--keys',
    'aria-label': `${name}: type while it has the focus, F1 letters, F2 figures, Enter return and line feed`,
    'data-control': full,
  });
  const all = keyBoxes(spec);
  const area = {
    left: spec.x - 4,
    top: spec.y - 4,
    right: spec.x + spec.w + 4,
    bottom: spec.y + 4 * spec.row + 2,
  };
  lay(group, area, hand.design);
  const ahead: string[] = [];
  let free_us = -1;
  let timer = 0;
  const pump = () => {
    clearTimeout(timer);
    if (ahead.length === 0) return;
    if (hand.sight.now_us >= free_us) {
      const key = ahead.shift()!;
      free_us = hand.sight.now_us + CHARACTER_US;
      if (!hand.act(full, key, group, performance.now())) ahead.length = 0;
      flash(key);
    }
    if (ahead.length > 0) timer = window.setTimeout(pump, 15);
  };
  let up = 0;
  const flash = (key: string) => {
    shown(key);
    clearTimeout(up);
    up = window.setTimeout(() => shown(''), 120);
  };
  const send = (codes: readonly string[]) => {
    if (ahead.length + codes.length <= MOST_AHEAD) ahead.push(...codes);
    pump();
  };
  group.addEventListener('keydown', (e) => {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    const codes = codesOf(e.key);
    if (!codes) return;
    e.preventDefault();
    if (!e.repeat) send(codes);
  });
  const design = { w: area.right - area.left, h: area.bottom - area.top };
  for (const { key, box } of all) {
    const button = el('button', {
      type: 'button',
      tabindex: -1,
      class: 'ctl',
      'aria-label': SPOKEN[key.id] ?? (key.figure ? `${key.letter}, figure ${key.figure}` : key.letter),
    });
    lay(
      button,
      {
        left: box.left - area.left,
        top: box.top - area.top,
        right: box.right - area.left,
        bottom: box.bottom - area.top,
      },
      design,
    );
    button.addEventListener('pointerdown', () => group.focus({ preventScroll: true }));
    button.addEventListener('mousedown', (e) => e.preventDefault());
    button.addEventListener('click', () => send(CODES[key.id] ?? [key.id]));
    group.append(button);
  }
  return { el: group, update: pump };
}
