/** The control layer of one place: its boxes' controls and readings, cards, tabs. Rebuilt with the place. */
import type { Control } from '../core/station/box.ts';
import type { Boxed } from './boxes.ts';
import { ExplainCard, HeardStrip, NowSlip, readingOf } from './cards.ts';
import type { Hand, Handle } from './controls/control.ts';
import { type Design, el, lay, mark, tell } from './controls/dom.ts';
import { makeControl } from './controls/make.ts';
import { wordLine } from './controls/writing.ts';
import { BAYS, type PanelHost, type Place, type Sight } from './host.ts';
import { LinkButtons } from './inside/links.ts';
import type { Box } from './kit/bounds.ts';
import { textWidth } from './kit/metrics.ts';
import { LAYOUTS } from './layout/all.ts';
import { flow } from './layout/flow.ts';
import type { BoxLayout } from './layout/layout.ts';
import { bayPieces, boxesOf, COLUMN, HAS_COLUMN } from './places/bays.ts';
import { NARROW_W, type NarrowPlace, narrowPlace } from './places/narrow.ts';
import { callCard, frequencyChart, logAndForms, messageForm, orderSlip, recognitionCard } from './places/papers.ts';
import { shelterPieces, TARGETS } from './places/shelter.ts';
import { ribbonView, ribbonWords } from './ribbon.ts';
import type { Piece } from './tiles.ts';

type Ways = { goTo(place: Place): void; refresh(): void; openLink(link: number): void };
type Updating = { update(sight: Sight): void };

/** The wide design. */
export const WIDE = { w: 1280, h: 720 };
const box = (left: number, top: number, right: number, bottom: number): Box => ({ left, top, right, bottom });

/** Where papers lie on the desk. */
const ON_DESK: Readonly<Record<string, Box>> = {
  order: box(164, 132, 404, 372),
  chart: box(416, 132, 764, 248),
  calls: box(416, 256, 764, 374),
  card: box(776, 128, 1084, 376),
  log: box(30, 382, 690, 668),
  heard: box(704, 382, 1256, 448),
  words: box(704, 458, 1256, 668),
};

const number = (v: unknown, places = 0): string => Number(v ?? 0).toFixed(places);
/** How a bay stands, in a line. */
const SUMMARY: Partial<Record<Place, (s: Sight) => string>> = {
  power: (s) => `bus ${number(s.see('feed.volts'), 1)} V, mains ${number(s.see('inverter.volts'))} V`,
  radio: (s) =>
    `sender ${s.standing('sender.readiness')}, ${number(s.see('sender.out'))} W out; receiver ${number(s.see('receiver.scale'), 1)} kHz`,
  messages: (s) =>
    `line ${s.standing('line.lever')}, printer ${s.standing('printer.source')}, column ${number(s.see('printer.column'))}`,
  desk: (s) => `${s.see('desk.utc')} UTC, cards ${s.see('desk.cardsState')}`,
  outside: (s) =>
    `whip ${s.see('aerial.height')} m, guard ${s.standing('aerial.guard') === true ? 'on' : 'off'}, earth ${s.standing('aerial.earth') === true ? 'made' : 'not made'}`,
};

/** Whether a slip with the next step has a place here. */
const hasNow = (host: PanelHost): boolean => host.manner === 'shown' || (host.guideStep?.() ?? null) !== null;

/** Where the column of cards lies when the place keeps no room for it at the right. */
const COLUMN_AT: Partial<Record<Place, Box>> = { messages: box(404, 126, 702, 420) };

/** The control layer. */
export class View {
  readonly el: HTMLElement;
  readonly pieces: readonly Piece[];
  readonly design: Design;
  private readonly updating: Updating[] = [];
  private readonly explainCard = new ExplainCard();
  private readonly nowSlip: NowSlip;
  private formEl: HTMLElement | undefined;
  private readonly ribbonEl: HTMLElement;
  private readonly links = new LinkButtons((link) => this.ways.openLink(link));

  constructor(
    readonly place: Place,
    private readonly boxes: readonly Boxed[],
    private readonly host: PanelHost,
    private readonly hand: Hand,
    private readonly ways: Ways,
    readonly isNarrow: boolean,
  ) {
    this.el = el('div', { class: `layer layer--${place}` });
    this.nowSlip = new NowSlip(host);
    const narrow = isNarrow ? narrowPlace(place, boxes, host, hasNow(host)) : null;
    this.design = narrow ? { w: NARROW_W, h: narrow.h } : WIDE;
    hand.design = this.design;
    this.ribbonEl = this.ribbonPart();
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
      this.pieces = bayPieces(place, boxes, layoutOf, host, title);
      this.bayPart(place);
    }
    this.el.append(this.keysPart());
  }

  private get whole(): Box {
    return box(0, 0, this.design.w, this.design.h);
  }

  private at<E extends HTMLElement>(node: E, where: Box): E {
    this.el.append(lay(node, where, this.design));
    return node;
  }

  private ribbonPart(): HTMLElement {
    const words = el('p', { class: 'unseen', role: 'status', 'aria-live': 'off' });
    const group = el('section', { class: 'pass', 'aria-label': 'Signal ribbon', tabindex: -1 }, words);
    if (this.isNarrow) {
      const strip = el('button', { type: 'button', class: 'ctl', 'aria-label': 'Look inside the signal' });
      strip.addEventListener('click', () => this.ways.openLink(0));
      group.append(lay(strip, box(4, 56, 386, 104), this.design));
    } else group.append(...this.links.els);
    this.el.append(lay(group, this.whole, this.design));
    this.updating.push({
      update: (sight) => {
        const view = ribbonView(sight, this.host.manner);
        tell(words, ribbonWords(view));
        this.links.update(view.reach);
      },
    });
    return group;
  }

  private tabsPart(place: Place): void {
    const nav = el('nav', { class: 'pass', 'aria-label': 'Bays' });
    let x = 24;
    for (const [i, bay] of BAYS.entries()) {
      const w = textWidth(bay.name, 16);
      nav.append(this.tab(bay.place, bay.name, box(x - 8, 88, x + w + 34, 120), place === bay.place, `Alt+${i + 1}`));
      x += w + 62;
    }
    nav.append(this.tab('shelter', 'Whole shelter', box(1112, 88, 1264, 120), false, 'Alt+0'));
    this.el.append(lay(nav, this.whole, this.design));
  }

  private tab(place: Place, name: string, where: Box, isHere: boolean, keys: string): HTMLElement {
    const button = el('button', {
      type: 'button',
      class: 'ctl',
      'aria-label': name,
      'aria-keyshortcuts': keys,
      'aria-current': isHere ? 'page' : undefined,
      'data-place': place,
    });
    button.addEventListener('click', () => this.ways.goTo(place));
    return lay(button, where, this.design);
  }

  private shelterPart(): void {
    const nav = el('nav', { class: 'pass', 'aria-label': 'Bays' });
    BAYS.forEach(({ place, name }, i) => {
      const target = TARGETS[place as keyof typeof TARGETS];
      const button = this.tab(place, name, target, false, `Alt+${i + 1}`);
      button.classList.add('ctl--bay');
      nav.append(button);
    });
    this.el.append(lay(nav, this.whole, this.design));
    // It grows upward from the desk's edge.
    const { style } = this.at(this.nowSlip.el, box(972, 562, 1248, 682));
    Object.assign(style, { top: 'auto', bottom: `${(100 * 38) / 720}%`, height: 'auto', minHeight: '16.7%' });
    this.updating.push({ update: () => this.nowSlip.update() });
  }

  private bayPart(place: Exclude<Place, 'shelter'>): void {
    this.tabsPart(place);
    if (place === 'desk') this.papersPart();
    for (const b of boxesOf(place, this.boxes)) this.boxPart(b, layoutOf(b));
    if (place === 'desk') this.voicePart();
    if (place === 'messages') this.messagesPart();
    if (place === 'radio') this.heardPart(box(30, 352, 936, 382), 1);
    this.columnPart(place);
  }

  private boxPart(b: Boxed, layout: BoxLayout): void {
    const group = el('div', { role: 'group', class: 'pass', 'aria-label': b.name, 'data-box': b.id });
    const handles: Handle[] = [];
    for (const [id, spot] of Object.entries(layout.controls)) {
      const control = b.controls.find((c) => c.id === id);
      if (!control) continue;
      const full = `${b.id}.${id}`;
      const handle = makeControl(this.hand, full, control, spot, () => this.ways.refresh());
      if (!handle) continue;
      handles.push(handle);
      group.append(handle.el);
      handle.el.addEventListener('focusin', () => this.explained(b, control, full));
    }
    for (const indicator of b.indicators) {
      const full = `${b.id}.${indicator.id}`;
      if (full === 'hand.heard' || full === 'desk.logLines') continue;
      if (indicator.face === 'page') {
        if (this.isNarrow) continue;
        const text = el('pre', {});
        group.append(el('section', { class: 'unseen', 'aria-label': indicator.name, 'data-indicator': full }, text));
        this.updating.push({ update: (s) => tell(text, ((s.see(full) as string[] | null) ?? []).join('\n')) });
        continue;
      }
      const reading = readingOf(full, indicator);
      group.append(reading.el);
      this.updating.push(reading);
    }
    this.el.append(lay(group, this.whole, this.design));
    this.updating.push({
      update: () => {
        for (const h of handles) h.update();
      },
    });
  }

  private explained(b: Boxed, control: Control | undefined, full: string): void {
    this.explainCard.show(b, control, this.hand.sight, full);
  }

  /** On a phone: tabs above, prose and boxes one under the other. */
  private narrowPart(place: Place, { layouts, blocks }: NarrowPlace): void {
    this.el.classList.add('layer--narrow');
    const nav = el('nav', { class: 'chips', 'aria-label': 'Bays' });
    for (const [i, bay] of [{ place: 'shelter', name: 'All' } as const, ...BAYS].entries()) {
      const chip = el(
        'button',
        {
          type: 'button',
          class: 'chip',
          'data-place': bay.place,
          'aria-keyshortcuts': `Alt+${i}`,
          'aria-current': place === bay.place ? 'page' : undefined,
          'aria-label': bay.place === 'shelter' ? 'All, whole shelter' : undefined,
        },
        bay.name,
      );
      chip.addEventListener('click', () => this.ways.goTo(bay.place));
      nav.append(chip);
    }
    this.el.append(nav);
    const at = (id: string, make: () => HTMLElement) => {
      const where = blocks[id];
      if (where) this.at(make(), where);
    };
    at('now', () => this.nowSlip.el);
    this.updating.push({ update: () => this.nowSlip.update() });
    if (place === 'desk') this.papersPart(blocks);
    else if (blocks['heard']) this.heardPart(blocks['heard'], 2);
    at('page', () => this.pageText());
    for (const { box: b, layout } of layouts) this.boxPart(b, layout);
    if (place === 'desk') this.voicePart(blocks);
    at('form', () => el('section', { class: 'card forms', 'aria-label': 'Message form' }, ...this.forms()));
    at('bays', () => this.bayList());
    if (place === 'shelter') return;
    const why = el('button', { type: 'button', class: 'tile explain__open', 'aria-expanded': 'false' }, 'Explain');
    why.addEventListener('click', () => this.explain());
    this.explainCard.el.hidden = true;
    const first = layouts[0]?.box;
    if (first) this.explained(first, undefined, '');
    this.updating.push({ update: () => mark(why, 'aria-expanded', String(!this.explainCard.el.hidden)) });
    this.el.append(el('div', { class: 'sheet' }, this.explainCard.el, why));
  }

  private forms(): HTMLElement[] {
    return this.host.drill.scenario.papers.messages.map(messageForm);
  }

  /** The page as text, for a screen too narrow for its lines. */
  private pageText(): HTMLElement {
    const text = el('pre', { class: 'mono', tabindex: 0 });
    this.updating.push({
      update: (s) => {
        const lines = ((s.see('printer.page') as string[] | null) ?? []).join('\n');
        if (text.textContent === lines) return;
        text.textContent = lines;
        text.scrollTop = text.scrollHeight;
      },
    });
    return el('section', { class: 'paper paper--page', 'aria-label': 'Printed page' }, el('h2', {}, 'Page'), text);
  }

  /** Bays as cards that say how they stand. */
  private bayList(): HTMLElement {
    const list = el('div', { class: 'bays' });
    for (const { place, name } of BAYS) {
      const said = el('span', {});
      const card = el('button', { type: 'button', class: 'bay', 'data-place': place }, el('b', {}, name), said);
      card.addEventListener('click', () => this.ways.goTo(place));
      this.updating.push({ update: (s) => tell(said, SUMMARY[place]?.(s) ?? '') });
      list.append(card);
    }
    return list;
  }

  private columnPart(place: Exclude<Place, 'shelter'>): void {
    const column = el('div', { class: 'column' });
    const first = boxesOf(place, this.boxes)[0];
    if (first) this.explained(first, undefined, '');
    this.explainCard.el.hidden = !HAS_COLUMN[place];
    column.append(this.explainCard.el);
    if (place === 'desk') this.at(this.nowSlip.el, box(30, 566, 690, 668));
    else column.prepend(this.nowSlip.el);
    column.classList.toggle('column--over', !HAS_COLUMN[place]);
    this.at(column, COLUMN_AT[place] ?? COLUMN);
    this.updating.push({
      update: () => {
        this.nowSlip.update();
        this.el.classList.toggle('layer--now', !this.nowSlip.el.hidden);
      },
    });
  }

  private heardPart(where: Box, most: number): void {
    const strip = new HeardStrip(most);
    this.at(strip.el, where);
    this.updating.push(strip);
  }

  private messagesPart(): void {
    const form = el('section', { class: 'card forms', 'aria-label': 'Message form' }, ...this.forms());
    form.hidden = true;
    this.formEl = form;
    this.at(form, box(34, 124, 706, 400));
    const button = el(
      'button',
      { type: 'button', class: 'tile', 'aria-expanded': 'false', 'aria-keyshortcuts': 'Alt+M' },
      'Message form',
    );
    button.addEventListener('click', () => this.form());
    this.updating.push({ update: () => mark(button, 'aria-expanded', String(!form.hidden)) });
    this.at(button, box(34, 124, 162, 156));
  }

  private papersPart(on: Readonly<Record<string, Box>> = ON_DESK): void {
    const { papers } = this.host.drill.scenario;
    const order = orderSlip();
    this.at(order.el, on['order']!);
    this.at(frequencyChart(papers.frequencies), on['chart']!);
    this.at(callCard(papers.calls), on['calls']!);
    this.updating.push(order);
    if (papers.card) {
      const card = recognitionCard(papers.card);
      this.at(card.el, on['card']!);
      this.updating.push(card);
    }
    const max = this.textMax('desk', 'log');
    const log = logAndForms(this.hand, papers.messages, max);
    this.at(log.el, on['log']!);
    this.updating.push(log);
  }

  private textMax(boxId: string, id: string): number {
    const range = this.boxes.find((b) => b.id === boxId)?.controls.find((c) => c.id === id)?.range;
    return range?.kind === 'text' ? range.max : 120;
  }

  private voicePart(on: Readonly<Record<string, Box>> = ON_DESK): void {
    this.heardPart(on['heard']!, 2);
    const { own, papers } = this.host.drill.scenario;
    const line = wordLine(this.hand, {
      own: own.call,
      calls: papers.calls.map((c) => c.call),
      max: this.textMax('hand', 'say'),
    });
    this.at(line.el, on['words']!);
    this.updating.push({ update: () => line.update() });
  }

  private keysPart(): HTMLElement {
    const keys: [string, string][] =
      this.place === 'shelter'
        ? [
            ['Alt 1–5', 'come close'],
            ['Alt R', 'ribbon'],
          ]
        : [
            ['Tab', 'next control'],
            ['Alt E', 'explain'],
            ['Alt 0', 'back'],
          ];
    const node = el(
      'p',
      { class: 'imprint' },
      ...keys.flatMap(([k, does]) => [el('kbd', {}, k), el('span', {}, does)]),
    );
    return lay(node, box(880, 684, 1256, 716), this.design);
  }

  /** Follows the drill. */
  update(sight: Sight): void {
    for (const each of this.updating) each.update(sight);
  }

  /** Focus goes to a control by its full name. */
  focus(control: string): void {
    this.el.querySelector<HTMLElement>(`[data-control="${control}"]`)?.focus({ preventScroll: true });
  }

  /** On arrival the focus is at the bay one came from, or at the tab of this one. */
  arrive(from: Place): void {
    const want = this.place === 'shelter' ? from : this.place;
    this.el.querySelector<HTMLElement>(`[data-place="${want}"]`)?.focus({ preventScroll: true });
  }

  /** Alt E: the explain-card comes or goes, or takes the focus where it always hangs. */
  explain(): void {
    const card = this.explainCard.el;
    if (this.place === 'shelter') return;
    if (this.isNarrow || !HAS_COLUMN[this.place]) card.hidden = !card.hidden;
    else card.focus();
    if (!card.hidden && this.host.manner === 'prompted') this.host.help('explain');
    this.update(this.hand.sight);
  }

  /** Alt M: the message form beside the printer. */
  form(): void {
    if (this.formEl) this.formEl.hidden = !this.formEl.hidden;
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

  /** Escape shuts what lies over the drawing; false if nothing did. */
  escape(): boolean {
    for (const over of [this.formEl, HAS_COLUMN[this.place] && !this.isNarrow ? undefined : this.explainCard.el])
      if (over && !over.hidden) {
        over.hidden = true;
        return true;
      }
    return false;
  }
}

/** The layout by hand; a box that has none yet flows along its track. */
function layoutOf(b: Boxed): BoxLayout {
  return LAYOUTS[b.id] ?? flow(b, 30, 142, 906).layout;
}
