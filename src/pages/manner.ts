/** The four manners of working, and draws: what is chosen before a drill. */
import type { Manner } from '../core/record/record.ts';
import { h } from './dom.ts';

/** What each manner is, in one line. */
export const MANNER_SAYS: Readonly<Record<Manner, string>> = {
  shown: 'The next step is always before you, with its reason where there is room. The Watch slip always has both.',
  prompted: 'Help when you ask for it; the record notes that you did.',
  unaided:
    'No help but the cards that explain each control. The far half of the signal stays hidden, as it is in the field.',
  assessed: 'No help of any kind and no pause. A result sheet to sign, and a record to hand in.',
};

const MANNERS: readonly Manner[] = ['shown', 'prompted', 'unaided', 'assessed'];
/** Seeds that a button or a trainee may draw: whole numbers of four digits at most are easy to pass on by voice. */
export const DRAWS = 10_000;
/** Greatest seed that a record can hold. */
export const LAST_SEED = 2 ** 31 - 1;

/** Another draw. */
export const anotherDraw = (): number => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) % DRAWS;

/** How the next drill is to be worked: in what manner, from what draw, and whether a person gave that draw. */
export type How = { manner: Manner; seed: number; given: boolean };

/** What is chosen, once `manner` is: an assessed drill is drawn anew, unless a person gave the draw. */
export const inManner = (how: How, manner: Manner): How =>
  manner === 'assessed' && !how.given ? { manner, seed: anotherDraw(), given: false } : { ...how, manner };

const drawSays = ({ manner, given }: How): string => {
  if (given) return 'kept: same number, same drill';
  return manner === 'assessed' ? 'drawn anew, unless you type a number' : 'the same number gives the same drill';
};

/** Four holes to choose a manner by. */
function mannerChoice(chosen: Manner, say: HTMLElement, pick: (manner: Manner) => void): HTMLElement {
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

/** The manner of working and the number that the drill's dice start from, with a button for another. */
export function howChoice(begin: How, onChoose: (how: How) => void): HTMLElement {
  let how = begin;
  const box = h('input', {
    class: 'entry mono',
    type: 'number',
    inputmode: 'numeric',
    min: 0,
    max: LAST_SEED,
    step: 1,
    value: how.seed,
    id: 'draw',
    'aria-describedby': 'draw-says',
    onchange: () => {
      const n = box.valueAsNumber;
      if (Number.isInteger(n) && n >= 0 && n <= LAST_SEED) choose({ ...how, seed: n, given: true });
      else box.value = String(how.seed);
    },
  });
  const say = h('p', { class: 'how__say', id: 'manner-says' }, MANNER_SAYS[how.manner]);
  const draw = h('span', { class: 'aside', id: 'draw-says', role: 'status' }, drawSays(how));
  const choose = (now: How) => {
    how = now;
    box.value = String(how.seed);
    say.textContent = MANNER_SAYS[how.manner];
    draw.textContent = drawSays(how);
    onChoose(how);
  };
  return h(
    'div',
    { class: 'how' },
    mannerChoice(how.manner, say, (manner) => choose(inManner(how, manner))),
    h(
      'div',
      { class: 'how__draw' },
      h('label', { for: 'draw' }, h('b', {}, 'Draw')),
      box,
      h(
        'button',
        { type: 'button', onclick: () => choose({ ...how, seed: anotherDraw(), given: false }) },
        'another draw',
      ),
      draw,
    ),
  );
}
