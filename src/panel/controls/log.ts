/** The log's next line: written by key or put together from tiles, entered by Enter or by a tile. */
import type { Hand, Handle } from './control.ts';
import { el } from './dom.ts';

const ENTRIES = [
  'CALLED',
  'ANSWERED',
  'RECOGNITION',
  'BOTH WAYS',
  'SENT',
  'RECEIVED',
  'RECEIPT',
  'CLOSING DOWN',
  'STATION CLOSED',
  'TO',
  'FROM',
  'ON',
  'BY TELEPRINTER',
  'BY VOICE',
];

/** What the papers on the desk can be quoted by: call signs, frequencies, messages. */
function quoted(hand: Hand): string[] {
  const { calls, frequencies, messages } = hand.sight.drill.scenario.papers;
  return [
    ...messages.map((m) => m.id.replace(/^NR/, 'NR ')),
    ...calls.map((c) => c.call),
    ...frequencies.map((f) => String(f.kHz)),
  ];
}

/** The line with its buttons, its tiles, and how they are put away. */
export type LogLine = Handle & { pad: HTMLElement; close(): void };

/** Line and tiles of control `full`, at most `max` characters. What is entered puts the tiles away. */
export function logLine(hand: Hand, full: string, max: number): LogLine {
  const input = el('input', {
    type: 'text',
    class: 'line line--log',
    maxlength: max,
    autocomplete: 'off',
    'aria-label': 'Log entry, Enter writes it',
    placeholder: 'write, Enter enters it',
    'data-control': full,
  });
  const enter = (stamp_ms: number) => {
    const text = input.value.trim();
    if (!text || !hand.act(full, text, input, stamp_ms)) return;
    input.value = '';
    close();
  };
  input.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter' || e.repeat) return;
    e.preventDefault();
    enter(e.timeStamp);
  });
  const tile = (text: string, more: string, on: (e: MouseEvent) => void) => {
    const button = el('button', { type: 'button', class: `tile${more}` }, text);
    button.addEventListener('click', on);
    return button;
  };
  const add = (text: string) => () => {
    input.value = `${input.value.trimEnd()} ${text}`.trimStart().slice(0, max);
  };
  const back = tile('back', '', () => {
    input.value = input.value.trim().split(/\s+/).slice(0, -1).join(' ');
  });
  back.setAttribute('aria-label', 'Take the last word of the entry back');
  const pad = el(
    'div',
    { class: 'log__pad', id: 'log-pad', role: 'group', 'aria-label': 'Words for the log' },
    el('p', { class: 'log__head', 'aria-hidden': 'true' }, 'Words for the log'),
    ...ENTRIES.map((text) => tile(text, '', add(text))),
    ...quoted(hand).map((text) => tile(text, ' tile--call', add(text))),
    back,
    tile('Enter it', ' tile--first', (e) => enter(e.timeStamp)),
  );
  const show = (isShown: boolean) => {
    pad.hidden = !isShown;
    words.setAttribute('aria-expanded', String(isShown));
  };
  const close = () => {
    if (pad.contains(document.activeElement)) words.focus();
    show(false);
  };
  const words = tile('Words', '', () => show(pad.hidden === true));
  show(false);
  words.setAttribute('aria-controls', pad.id);
  const line = el('div', { class: 'log__write' }, input, words);
  for (const part of [line, pad])
    part.addEventListener('keydown', (e) => {
      if (e.key !== 'Escape' || pad.hidden) return;
      e.stopPropagation();
      close();
    });
  return { el: line, pad, close, update: () => {} };
}
