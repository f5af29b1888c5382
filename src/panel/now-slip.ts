/** The slip of the next step: whole, folded to its title, or short beside a card. */
import type { ExplainCard } from './cards.ts';
import { el, mark } from './controls/dom.ts';
import type { NowStep, PanelHost } from './host.ts';

/** A phone's tabs, and the line of a title under them, px. */
const UNDER_TABS_PX = 80;

/** The slip that says what is next. */
export class NowSlip {
  readonly el = el('section', { class: 'card now', 'aria-label': 'Now' });
  /** The step it says, null while it says none. */
  step: NowStep | null = null;
  private index = -1;
  private beside = '';
  /** Opens and folds it, where it is folded. */
  private readonly folder = el('button', { type: 'button', class: 'now__fold', 'aria-expanded': 'true' });
  /** Only its title is seen, beside a card that was asked for. */
  isShort = false;

  /** `saysWhy`: also why, on a phone as far as the slip's height leaves room for it. `folds`: a touch folds it to the line of its title. */
  constructor(
    private readonly host: PanelHost,
    private readonly saysWhy: boolean,
    private readonly folds = false,
  ) {
    this.el.hidden = true;
    this.folder.addEventListener('click', () => this.fold(!this.el.classList.contains('now--folded')));
  }

  /**
   * While the explain-card has no room, the slip leaves out its reason. On a board that both share, if that is not enough, a card that
   * came by itself goes again, and to one that was asked for the slip leaves all but its title. Measured only when either has changed.
   */
  giveWay(card: ExplainCard, isBoard: boolean): void {
    const beside = card.el.hidden || !card.el.isConnected ? '' : `${this.index} ${card.isAsked} ${card.el.textContent}`;
    if (beside === this.beside) return;
    this.beside = beside;
    this.isShort = false;
    this.el.classList.remove('now--tip', 'now--title');
    const hasNoRoom = () => beside !== '' && this.step !== null && card.isCut;
    this.el.classList.toggle('now--tip', hasNoRoom());
    if (!isBoard || !hasNoRoom()) return;
    if (card.isAsked) {
      this.isShort = true;
      this.el.classList.add('now--title');
    } else {
      card.el.hidden = true;
      this.beside = '';
    }
  }

  /** Folds it to the line of its title, or opens it. */
  fold(isFolded: boolean): void {
    this.el.classList.toggle('now--folded', isFolded);
    mark(this.folder, 'aria-expanded', String(!isFolded));
  }

  /** Its own place on a phone held upright: once that is scrolled away, the slip sticks under the tabs as the line of its title. */
  home(): HTMLElement {
    const home = el('div', { class: 'pass' }, this.el);
    const watch = new IntersectionObserver(
      ([seen]) => {
        const isAway = seen?.isIntersecting === false;
        this.el.classList.toggle('now--stuck', isAway);
        this.fold(isAway);
      },
      { rootMargin: `-${UNDER_TABS_PX}px 0px 0px` },
    );
    watch.observe(home);
    return home;
  }

  private head({ index, of, step }: NowStep): HTMLElement[] {
    const said = el('span', {}, `step ${index + 1} of ${of}`);
    if (!this.folds)
      return [
        el('div', { class: 'now__head' }, el('h2', {}, 'Now'), said),
        el('p', { class: 'now__title' }, step.title),
      ];
    this.folder.replaceChildren(el('b', {}, step.title), said);
    return [el('div', { class: 'now__head' }, el('h2', {}, 'Now'), this.folder)];
  }

  update(): void {
    const step = this.host.guideStep?.() ?? null;
    this.step = step;
    this.el.hidden = step === null;
    if (!step || step.index === this.index) return;
    this.index = step.index;
    this.el.replaceChildren(
      ...this.head(step),
      ...(step.tip === step.step.title ? [] : [el('p', {}, step.tip)]),
      ...(this.saysWhy ? [el('p', { class: 'quiet' }, step.why)] : []),
    );
  }
}
