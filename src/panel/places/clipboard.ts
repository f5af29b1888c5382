/** The clip-board over the printed page: what is next, beside it the message form; the explain-card hangs under it, over the form. */
import type { ExplainCard } from '../cards.ts';
import { el, mark } from '../controls/dom.ts';
import type { Box } from '../kit/bounds.ts';
import type { NowSlip } from '../now-slip.ts';
import { box } from './bed.ts';

/** The most it takes: under it six lines of print stand clear over the printer. */
export const CLIPBOARD: Box = box(34, 122, 706, 334);

/** Sheets that share the board. */
export type Sheets = { now: NowSlip; forms: readonly HTMLElement[]; explain: ExplainCard };

/** The board with its sheets and the button of the form. */
export class Clipboard {
  readonly el: HTMLElement;
  private readonly form: HTMLElement;
  private readonly button: HTMLElement;
  /** Taken out; the explain-card may lie over it. */
  private isOut = false;
  private step: number | undefined;

  constructor(
    private readonly sheets: Sheets,
    turned: () => void,
  ) {
    this.form = el('section', { class: 'forms', 'aria-label': 'Message form' }, ...sheets.forms);
    this.button = el(
      'button',
      { type: 'button', class: 'tile clip__form', 'aria-expanded': 'false', 'aria-keyshortcuts': 'Alt+M' },
      'Message form',
    );
    this.button.addEventListener('click', () => {
      this.turn();
      turned();
    });
    this.el = el('div', { class: 'clip' }, sheets.now.el, this.button, this.form, sheets.explain.el);
  }

  /** The form comes or goes; from under the explain-card it comes. */
  turn(): void {
    const { explain } = this.sheets;
    this.isOut = explain.el.hidden === true ? !this.isOut : true;
    if (!explain.el.hidden) explain.turn();
  }

  /** Puts the form away; false if it was not out. */
  close(): boolean {
    const was = this.isOut;
    this.isOut = false;
    return was;
  }

  /** Follows what is open, and puts the form away when a step begins that is not worked from it. */
  update(): void {
    const { now, explain } = this.sheets;
    if (now.step && now.step.index !== this.step) {
      if (this.step !== undefined && now.step.step.form === undefined) this.isOut = false;
      this.step = now.step.index;
    }
    const explains = explain.el.hidden !== true;
    const shows = this.isOut && !explains;
    this.form.hidden = !shows;
    mark(this.button, 'aria-expanded', String(shows));
    this.el.classList.toggle('clip--slip', now.step !== null);
    this.el.classList.toggle('clip--over', shows);
    this.el.classList.toggle('clip--bare', now.step === null && !shows && !explains);
  }
}
