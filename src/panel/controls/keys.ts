/** The printer's keyboard: the real keyboard while it has the focus, and each drawn key. */
import { KEY_ROWS, type KeyboardSpec, keyBoxes } from '../faces/keyboard.ts';
import type { Box } from '../kit/bounds.ts';
import { type Hand, type Handle, type Made, nameOf } from './control.ts';
import { el, lay } from './dom.ts';
import { heldText } from './held-keys.ts';

/** Start, five units and the stop of the printer's keyboard. */
const UNITS = 7.5;
/** Keys that wait while the keyboard is locked. Who feels the lock needs one (common practice); who only sees it, more. */
const STORE = 16;
/** How long a key is seen down, and refused, ms; and how it shakes meanwhile, units. */
const DOWN_MS = 120;
const REFUSED_MS = 700;
const SHAKE = [3, -3, 2, -2, 0];
const SHAKE_MS = 45;

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

/** When the lock of a panel's keyboard falls, us of drill time: a panel built anew still has the same machine. */
const freeAt = new WeakMap<Hand['sight'], number>();

/** How long the keyboard is locked by a key that goes down now, us, and a millisecond to be safe. The machine tells its speed to a tenth. */
function locked_us({ sight }: Hand): number {
  const Bd = Number(sight.see('printer.speed')) - 0.05;
  return Bd > 0 ? Math.ceil((UNITS * 1e6) / Bd) + 1000 : 0;
}

/** What lies about the keys and takes the keyboard in hand when it is touched. */
function lapOf(group: HTMLElement, lap: Box, { design }: Hand): HTMLElement {
  const node = el('div', { class: 'lap', 'aria-hidden': 'true' });
  node.addEventListener('mousedown', (e) => e.preventDefault());
  node.addEventListener('click', () => group.focus({ preventScroll: true }));
  return lay(node, lap, design);
}

/** Keyboard, drawn by `spec`; a touch of `lap`, or between the keys, gives it the focus. `shown` is told which keys are down, wait or are refused. */
export function keys(
  { hand, full, control }: Made,
  spec: KeyboardSpec,
  lap: Box | undefined,
  shown: (down: string) => void,
): Handle {
  const group = el('div', {
    role: 'group',
    tabindex: 0,
    class: 'ctl ctl--keys',
    'aria-label': `${nameOf(control.name)}: type while it has the focus, F1 letters, F2 figures, Enter return and line feed`,
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
  const against: string[] = [];
  const buttons = new Map<string, HTMLElement>();
  let free_us = freeAt.get(hand.sight) ?? -1;
  let timer = 0;
  let down = '';
  let up = 0;
  let refused: { key: string; aside: number } | undefined;
  let shaking = 0;
  const show = () =>
    shown(heldText({ down: down ? [down] : [], waits: [...new Set(ahead)], ...(refused ? { refused } : {}) }));
  const shake = (key: string, swings: readonly number[]) => {
    clearTimeout(shaking);
    refused = { key, aside: swings[0] ?? 0 };
    show();
    shaking = window.setTimeout(
      () => {
        if (swings.length > 1) return shake(key, swings.slice(1));
        refused = undefined;
        show();
      },
      swings.length > 1 ? SHAKE_MS : REFUSED_MS,
    );
  };
  const refuse = (key: string) => shake(key, matchMedia('(prefers-reduced-motion: reduce)').matches ? [0] : SHAKE);
  /** One key at the machine. While it acts the layer follows, which comes back here: nothing else may strike then. */
  const strike = (key: string): boolean => {
    free_us = Infinity;
    const went = hand.act(full, key, buttons.get(key) ?? group, performance.now());
    free_us = went ? hand.sight.now_us + locked_us(hand) : -1;
    freeAt.set(hand.sight, free_us);
    return went;
  };
  const flash = (key: string) => {
    down = key;
    show();
    clearTimeout(up);
    up = window.setTimeout(() => {
      down = '';
      show();
    }, DOWN_MS);
  };
  const drop = () => {
    ahead.length = 0;
    against.length = 0;
  };
  const pump = () => {
    clearTimeout(timer);
    // A panel built anew, or left, has other keys: the hand is off these.
    if (!group.isConnected) drop();
    if (ahead.length === 0) return;
    if (hand.sight.now_us >= free_us) {
      const key = ahead.shift()!;
      if (strike(key)) {
        flash(key);
        knock();
      } else {
        drop();
        refuse(key);
      }
    }
    clearTimeout(timer);
    if (ahead.length > 0) timer = window.setTimeout(pump, 15);
  };
  // A key too many beats against the lock when that has just fallen: then it is refused for certain, and the record has it.
  const knock = () => {
    const until_us = free_us;
    for (const key of against.splice(0, 1)) strike(key);
    against.length = 0;
    free_us = until_us;
  };
  const send = (codes: readonly string[]) => {
    if (ahead.length + codes.length > STORE) {
      against.push(codes[0]!);
      refuse(codes[0]!);
    } else ahead.push(...codes);
    pump();
    show();
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
    buttons.set(key.id, button);
  }
  return { el: group, names: [lapOf(group, lap ?? area, hand)], update: pump };
}

/** A letter that nothing else in a place takes is for the printer, if it stands there: its keyboard gets the focus and the letter. */
export function letterForKeys(place: HTMLElement, e: KeyboardEvent): void {
  const keys = place.querySelector<HTMLElement>('.ctl--keys');
  const at = document.activeElement;
  if (!keys || keys.contains(at) || at?.matches('input:not([type=range]), textarea')) return;
  if (e.defaultPrevented || e.repeat || e.ctrlKey || e.metaKey || !/^[a-z]$/i.test(e.key)) return;
  e.preventDefault();
  keys.focus({ preventScroll: true });
  keys.dispatchEvent(new KeyboardEvent('keydown', { key: e.key, cancelable: true }));
}
