/** The four manners of working, and draws: what is chosen before a drill. */
import type { Manner } from '../core/record/record.ts';
import { h } from './dom.ts';

/** What each manner is, in one line. */
export const MANNER_SAYS: Readonly<Record<Manner, string>> = {
  shown: 'The next step and its reason are always before you.',
  prompted: 'Help when you ask for it; the record notes that you did.',
  unaided: 'No help. The far half of the signal stays hidden, as it is in the field.',
  assessed: 'No help and no pause. A result sheet to sign, and a record to hand in.',
};

const MANNERS: readonly Manner[] = ['shown', 'prompted', 'unaided', 'assessed'];
/** Seeds that a button or a trainee may draw: whole numbers of four digits at most are easy to pass on by voice. */
export const DRAWS = 10_000;
/** Greatest seed that a record can hold. */
export const LAST_SEED = 2 ** 31 - 1;

/** Another draw. */
export const anotherDraw = (): number => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) % DRAWS;

/** Four holes to choose a manner by; `say` shows what the chosen one means. */
export function mannerChoice(chosen: Manner, onChoose: (manner: Manner) => void): HTMLElement {
  const say = h('p', { class: 'how__say', id: 'manner-says' }, MANNER_SAYS[chosen]);
  const pick = (manner: Manner) => {
    say.textContent = MANNER_SAYS[manner];
    onChoose(manner);
  };
  const hole = (manner: Manner) =>
    h(
      'label',
      {},
      h('input', {
        type: 'radio',
        name: 'manner',
        value: manner,
        checked: manner === chosen,
        onchange: () => pick(manner),
      }),
      manner,
    );
  return h(
    'fieldset',
    { class: 'holes', 'aria-describedby': 'manner-says' },
    h('legend', {}, 'Manner of working'),
    h('div', { class: 'how__manners' }, ...MANNERS.map(hole)),
    say,
  );
}

/** The number that the drill's dice start from, and a button for another. */
export function drawChoice(seed: number, onChoose: (seed: number) => void): HTMLElement {
  const box = h('input', {
    class: 'entry mono',
    type: 'number',
    inputmode: 'numeric',
    min: 0,
    max: LAST_SEED,
    step: 1,
    value: seed,
    id: 'draw',
    onchange: () => {
      const n = box.valueAsNumber;
      if (Number.isInteger(n) && n >= 0 && n <= LAST_SEED) onChoose(n);
      else box.value = String(seed);
    },
  });
  const again = () => {
    box.value = String(anotherDraw());
    box.dispatchEvent(new Event('change'));
  };
  return h(
    'div',
    { class: 'how__draw' },
    h('label', { for: 'draw' }, h('b', {}, 'Draw')),
    box,
    h('button', { type: 'button', onclick: again }, 'another draw'),
    h('span', { class: 'aside' }, 'the same number gives the same drill'),
  );
}
