/** Slips: dialogs in the browser's own frame, which keeps the focus inside and Escape working. */
import { cap, h, type Inside } from './dom.ts';

/** Opens a slip; `close` shuts it, as Escape does. Focus goes back to where it was. */
export function openSlip(
  title: string,
  body: (close: () => void) => Inside,
  onClose: () => void = () => {},
): HTMLDialogElement {
  const slip = h('dialog', { class: 'slip', 'aria-labelledby': 'slip-title' });
  const close = () => slip.close();
  slip.append(
    h(
      'div',
      { class: 'slip__head' },
      h('h2', { id: 'slip-title' }, title),
      h('button', { type: 'button', onclick: close, 'aria-label': 'Esc, close' }, cap('Esc')),
    ),
    h('div', { class: 'slip__body' }, body(close)),
  );
  slip.addEventListener('close', () => {
    slip.remove();
    onClose();
  });
  document.body.append(slip);
  slip.showModal();
  return slip;
}

/** Asks before something that cannot be taken back. */
export function ask(
  question: { title: string; text: string; yes: string; no: string },
  then: () => void,
  otherwise: () => void = () => {},
): void {
  let answer = otherwise;
  const yes = (close: () => void) => () => {
    answer = then;
    close();
  };
  const body = (close: () => void) => [
    h('p', {}, question.text),
    h(
      'div',
      { class: 'slip__foot' },
      h('button', { type: 'button', class: 'push push--first', onclick: yes(close) }, question.yes),
      h('button', { type: 'button', class: 'push', onclick: close, autofocus: true }, question.no),
    ),
  ];
  openSlip(question.title, body, () => answer());
}

/** A list of keys and what they do. */
export function keysSlip(keys: readonly (readonly [key: string, does: string])[], note: string): void {
  openSlip('Keys', () => [
    h(
      'dl',
      { class: 'keys' },
      ...keys.flatMap(([key, does]) => [h('dt', {}, h('kbd', { class: 'cap' }, key)), h('dd', {}, does)]),
    ),
    h('p', { class: 'aside' }, note),
  ]);
}
