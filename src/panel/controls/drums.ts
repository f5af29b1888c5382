/** Six decade drums make one number; each is a spin button. They may stand between, at a number that the box does not take. */
import { drumText } from '../mounts.ts';
import { type Handle, type Made, nameOf, standing } from './control.ts';
import { el, lay, mark } from './dom.ts';

const PLACES = ['tens of MHz', 'MHz', 'hundreds of kHz', 'tens of kHz', 'kHz', 'tenths of kHz'];

/** The drums, one window each in `boxes`. `drawn` is told what they show while it is not yet taken. */
export function drums(made: Made, windows: readonly Made['box'][], drawn: (digits: string | null) => void): Handle {
  const { hand, full, control } = made;
  const r = control.range;
  const [min, max] = r.kind === 'number' ? [r.min, r.max] : [0, 0];
  let draft: string | null = null;
  const digits = () => draft ?? drumText(Number(standing(made)));
  const group = el('div', { role: 'group', class: 'pass', 'aria-label': nameOf(control.name), 'data-control': full });
  const set = (i: number, digit: number, stamp_ms: number) => {
    const now = digits();
    const text = now.slice(0, i) + ((digit + 10) % 10) + now.slice(i + 1);
    const kHz = Number(text) / 10;
    const fits = kHz >= min && kHz <= max;
    draft = fits ? null : text;
    drawn(draft);
    if (fits) hand.act(full, kHz, wheels[i]!, stamp_ms);
    else
      hand.say(wheels[i]!, `The sender goes from ${min} to ${max} kHz; it keeps ${Number(standing(made)).toFixed(1)}.`);
    update();
  };
  const wheels = windows.map((box, i) => {
    const wheel = el('input', {
      type: 'text',
      inputmode: 'numeric',
      role: 'spinbutton',
      maxlength: 1,
      class: 'ctl',
      autocomplete: 'off',
      'aria-label': `${nameOf(control.name)}, ${PLACES[i]}`,
      'aria-valuemin': 0,
      'aria-valuemax': 9,
    });
    lay(wheel, box, hand.design);
    const by = (d: number, stamp_ms: number) => set(i, Number(digits()[i]) + d, stamp_ms);
    wheel.addEventListener('keydown', (e) => {
      if (e.altKey || e.ctrlKey || e.metaKey) return;
      if (e.key === 'ArrowUp') by(1, e.timeStamp);
      else if (e.key === 'ArrowDown') by(-1, e.timeStamp);
      else if (e.key === 'ArrowRight') wheels[Math.min(5, i + 1)]!.focus();
      else if (e.key === 'ArrowLeft') wheels[Math.max(0, i - 1)]!.focus();
      else if (e.key === 'Home') set(i, 0, e.timeStamp);
      else if (e.key === 'End') set(i, 9, e.timeStamp);
      else if (/^[0-9]$/.test(e.key)) {
        set(i, Number(e.key), e.timeStamp);
        wheels[Math.min(5, i + 1)]!.focus();
      } else if (e.key === 'Tab' || e.key === 'Escape') return;
      e.preventDefault();
    });
    wheel.addEventListener('input', (e) => {
      const typed = /[0-9]/.exec(wheel.value)?.[0];
      if (typed === undefined) update();
      else set(i, Number(typed), e.timeStamp);
    });
    wheel.addEventListener(
      'wheel',
      (e) => {
        e.preventDefault();
        by(e.deltaY < 0 ? 1 : -1, e.timeStamp);
      },
      { passive: false },
    );
    let from: { y: number; digit: number; moved: boolean } | undefined;
    wheel.addEventListener('mousedown', (e) => e.preventDefault());
    wheel.addEventListener('pointerdown', (e) => {
      wheel.focus({ preventScroll: true });
      wheel.setPointerCapture(e.pointerId);
      from = { y: e.clientY, digit: Number(digits()[i]), moved: false };
    });
    wheel.addEventListener('pointermove', (e) => {
      if (!from) return;
      const n = Math.round((from.y - e.clientY) / 22);
      if (n !== 0) from.moved = true;
      const want = (((from.digit + n) % 10) + 10) % 10;
      if (from.moved && want !== Number(digits()[i])) set(i, want, e.timeStamp);
    });
    wheel.addEventListener('pointerup', (e) => {
      const { top, height } = wheel.getBoundingClientRect();
      const at = (e.clientY - top) / height;
      if (from && !from.moved && (at < 0.33 || at > 0.67)) by(at < 0.33 ? -1 : 1, e.timeStamp);
      from = undefined;
    });
    return wheel;
  });
  group.append(...wheels);
  const update = () => {
    const text = digits();
    wheels.forEach((wheel, i) => {
      const d = text[i] ?? '0';
      if (wheel.value !== d) wheel.value = d;
      mark(wheel, 'aria-valuenow', d);
    });
  };
  update();
  return { el: group, update };
}
