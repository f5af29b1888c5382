/** Knobs and levers with positions: a native range, turned by relative drag, wheel, arrows or a typed value. */
import type { ControlValue } from '../../core/signals.ts';
import { decimalsOf, spoken, valueText } from '../words.ts';
import { type Handle, type Made, nameOf, standing } from './control.ts';
import { el, lay, mark } from './dom.ts';
import { fell, nameFields } from './names.ts';

/** A drag shorter than this is a click, CSS pixels. */
const CLICK_PX = 4;
/** Drag that turns a knob through its whole sweep, CSS pixels, for few steps; with many, two steps a pixel. */
const SWEEP_PX = 280;
const STEPS_A_PX = 2;
/** Drag of one step with Shift. */
const FINE_PX = 3;
/** Drag from one position of a lever to the next. */
const NOTCH_PX = 26;

/** Positions 0..n as values and back. */
type Scale = { steps: number; value(step: number): ControlValue; step(value: ControlValue | undefined): number };

function scaleOf({ control }: Made): Scale {
  const r = control.range;
  if (r.kind === 'number') {
    const steps = Math.round((r.max - r.min) / r.step);
    const places = decimalsOf(r.step);
    return {
      steps,
      value: (n) => Number((r.min + n * r.step).toFixed(places)),
      step: (v) => Math.round((Number(v) - r.min) / r.step),
    };
  }
  const words = r.kind === 'words' ? r.words : [];
  return { steps: words.length - 1, value: (n) => words[n] ?? '', step: (v) => Math.max(0, words.indexOf(String(v))) };
}

const KEYS: Readonly<Record<string, (at: number, steps: number) => number>> = {
  ArrowUp: (at) => at + 1,
  ArrowRight: (at) => at + 1,
  ArrowDown: (at) => at - 1,
  ArrowLeft: (at) => at - 1,
  PageUp: (at) => at + 10,
  PageDown: (at) => at - 10,
  Home: () => 0,
  End: (_at, steps) => steps,
};

/** What a control says at its stop. */
function stopText(made: Made, isLeast: boolean): string {
  const isNumber = made.control.range.kind === 'number';
  const end = isNumber ? (isLeast ? 'least' : 'most') : isLeast ? 'first' : 'last';
  return `it is at its stop: ${valueText(made.control, standing(made))} is the ${end}`;
}

/** A range over its face. */
export function turn(made: Made): Handle {
  const { hand, full, control, box, positions } = made;
  const scale = scaleOf(made);
  const r = control.range;
  const number = r.kind === 'number' ? { min: r.min, max: r.max, step: r.step } : { min: 0, max: scale.steps, step: 1 };
  const input = el('input', {
    type: 'range',
    class: 'ctl ctl--turn',
    'aria-label': nameOf(control.name),
    'data-control': full,
    ...number,
  });
  lay(input, box, hand.design);
  const at = () => scale.step(standing(made));
  const to = (step: number, stamp_ms: number) => {
    const n = Math.max(0, Math.min(scale.steps, step));
    if (n !== at()) hand.act(full, scale.value(n), input, stamp_ms);
    update();
  };
  /** As `to`, for one who asks a step at a time: at its stop the control does not go on, and says so. */
  const ask = (step: number, stamp_ms: number) => {
    const end = step < 0 ? 0 : scale.steps;
    const isStopped = (step < 0 || step > scale.steps) && at() === end;
    if (isStopped) hand.say(input, stopText(made, step < 0));
    else to(step, stamp_ms);
  };
  const update = () => {
    const value = standing(made);
    const shown = String(r.kind === 'number' ? value : at());
    if (input.value !== shown) input.value = shown;
    mark(input, 'aria-valuetext', spoken(valueText(control, value)));
  };
  input.addEventListener('input', (e) => {
    const typed = Number(input.value);
    to(r.kind === 'number' ? scale.step(typed) : typed, e.timeStamp);
  });
  input.addEventListener('keydown', (e) => {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    if (e.key === 'Enter' && r.kind === 'number') openField(made, input, (v) => to(scale.step(v), performance.now()));
    else if (KEYS[e.key]) ask(KEYS[e.key]!(at(), scale.steps), e.timeStamp);
    else return;
    e.preventDefault();
  });
  input.addEventListener(
    'wheel',
    (e) => {
      if (document.activeElement !== input && e.deltaMode === 0 && Math.abs(e.deltaY) < 4) return;
      e.preventDefault();
      const by = e.shiftKey ? 1 : Math.max(1, Math.round(scale.steps / 400));
      ask(at() + (e.deltaY + e.deltaX < 0 ? by : -by), e.timeStamp);
    },
    { passive: false },
  );
  const clicked = (e: PointerEvent) => {
    const [x, y] = fell(e, input, box);
    const meant = positions?.meant(x, y, at()) ?? null;
    const side = x >= (box.left + box.right) / 2 ? 1 : -1;
    // A lever that has but two positions is thrown by a touch anywhere.
    const step = positions && scale.steps === 1 ? 1 - 2 * at() : side;
    ask(meant ?? at() + step, e.timeStamp);
  };
  drag(input, r.kind === 'number' ? scale.steps : 0, at, to, clicked);
  update();
  const go = (n: number) => {
    input.value = String(n);
    input.dispatchEvent(new Event('input'));
  };
  return { el: input, update, ...(positions ? { names: nameFields(made, positions, input, at, go) } : {}) };
}

/** Relative drag, up and right for more; never a jump to where the pointer landed. What moves nothing is a click. */
function drag(
  input: HTMLInputElement,
  steps: number,
  at: () => number,
  to: (step: number, stamp_ms: number) => void,
  clicked: (e: PointerEvent) => void,
): void {
  const still = (e: Event) => e.preventDefault();
  input.addEventListener('mousedown', still);
  input.addEventListener('touchstart', still, { passive: false });
  let from: { x: number; y: number; at: number; moved: boolean } | undefined;
  input.addEventListener('pointerdown', (e) => {
    if (e.button !== 0) return;
    input.focus({ preventScroll: true });
    input.setPointerCapture(e.pointerId);
    from = { x: e.clientX, y: e.clientY, at: at(), moved: false };
  });
  input.addEventListener('pointermove', (e) => {
    if (!from) return;
    const travel = e.clientX - from.x - (e.clientY - from.y);
    if (Math.hypot(e.clientX - from.x, e.clientY - from.y) > CLICK_PX) from.moved = true;
    if (!from.moved) return;
    const px = steps === 0 ? NOTCH_PX : e.shiftKey ? FINE_PX : Math.max(SWEEP_PX / steps, 1 / STEPS_A_PX);
    to(from.at + Math.round(travel / px), e.timeStamp);
  });
  input.addEventListener('pointerup', (e) => {
    // A click goes to the position it points at, else one step to the side: a finger that cannot drag gets everywhere, too.
    if (from && !from.moved) clicked(e);
    from = undefined;
  });
  input.addEventListener('pointercancel', () => {
    from = undefined;
  });
}

/** A small field for a typed value: Enter takes it, Escape leaves it. */
function openField({ hand, control, box }: Made, input: HTMLInputElement, take: (value: number) => void): void {
  const r = control.range;
  if (r.kind !== 'number') return;
  const field = el('input', {
    type: 'text',
    inputmode: 'decimal',
    class: 'field',
    'aria-label': `${nameOf(control.name)}, ${r.min} to ${r.max} ${r.unit}`.trim(),
    value: input.value,
  });
  const x = (box.left + box.right) / 2;
  lay(field, { left: x - 52, top: box.bottom - 6, right: x + 52, bottom: box.bottom + 28 }, hand.design);
  let open = true;
  const shut = () => {
    if (!open) return;
    open = false;
    field.remove();
    input.focus();
  };
  field.addEventListener('keydown', (e) => {
    e.stopPropagation();
    if (e.key === 'Escape') shut();
    if (e.key !== 'Enter') return;
    const value = Number(field.value.trim().replace(',', '.').replace(/\s/g, ''));
    if (field.value.trim() === '' || Number.isNaN(value) || value < r.min || value > r.max) {
      hand.say(field, `Type a number from ${r.min} to ${r.max} ${r.unit}.`);
      return;
    }
    shut();
    take(value);
  });
  field.addEventListener('blur', shut);
  input.after(field);
  field.focus();
  field.select();
}
