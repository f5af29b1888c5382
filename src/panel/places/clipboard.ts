/** The clip-board over the printed page: what is next; the explain-card hangs under it, the message form takes the place of the tip. */
import { el, mark } from '../controls/dom.ts';
import type { Box } from '../kit/bounds.ts';
import { box } from './bed.ts';

/** The most it takes: under it six lines of print stand clear over the printer. */
export const CLIPBOARD: Box = box(34, 122, 706, 329);

/** Sheets that share one place. */
export type Sheets = { now: HTMLElement; form: HTMLElement; explain: HTMLElement };

/** The board with its sheets and the button of the form. */
export class Clipboard {
  readonly el: HTMLElement;
  private readonly button: HTMLElement;

  constructor(
    private readonly sheets: Sheets,
    turn: () => void,
  ) {
    const { now, form, explain } = sheets;
    this.button = el(
      'button',
      { type: 'button', class: 'tile clip__form', 'aria-expanded': 'false', 'aria-keyshortcuts': 'Alt+M' },
      'Message form',
    );
    this.button.addEventListener('click', turn);
    this.el = el('div', { class: 'clip' }, now, this.button, form, explain);
  }

  /** Follows what is open. */
  update(): void {
    const [now, form, explain] = [this.sheets.now, this.sheets.form, this.sheets.explain].map((e) => e.hidden !== true);
    mark(this.button, 'aria-expanded', String(form));
    this.el.classList.toggle('clip--slip', now === true);
    this.el.classList.toggle('clip--over', form === true);
    this.el.classList.toggle('clip--bare', !now && !form && !explain);
  }
}
