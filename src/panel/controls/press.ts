/** Switches and pushes: native buttons. */
import { type Handle, type Made, nameOf, standing } from './control.ts';
import { el, lay, mark } from './dom.ts';
import { fell, nameFields } from './names.ts';

/** A screen reader's click has no length; it holds a push for this long. */
const TAP_MS = 120;

/** In or out. Of a lever a touch means the position it is nearest to; all else throws it. */
export function toggle(made: Made): Handle {
  const { hand, full, control, box, positions } = made;
  const button = el('button', {
    type: 'button',
    role: 'switch',
    class: 'ctl',
    'aria-label': nameOf(control.name),
    'data-control': full,
  });
  lay(button, box, hand.design);
  const present = () => (standing(made) === true ? 1 : 0);
  const words = control.range.kind === 'switch' ? control.range.words : null;
  const isPlain = !words || (words[0] === 'off' && words[1] === 'on');
  const update = () => {
    mark(button, 'aria-checked', String(standing(made) === true));
    // A reader says on and off by itself; what is printed otherwise it is told.
    if (!isPlain) mark(button, 'aria-description', words[present()]!);
  };
  button.addEventListener('keydown', (e) => {
    if (e.repeat && (e.key === 'Enter' || e.key === ' ')) e.preventDefault();
  });
  button.addEventListener('click', (e) => {
    const meant = e.detail === 0 ? null : positions?.meant(...fell(e, button, box), present());
    if (meant !== present()) hand.act(full, standing(made) !== true, button, e.timeStamp);
    update();
  });
  update();
  const go = (to: number) => {
    if (to !== present()) button.click();
  };
  return { el: button, update, ...(positions ? { names: nameFields(made, positions, button, present, go) } : {}) };
}

/** True while pressed: down with pointer, Space or Enter, up when they let go or the focus leaves. */
export function hold(button: HTMLElement, set: (down: boolean, stamp_ms: number) => void): void {
  let down = false;
  const to = (now: boolean, stamp_ms: number) => {
    if (now === down) return;
    down = now;
    set(now, stamp_ms);
  };
  const isPress = (e: KeyboardEvent) => (e.key === ' ' || e.key === 'Enter') && !e.altKey && !e.ctrlKey && !e.metaKey;
  button.addEventListener('pointerdown', (e) => {
    if (e.button !== 0) return;
    button.focus({ preventScroll: true });
    button.setPointerCapture(e.pointerId);
    to(true, e.timeStamp);
  });
  for (const name of ['pointerup', 'pointercancel', 'lostpointercapture'] as const)
    button.addEventListener(name, (e) => to(false, e.timeStamp));
  button.addEventListener('contextmenu', (e) => e.preventDefault());
  button.addEventListener('keydown', (e) => {
    if (!isPress(e)) return;
    e.preventDefault();
    if (!e.repeat) to(true, e.timeStamp);
  });
  button.addEventListener('keyup', (e) => {
    if (!isPress(e)) return;
    e.preventDefault();
    to(false, e.timeStamp);
  });
  button.addEventListener('blur', (e) => to(false, e.timeStamp));
  button.addEventListener('click', (e) => {
    if (e.detail !== 0 || down) return;
    to(true, e.timeStamp);
    setTimeout(() => to(false, performance.now()), TAP_MS);
  });
}

/** A push, a hand key, the press-to-talk bar. */
export function press(made: Made, instead?: () => boolean): Handle {
  const { hand, full, control, box } = made;
  const button = el('button', {
    type: 'button',
    class: 'ctl',
    'aria-label': nameOf(control.name),
    'data-control': full,
  });
  lay(button, box, hand.design);
  hold(button, (down, stamp_ms) => {
    // The first touch of a caged push lifts its cage.
    if (down && instead?.()) return;
    if (!down && standing(made) !== true) return;
    hand.act(full, down, button, stamp_ms);
  });
  return { el: button, update: () => {} };
}
