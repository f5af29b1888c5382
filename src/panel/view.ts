/** The control layer of one place: its boxes' controls and readings, cards, tabs. Rebuilt with the place. */
import type { Control } from '../core/station/box.ts';
import { boxGroup } from './box-group.ts';
import type { Boxed } from './boxes.ts';
import { ExplainCard } from './cards.ts';
import type { Hand } from './controls/control.ts';
import { type Design, el, lay, mark, tell } from './controls/dom.ts';
import { letterForKeys } from './controls/keys.ts';
import { letGoWhenSaid } from './controls/writing.ts';
import type { PanelHost, Place, Sight } from './host.ts';
import { LinkButtons } from './inside/links.ts';
import type { Box } from './kit/bounds.ts';
import { LAYOUTS } from './layout/all.ts';
import { flow } from './layout/flow.ts';
import type { BoxLayout } from './layout/layout.ts';
import { printerUnderSlip } from './layout/printer.ts';
import { NowSlip } from './now-slip.ts';
import { bayPieces, boxesOf, COLUMN, HAS_COLUMN } from './places/bays.ts';
import { type Bed, box } from './places/bed.ts';
import { CLIPBOARD, Clipboard } from './places/clipboard.ts';
import { heardPart, ON_DESK, papersPart, voicePart } from './places/desk.ts';
import { KEYS, placeKeys } from './places/keys.ts';
import { type NarrowPlace, narrowPlace } from './places/narrow.ts';
import { messageForm, pageText } from './places/papers.ts';
import { shelterPieces } from './places/shelter.ts';
import { bayList, bayTargets, chips, tabs } from './places/tabs.ts';
import { reachOf } from './reach.ts';
import { ribbonWords } from './ribbon.ts';
import type { Piece } from './tiles.ts';

type Ways = { goTo(place: Place): void; refresh(): void; openLink(link: number): void };
type Updating = { update(sight: Sight): void };

/** The wide design. */
export const WIDE = { w: 1280, h: 720 };

/** Whether a slip with the next step has a place here. */
const hasNow = (host: PanelHost): boolean => host.manner === 'shown' || (host.guideStep?.() ?? null) !== null;

/** The control layer. */
export class View {
  readonly el: HTMLElement;
  readonly pieces: readonly Piece[];
  readonly design: Design;
  private readonly updating: Updating[] = [];
  private readonly explainCard = new ExplainCard();
  private readonly nowSlip: NowSlip;
  private board: Clipboard | undefined;
  private readonly ribbonEl: HTMLElement;
  private readonly links = new LinkButtons((link) => this.ways.openLink(link));

  constructor(
    readonly place: Place,
    private readonly boxes: readonly Boxed[],
    private readonly host: PanelHost,
    private readonly hand: Hand,
    private readonly ways: Ways,
    readonly isNarrow: boolean,
    /** Width of a low window, as of a phone on its side. */
    private readonly low_w: number | null = null,
  ) {
    this.el = el('div', { class: `layer layer--${place}` });
    this.nowSlip = new NowSlip(host, isNarrow || place === 'shelter' || HAS_COLUMN[place], isNarrow);
    if (!isNarrow && !HAS_COLUMN[place]) this.nowSlip.el.classList.add('now--row');
    const narrow = isNarrow ? narrowPlace(place, boxes, host, hasNow(host), low_w) : null;
    this.design = narrow ? { w: narrow.w, h: narrow.h } : WIDE;
    hand.design = this.design;
    this.updating.push({ update: () => letGoWhenSaid(hand, this.el) });
    this.ribbonEl = this.ribbonPart(narrow?.strip);
    const title = host.title ?? host.drill.scenario.title;
    if (narrow) {
      this.pieces = narrow.pieces;
      this.narrowPart(place, narrow);
      return;
    }
    if (place === 'shelter') {
      this.pieces = shelterPieces(host, title);
      this.shelterPart();
    } else {
      this.pieces = bayPieces(place, boxes, (b) => this.layoutOf(b), host, title);
      this.bayPart(place);
    }
    this.at(placeKeys(place, this.mayExplain ? () => this.explain() : undefined), KEYS);
  }

  /** The explain-cards are help: an assessed operator has none. */
  private get mayExplain(): boolean {
    return this.host.manner !== 'assessed';
  }

  /** The layer as parts of a place need it. */
  private get bed(): Bed {
    const { hand, host, boxes } = this;
    return {
      hand,
      host,
      boxes,
      at: (node, where) => this.at(node, where),
      follow: (update) => this.updating.push({ update }),
    };
  }

  private get whole(): Box {
    return box(0, 0, this.design.w, this.design.h);
  }

  private at<E extends HTMLElement>(node: E, where: Box): E {
    this.el.append(lay(node, where, this.design));
    return node;
  }

  private ribbonPart(where?: Box): HTMLElement {
    const words = el('p', { class: 'unseen', role: 'status', 'aria-live': 'off' });
    const group = el('section', { class: 'pass', 'aria-label': 'Signal ribbon', tabindex: -1 }, words);
    if (where) {
      const strip = el('button', { type: 'button', class: 'ctl', 'aria-label': 'Look inside the signal' });
      strip.addEventListener('click', () => this.ways.openLink(0));
      group.append(lay(strip, where, this.design));
    } else group.append(...this.links.els);
    this.el.append(lay(group, this.whole, this.design));
    this.updating.push({
      update: (sight) => {
        const reach = reachOf(sight, this.host.manner);
        tell(words, ribbonWords(reach));
        this.links.update(reach);
      },
    });
    return group;
  }

  private shelterPart(): void {
    this.el.append(bayTargets(this.design, (to) => this.ways.goTo(to)));
    // It grows upward from the desk's edge, so wide that the foot of the whip stays clear.
    const { style } = this.at(this.nowSlip.el, box(828, 562, 1248, 674));
    Object.assign(style, { top: 'auto', bottom: `${(100 * 46) / 720}%`, height: 'auto', minHeight: '15.6%' });
    this.updating.push({ update: () => this.nowSlip.update() });
  }

  private bayPart(place: Exclude<Place, 'shelter'>): void {
    this.el.append(tabs(this.design, (to) => this.ways.goTo(to), place));
    if (place === 'desk') papersPart(this.bed, ON_DESK, { slip: this.nowSlip.el, card: this.explainCard.el });
    for (const b of boxesOf(place, this.boxes)) this.boxPart(b, this.layoutOf(b));
    if (place === 'desk') voicePart(this.bed);
    if (place === 'radio') heardPart(this.bed, box(30, 352, 936, 382), 1);
    const first = boxesOf(place, this.boxes)[0];
    if (first) this.explained(first, undefined, '');
    this.updating.push({ update: () => this.nowSlip.update() });
    if (place === 'messages') this.clipboardPart();
    this.explainCard.el.hidden = !HAS_COLUMN[place] || !this.mayExplain;
    if (HAS_COLUMN[place]) this.at(el('div', { class: 'column' }, this.nowSlip.el, this.explainCard.el), COLUMN);
    else if (this.mayExplain) this.cardByFocus();
    this.updating.push({ update: () => this.giveWay() });
  }

  /** Without a column the card shares a board with the slip. */
  private cardByFocus(): void {
    const card = this.explainCard;
    const isOpen = () => this.el.querySelector('.forms:not([hidden]), .stack .form:not([hidden])') !== null;
    card.comeWithFocus(this.el, isOpen, () => this.update(this.hand.sight));
  }

  private boxPart(b: Boxed, layout: BoxLayout): void {
    const group = boxGroup(this.bed, b, layout, {
      refresh: () => this.ways.refresh(),
      explained: (control, full) => this.explained(b, control, full),
      hasPage: !this.isNarrow,
    });
    this.at(group, this.whole);
  }

  private explained(b: Boxed, control: Control | undefined, full: string): void {
    if (!this.mayExplain) return;
    this.explainCard.show(b, control, full);
    if (!this.isNarrow) this.giveWay();
  }

  private giveWay(): void {
    this.nowSlip.giveWay(this.explainCard, !HAS_COLUMN[this.place]);
  }

  /** On a phone: tabs above, prose and boxes one under the other. */
  private narrowPart(place: Place, { layouts, blocks }: NarrowPlace): void {
    this.el.classList.add('layer--narrow');
    this.el.append(chips((to) => this.ways.goTo(to), place));
    const at = (id: string, make: () => HTMLElement) => {
      const where = blocks[id];
      if (where) this.at(make(), where);
    };
    at('now', () => (this.low_w === null ? this.nowSlip.home() : this.nowSlip.el));
    // Folded it is one line, and grows over what is below it.
    if (this.low_w !== null) {
      this.nowSlip.el.style.height = 'auto';
      this.nowSlip.fold(true);
    }
    this.updating.push({ update: () => this.nowSlip.update() });
    if (place === 'desk') papersPart(this.bed, blocks);
    else if (blocks['heard']) heardPart(this.bed, blocks['heard'], 2);
    at('page', () => {
      const page = pageText();
      this.updating.push(page);
      return page.el;
    });
    for (const { box: b, layout } of layouts) this.boxPart(b, layout);
    if (place === 'desk') voicePart(this.bed, blocks);
    at('form', () => el('section', { class: 'card forms', 'aria-label': 'Message form' }, ...this.forms()));
    at('bays', () => bayList(this.bed, (to) => this.ways.goTo(to)));
    if (place === 'shelter' || !this.mayExplain) return;
    const why = el('button', { type: 'button', class: 'tile explain__open', 'aria-expanded': 'false' }, 'Explain');
    why.addEventListener('click', () => this.explain());
    this.explainCard.el.hidden = true;
    const first = layouts[0]?.box;
    if (first) this.explained(first, undefined, '');
    this.updating.push({ update: () => mark(why, 'aria-expanded', String(!this.explainCard.el.hidden)) });
    this.el.append(el('div', { class: 'explain-sheet' }, this.explainCard.el, why));
  }

  private forms(): HTMLElement[] {
    return this.host.drill.scenario.papers.messages.map(messageForm);
  }

  private clipboardPart(): void {
    const sheets = { now: this.nowSlip, forms: this.forms(), explain: this.explainCard };
    this.board = new Clipboard(sheets, () => this.update(this.hand.sight));
    const { style } = this.at(this.board.el, CLIPBOARD);
    Object.assign(style, { height: 'auto', maxHeight: style.height });
    this.updating.push(this.board);
  }

  /** Follows the drill. */
  update(sight: Sight): void {
    for (const each of this.updating) each.update(sight);
  }

  /** Focus goes to a control by its full name. */
  focus(control: string): void {
    this.el.querySelector<HTMLElement>(`[data-control="${control}"]`)?.focus({ preventScroll: true });
  }

  /** A key that no shortcut takes. */
  typed(e: KeyboardEvent): void {
    letterForKeys(this.el, e);
  }

  /** On arrival the focus is at the bay one came from, or at the tab of this one. */
  arrive(from: Place): void {
    const want = this.place === 'shelter' ? from : this.place;
    this.el.querySelector<HTMLElement>(`[data-place="${want}"]`)?.focus({ preventScroll: true });
  }

  /** Alt E: the explain-card comes or goes, or takes the focus where it always hangs. */
  explain(): void {
    const card = this.explainCard.el;
    if (this.place === 'shelter' || !this.mayExplain) return;
    if (this.isNarrow || !HAS_COLUMN[this.place]) this.explainCard.turn();
    else card.focus();
    if (!card.hidden && this.host.manner === 'prompted') this.host.help('explain');
    this.update(this.hand.sight);
  }

  /** The operator has acted: a card that was asked for gives the tip its room back. */
  acted(): void {
    if (this.nowSlip.isShort) this.explainCard.el.hidden = true;
  }

  /** Alt M: the message form over the printer's page comes or goes. */
  form(): void {
    this.board?.turn();
    this.update(this.hand.sight);
  }

  /** Alt R: to the ribbon's windows. */
  ribbon(): void {
    if (this.isNarrow) this.ribbonEl.querySelector('button')?.focus();
    else this.links.focus();
  }

  /** Back from the look inside a link. */
  leftLink(link: number): void {
    this.links.reachBy(link);
    this.ribbon();
  }

  /** Escape shuts what lies over the drawing, uppermost first; false if nothing did. */
  escape(): boolean {
    const card = this.explainCard.el;
    const isOver = this.isNarrow || !HAS_COLUMN[this.place];
    const shut = (isOver && !card.hidden) || (this.board?.close() ?? false);
    if (isOver) card.hidden = true;
    this.update(this.hand.sight);
    return shut;
  }

  /** The layout by hand; a box that has none yet flows along its track. Under a slip the printer's page shows less. */
  private layoutOf(b: Boxed): BoxLayout {
    if (b.id === 'printer' && hasNow(this.host)) return printerUnderSlip;
    return LAYOUTS[b.id] ?? flow(b, 30, 142, 906).layout;
  }
}
