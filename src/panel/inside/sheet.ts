/** The sheet over the shelter that shows what is inside a link. It only looks. */
import './inside.css';
import type { Inside, LinkName } from '../../core/drill.ts';
import { LINKS } from '../../core/drill.ts';
import { el, lay, mark, tell } from '../controls/dom.ts';
import type { PanelHost, Sight } from '../host.ts';
import { line, type Op, solid, words } from '../kit/ops.ts';
import { paint } from '../kit/painter.ts';
import type { Palette } from '../kit/palette.ts';
import { poly, rect, seg } from '../kit/path.ts';
import { type Reach, reachOf } from '../reach.ts';
import { Follow } from './follow.ts';
import { NARROW_W, narrowSheet, WIDE_SHEET, wideSheet } from './frame.ts';
import { isHidden, LinkButtons } from './links.ts';
import { drawnOf } from './views.ts';

const DESIGN = { w: 1280, h: 720 };
/** The drawing begins under the ribbon's windows. */
const TOP = 54;
/** A new picture comes so often, ms: slow enough to be read. */
const PERIOD_MS = 250;
const STILL_MS = 1000;

/** What the sheet needs of the panel. */
export interface SheetWays {
  palette(): Palette;
  isStill(): boolean;
  sight: Sight;
  isNarrow: boolean;
  closed(link: number): void;
}

/** What the two inks mean, in the middle of the imprint. */
const legend = (): Op[] => [
  solid(rect(468, 693, 32, 11), 'sea'),
  line(seg(501, 690, 501, 707), 2, 'sea', { cap: 'butt' }),
  words('signal is here', 512, 704, { fill: 'ink2' }),
  solid(
    poly(
      [
        [622, 706],
        [640, 706],
        [631, 690],
      ],
      true,
    ),
    'persimmon',
  ),
  words('radiates or can hurt', 648, 704, { fill: 'ink2' }),
];

/** One open sheet. */
export class InsideSheet {
  readonly el: HTMLElement;
  private readonly follow: Follow;
  private readonly canvas = el('canvas', { 'aria-hidden': 'true', class: 'inside__drawing' });
  private readonly told = el('p', { class: 'unseen' });
  private readonly news = el('p', { class: 'unseen', role: 'status' });
  private readonly body: HTMLElement;
  private readonly links = new LinkButtons((i) => this.open(i), 'tab');
  private readonly holdButton = this.tool('Space', 'hold', () => this.hold());
  private readonly name = el('span', { class: 'inside__name' });
  private last_ms = 0;
  private timer = 0;
  private last_us = -1;

  constructor(
    private readonly host: PanelHost,
    private readonly ways: SheetWays,
    private link: number,
  ) {
    this.follow = new Follow(host.drill);
    this.body = el('div', { class: 'inside__body', role: 'tabpanel', tabindex: 0 }, this.told);
    this.el = el('section', {
      class: `inside${ways.isNarrow ? ' inside--narrow' : ''}`,
      // For the page round the panel: its foot is covered.
      ...(ways.isNarrow ? {} : { 'data-covers': 'foot' }),
      role: 'dialog',
      'aria-label': 'Inside the signal',
    });
    this.el.addEventListener('keydown', (e) => this.keyed(e));
    if (ways.isNarrow) this.narrowParts();
    else this.wideParts();
  }

  private tool(key: string, does: string, act: () => void): HTMLButtonElement {
    const button = el(
      'button',
      { type: 'button', class: `inside__tool${key.length > 1 ? ' inside__tool--worded' : ''}` },
      el('kbd', {}, key),
      el('span', {}, does),
    );
    button.addEventListener('click', act);
    return button;
  }

  private tools(): HTMLElement {
    return el(
      'div',
      { class: 'inside__tools' },
      this.holdButton,
      this.tool('←', 'before', () => this.step(-1)),
      this.tool('→', 'after', () => this.step(1)),
      this.tool('Esc', 'close', () => this.close()),
    );
  }

  private wideParts(): void {
    const { x, y, w, h } = WIDE_SHEET;
    const list = el('div', { class: 'pass', role: 'tablist', 'aria-label': 'Links of the signal' }, ...this.links.els);
    this.el.append(
      lay(this.canvas, { left: 0, top: TOP, right: DESIGN.w, bottom: DESIGN.h }, DESIGN),
      lay(list, { left: 0, top: 0, right: DESIGN.w, bottom: DESIGN.h }, DESIGN),
      lay(this.body, { left: x, top: y, right: x + w, bottom: y + h }, DESIGN),
      lay(this.tools(), { left: 820, top: 682, right: 1256, bottom: 718 }, DESIGN),
      this.news,
    );
  }

  private narrowParts(): void {
    const go = (by: 1 | -1) => () => this.turnTo(by);
    const head = el('div', { class: 'inside__head' }, this.tool('‹', '', go(-1)), this.name, this.tool('›', '', go(1)));
    mark(head.firstElementChild!, 'aria-label', 'link before');
    mark(head.lastElementChild!, 'aria-label', 'link after');
    this.body.append(this.canvas);
    this.el.append(head, this.body, this.tools(), this.news);
  }

  /** The link that is open. */
  get at(): number {
    return this.link;
  }

  /** Takes the focus. */
  focus(): void {
    this.body.focus({ preventScroll: true });
  }

  private get reach(): Reach {
    return reachOf(this.ways.sight, this.host.manner);
  }

  /** Looks inside another link. */
  open(i: number): void {
    if (isHidden(this.reach, i)) return;
    this.link = i;
    this.draw();
  }

  private turnTo(by: 1 | -1): void {
    const { reach } = this;
    const n = LINKS.length;
    for (let k = 1; k <= n; k++) {
      const to = (this.link + by * k + n * k) % n;
      if (!isHidden(reach, to)) {
        this.open(to);
        return;
      }
    }
  }

  private hold(): void {
    this.follow.hold(!this.follow.isHeld);
    this.draw();
    tell(this.news, this.follow.isHeld ? `Held. ${this.told.textContent}` : 'Going on.');
  }

  private step(by: -1 | 1): void {
    const moved = this.follow.step(LINKS[this.link]!, by);
    this.draw();
    tell(
      this.news,
      moved
        ? (this.told.textContent ?? '')
        : by < 0
          ? 'No letter before that is still known.'
          : 'No letter after it yet.',
    );
  }

  /** Draws no more. */
  stop(): void {
    clearTimeout(this.timer);
  }

  close(): void {
    this.stop();
    this.el.remove();
    this.ways.closed(this.link);
  }

  private keyed(e: KeyboardEvent): void {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    const on = e.target === this.body;
    const does: Record<string, (() => void) | undefined> = {
      Escape: () => this.close(),
      ' ': on && !e.repeat ? () => this.hold() : undefined,
      ArrowLeft: on ? () => this.step(-1) : undefined,
      ArrowRight: on ? () => this.step(1) : undefined,
      PageUp: () => this.turnTo(-1),
      PageDown: () => this.turnTo(1),
    };
    const act = does[e.key];
    if (!act) return;
    e.preventDefault();
    e.stopPropagation();
    act();
  }

  /** Follows the drill, unless it is held. */
  update(): void {
    this.links.update(this.reach, this.link);
    const { now_us } = this.host.drill;
    if (this.follow.isHeld || now_us === this.last_us || this.timer) return;
    const wait = this.last_ms + (this.ways.isStill() ? STILL_MS : PERIOD_MS) - performance.now();
    if (wait <= 0) this.draw();
    else
      this.timer = window.setTimeout(() => {
        this.timer = 0;
        this.draw();
      }, wait);
  }

  /** The look, unless it would tell what the manner hides; a held one that does is let go. */
  private seen(name: LinkName): Inside | null {
    const isBlind = this.host.manner === 'unaided' || this.host.manner === 'assessed';
    const look = this.follow.look(name);
    if (!isBlind || look.isOwn) return look;
    this.follow.hold(false);
    const live = this.follow.look(name);
    return live.isOwn ? live : null;
  }

  /** Draws the link as it is now, or as it was when it was held. */
  draw(): void {
    if (isHidden(this.reach, this.link))
      this.link = Math.min(...LINKS.map((_, i) => (isHidden(this.reach, i) ? 99 : i)));
    const name = LINKS[this.link]!;
    const look = this.seen(name);
    if (!look) {
      this.close();
      return;
    }
    const drawn = drawnOf(look);
    this.last_ms = performance.now();
    this.last_us = this.host.drill.now_us;
    if (this.ways.isNarrow) {
      const { ops, h } = narrowSheet(drawn);
      this.ink(ops, NARROW_W, h, 0);
      tell(this.name, name);
    } else this.ink([...wideSheet(drawn, this.link, name), ...this.imprint()], DESIGN.w, DESIGN.h - TOP, TOP);
    tell(this.told, drawn.words.join(' '));
    mark(this.body, 'aria-label', `${drawn.title}, ${drawn.about}`);
    tell(this.holdButton.lastElementChild!, this.follow.isHeld ? 'go on' : 'hold');
    mark(this.holdButton, 'aria-pressed', String(this.follow.isHeld));
    this.links.update(this.reach, this.link);
    this.links.reachBy(this.link);
  }

  private imprint() {
    const held = this.follow.isHeld;
    return [
      words('Keydown', 24, 704, { bold: true }),
      words(held ? 'held, the drill goes on' : 'Follow the signal', 90, 704, { fill: 'ink2' }),
      ...legend(),
    ];
  }

  private ink(ops: Parameters<typeof paint>[1], w: number, h: number, top: number): void {
    const { canvas } = this;
    const box = (this.ways.isNarrow ? this.body : this.el).getBoundingClientRect();
    const scale = ((box.width || w) / w) * devicePixelRatio;
    const [pw, ph] = [Math.round(w * scale), Math.round(h * scale)];
    if (canvas.width !== pw || canvas.height !== ph) {
      canvas.width = pw;
      canvas.height = ph;
    }
    if (this.ways.isNarrow) canvas.style.width = '100%';
    const ctx = canvas.getContext('2d')!;
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    ctx.clearRect(0, 0, pw, ph);
    paint(ctx, ops, { palette: this.ways.palette(), scale, x0: 0, y0: Math.round(top * scale) });
  }
}
