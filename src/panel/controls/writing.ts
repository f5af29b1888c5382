/** The line of words for the microphone. */
import { spell } from '../../core/telegraphy/alphabet.ts';
import { spokenWords, WORD_US } from '../../core/telegraphy/speaking.ts';
import type { Hand, Handle } from './control.ts';
import { el, tell } from './dom.ts';

/** The bar is let go so long after the last word. */
const TAIL_US = 500_000;

/** Until when the bar is held for words that are being said, us of drill time: they go on wherever the operator turns meanwhile. */
const sayingUntil = new WeakMap<Hand['sight'], number>();

/** The bar is let go when the words that it was pressed for are said; `near` is where the operator is. Every place asks this, so that no microphone stays open. */
export function letGoWhenSaid(hand: Hand, near: HTMLElement): void {
  const until_us = sayingUntil.get(hand.sight);
  if (until_us === undefined || hand.sight.now_us < until_us) return;
  sayingUntil.delete(hand.sight);
  if (hand.sight.standing('hand.talk') === true) hand.act('hand.talk', false, near, performance.now());
}

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

/** The line of words for the microphone, its tiles, and press-and-say. `talk` and `say` are the hand's controls. */
export function wordLine(hand: Hand, { own, calls, max }: Words): Handle {
  const input = el('input', {
    type: 'text',
    class: 'line',
    maxlength: max,
    autocomplete: 'off',
    autocapitalize: 'characters',
    spellcheck: 'false',
    'aria-label': 'Words to say, Enter presses talk and says them',
    placeholder: 'words to say',
    'data-control': 'hand.say',
  });
  const add = (text: string) => {
    input.value = `${input.value.trimEnd()} ${text}`.trimStart().slice(0, max);
    tidy();
  };
  const tidy = () => {
    talkAndSay.disabled = input.value.trim() === '';
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
    if (hand.sight.standing('hand.talk') === true) say(e.timeStamp);
    else pressAndSay(e.timeStamp);
  });
  const talkAndSay = el('button', { type: 'button', class: 'tile tile--first' }, 'Press and say');
  const pressAndSay = (stamp_ms: number) => {
    const count = spokenWords(input.value).length;
    if (sayingUntil.has(hand.sight) || count === 0) return;
    if (!hand.act('hand.talk', true, talkAndSay, stamp_ms)) return;
    const until_us = hand.sight.now_us + count * WORD_US + TAIL_US;
    sayingUntil.set(hand.sight, say(stamp_ms) ? until_us : 0);
    letGoWhenSaid(hand, talkAndSay);
    update();
  };
  talkAndSay.addEventListener('click', (e) => pressAndSay(e.timeStamp));
  const update = () => tell(talkAndSay, sayingUntil.has(hand.sight) ? 'Saying…' : 'Press and say');
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
    el('div', { class: 'words__line' }, input, talkAndSay, back, wipe),
    el('div', { class: 'words__tiles' }, ...callTiles, ...PHRASES.map((p) => tile(p))),
    el('div', { class: 'words__letters', role: 'group', 'aria-label': 'Spelling' }, ...letters),
  );
  tidy();
  return { el: node, update };
}
