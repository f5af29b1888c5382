/** The line of words for the microphone. */
import { spell } from '../../core/telegraphy/alphabet.ts';
import { spokenWords, WORD_US } from '../../core/telegraphy/speaking.ts';
import type { Hand, Handle } from './control.ts';
import { el, tell } from './dom.ts';

/** The bar is let go so long after the last word. */
const TAIL_US = 500_000;

/** What the tiles offer: own and far calls, prowords, figures, letters. */
export type Words = { own: string; calls: readonly string[]; max: number };

const PHRASES = [
  'THIS IS',
  'OVER',
  'OUT',
  'AUTHENTICATE',
  'I AUTHENTICATE',
  'ROGER',
  'SAY AGAIN',
  'WAIT',
  'I HAVE ONE PRIORITY BY TELEPRINTER',
];

/** The line of words for the microphone, its tiles, and hold-and-say. `talk` and `say` are the hand's controls. */
export function wordLine(hand: Hand, { own, calls, max }: Words): Handle {
  const input = el('input', {
    type: 'text',
    class: 'line',
    maxlength: max,
    autocomplete: 'off',
    autocapitalize: 'characters',
    spellcheck: 'false',
    'aria-label': 'Words to say, Enter says them while talk is held',
    placeholder: 'words to say',
    'data-control': 'hand.say',
  });
  const add = (text: string) => {
    input.value = `${input.value.trimEnd()} ${text}`.trimStart().slice(0, max);
    tidy();
  };
  const tidy = () => {
    holdAndSay.disabled = input.value.trim() === '';
  };
  const say = (stamp_ms: number): boolean => {
    const line = input.value.trim().toUpperCase();
    if (!line) return false;
    const done = hand.act('hand.say', line, input, stamp_ms);
    if (done) input.value = '';
    tidy();
    return done;
  };
  input.addEventListener('input', tidy);
  input.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter' || e.repeat) return;
    e.preventDefault();
    say(e.timeStamp);
  });
  const holdAndSay = el('button', { type: 'button', class: 'tile tile--first' }, 'Hold and say');
  let until_us = 0;
  let held = false;
  holdAndSay.addEventListener('click', (e) => {
    const count = spokenWords(input.value).length;
    if (held || count === 0 || !hand.act('hand.talk', true, holdAndSay, e.timeStamp)) return;
    held = true;
    until_us = hand.sight.now_us + count * WORD_US + TAIL_US;
    if (!say(e.timeStamp)) until_us = 0;
    update();
  });
  const update = () => {
    if (held && hand.sight.now_us >= until_us) {
      held = false;
      if (hand.sight.standing('hand.talk') === true) hand.act('hand.talk', false, holdAndSay, performance.now());
    }
    tell(holdAndSay, held ? 'Saying…' : 'Hold and say');
  };
  const tile = (text: string, said = text, more = '') => {
    const button = el(
      'button',
      { type: 'button', class: `tile${more}`, ...(said === text ? {} : { title: said }) },
      text,
    );
    button.addEventListener('click', () => add(said));
    return button;
  };
  const wipe = el('button', { type: 'button', class: 'tile', 'aria-label': 'Clear the word line' }, 'clear');
  wipe.addEventListener('click', () => {
    input.value = '';
    tidy();
    input.focus();
  });
  const back = el('button', { type: 'button', class: 'tile', 'aria-label': 'Take the last word back' }, 'back');
  back.addEventListener('click', () => {
    input.value = input.value.trim().split(/\s+/).slice(0, -1).join(' ');
    tidy();
  });
  const callTiles = [own, ...calls.filter((c) => c !== own)].map((c) => tile(c, spell(c).join(' '), ' tile--call'));
  const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789'].map((c) => tile(c, spell(c).join(' '), ' tile--letter'));
  const node = el(
    'div',
    { role: 'group', class: 'words', 'aria-label': 'Word line' },
    el('div', { class: 'words__line' }, input, holdAndSay, back, wipe),
    el('div', { class: 'words__tiles' }, ...callTiles, ...PHRASES.map((p) => tile(p))),
    el('div', { class: 'words__letters', role: 'group', 'aria-label': 'Spelling' }, ...letters),
  );
  tidy();
  return { el: node, update };
}
