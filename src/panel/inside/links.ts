/** The ribbon's windows as buttons: one stop for Tab, arrows along them, Enter looks inside. */

import { LINKS } from '../../core/drill.ts';
import { el, lay, mark } from '../controls/dom.ts';
import type { Reach } from '../reach.ts';
import { linkBox } from '../ribbon.ts';

const DESIGN = { w: 1280, h: 720 };

/** May this link be looked into, as the manner has it? */
export const isHidden = ({ hidden }: Reach, i: number): boolean => hidden !== null && i >= hidden[0] && i <= hidden[1];

/** Ten buttons over the ribbon. */
export class LinkButtons {
  readonly els: readonly HTMLButtonElement[];
  private at = 0;

  constructor(
    private readonly open: (link: number) => void,
    as: 'button' | 'tab' = 'button',
  ) {
    this.els = LINKS.map((name, i) => {
      const button = el('button', {
        type: 'button',
        class: 'ctl link',
        'data-link': name,
        ...(as === 'tab' ? { role: 'tab' } : {}),
      });
      button.addEventListener('click', () => {
        if (button.getAttribute('aria-disabled') !== 'true') this.open(i);
      });
      button.addEventListener('keydown', (e) => this.keyed(e, i, as));
      return lay(button, linkBox(i), DESIGN);
    });
    this.reachBy(0);
  }

  /** The one that Tab comes to. */
  reachBy(i: number): void {
    this.at = i;
    this.els.forEach((b, k) => {
      b.tabIndex = k === i ? 0 : -1;
    });
  }

  focus(): void {
    this.els[this.at]!.focus({ preventScroll: true });
  }

  private keyed(e: KeyboardEvent, i: number, as: 'button' | 'tab'): void {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    const n = this.els.length;
    const to = { ArrowRight: (i + 1) % n, ArrowLeft: (i + n - 1) % n, Home: 0, End: n - 1 }[e.key];
    if (to === undefined) return;
    e.preventDefault();
    e.stopPropagation();
    this.reachBy(to);
    this.els[to]!.focus({ preventScroll: true });
    if (as === 'tab' && this.els[to]!.getAttribute('aria-disabled') !== 'true') this.open(to);
  }

  /** Names say how far the signal gets; what the manner hides cannot be opened. */
  update(reach: Reach, chosen: number | null = null): void {
    this.els.forEach((b, i) => {
      const hidden = isHidden(reach, i);
      const state = hidden ? 'not known' : reach.lit[i] ? 'signal here' : 'no signal';
      mark(b, 'aria-label', `${LINKS[i]}: ${state}`);
      mark(b, 'aria-disabled', String(hidden));
      if (b.getAttribute('role') === 'tab') mark(b, 'aria-selected', String(i === chosen));
    });
  }
}
