/** The shelter on the screen: a drawing, and over it the only layer that takes input. */
import './styles.ts';
import type { Boxed } from './boxes.ts';
import type { Hand } from './controls/control.ts';
import { el } from './controls/dom.ts';
import { BAYS, type PanelHost, type Place, type Sight, sightOf } from './host.ts';
import { InsideSheet } from './inside/sheet.ts';
import { FONTS } from './kit/painter.ts';
import { type Format, Scene } from './scene.ts';
import { themeOf } from './theme.ts';
import { View, WIDE } from './view.ts';

export type { PanelHost, Place } from './host.ts';

/** Up to this width (work.css knows it too) the bays are laid out anew, one under the other. */
const NARROW_PX = 1000;
/** A phone's column grows so far, then stands in the middle: a tablet held upright. */
const NARROW_MOST = 1.5;
/** A phone on its side (work.css knows it too): the column is as wide as the window, and its head is low. */
const LOW = '(max-height: 500px) and (orientation: landscape)';
const SETTLE_MS = 150;
const SAY_MS = 4200;

/** Opens the panel in `parent`. */
export async function openPanel(
  parent: HTMLElement,
  host: PanelHost,
): Promise<{ close(): void; goTo(place: Place): void }> {
  await Promise.all(FONTS.map((f) => document.fonts.load(f)));
  const panel = new Panel(parent, host);
  await panel.open();
  return panel;
}

class Panel {
  private readonly root = el('div', { class: 'panel' });
  private readonly stage = el('div', { class: 'panel__stage' });
  private readonly drawing = el('div', { class: 'panel__drawing', 'aria-hidden': 'true' });
  private readonly sight: Sight;
  private scene!: Scene;
  private view: View | undefined;
  private inside: InsideSheet | undefined;
  private place: Place = 'shelter';
  private readonly closing: (() => void)[] = [];
  private said = 0;
  private readonly note = el('p', { class: 'panel__note', role: 'status' });

  constructor(
    private readonly parent: HTMLElement,
    private readonly host: PanelHost,
  ) {
    this.sight = sightOf(host.drill);
    this.stage.append(this.drawing);
    this.root.append(this.stage);
    parent.append(this.root);
  }

  async open(): Promise<void> {
    const still = matchMedia('(prefers-reduced-motion: reduce)');
    this.scene = await Scene.open(this.drawing, this.format(), themeOf());
    this.scene.still = still.matches;
    this.listen(still, 'change', () => {
      this.scene.still = still.matches;
    });
    this.closing.push(this.host.onChange(() => this.refresh()));
    this.follow();
    this.build();
  }

  private listen(target: EventTarget, name: string, on: (e: never) => void): void {
    target.addEventListener(name, on as EventListener);
    this.closing.push(() => target.removeEventListener(name, on as EventListener));
  }

  /** Size of the window, its pixels, and the theme may change at any time. */
  private follow(): void {
    let timer = 0;
    const later = () => {
      clearTimeout(timer);
      this.fit();
      timer = window.setTimeout(() => this.build(), SETTLE_MS);
    };
    this.listen(window, 'resize', later);
    let unarm = () => {};
    const arm = () => {
      const media = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
      const changed = () => {
        unarm();
        later();
        arm();
      };
      media.addEventListener('change', changed);
      unarm = () => media.removeEventListener('change', changed);
    };
    arm();
    // What is still to be built then must not be: the drawing is gone.
    this.closing.push(() => {
      clearTimeout(timer);
      unarm();
    });
    const theme = new MutationObserver(() => this.build());
    theme.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
    this.closing.push(() => theme.disconnect());
    this.listen(window, 'keydown', (e: KeyboardEvent) => this.keyed(e));
  }

  get isNarrow(): boolean {
    return this.parent.clientWidth <= NARROW_PX;
  }

  private get isLow(): boolean {
    return this.isNarrow && matchMedia(LOW).matches;
  }

  private format(): Format {
    const width = this.parent.clientWidth;
    const { w, h } = this.view?.design ?? WIDE;
    if (this.view?.isNarrow) return { w, h, k: Math.min(width / w, NARROW_MOST), dpr: devicePixelRatio };
    const height = Math.max(320, window.innerHeight - Math.max(0, this.parent.getBoundingClientRect().top + scrollY));
    return { w, h, k: Math.min(width / w, height / h), dpr: devicePixelRatio };
  }

  private fit(): void {
    const { w, h, k } = this.format();
    this.stage.style.width = `${w * k}px`;
    this.stage.style.height = `${h * k}px`;
    this.stage.style.setProperty('--u', `${k}px`);
  }

  /** Builds the place anew: another place, size or theme. */
  private build(): void {
    const focused = (document.activeElement as HTMLElement | null)?.dataset?.['control'];
    this.view?.el.remove();
    this.view = new View(
      this.place,
      this.boxes,
      this.host,
      this.hand(),
      {
        goTo: (place) => this.goTo(place),
        refresh: () => this.refresh(),
        openLink: (link) => this.openLink(link),
      },
      this.isNarrow,
      this.isLow ? this.parent.clientWidth : null,
    );
    this.fit();
    this.root.classList.toggle('panel--narrow', this.isNarrow);
    this.root.classList.toggle('panel--low', this.isLow);
    this.stage.append(this.view.el, this.note);
    if (this.inside) this.openLink(this.inside.at);
    this.scene.show(this.view.pieces, this.sight, this.format(), themeOf());
    if (focused) this.view.focus(focused);
    this.refresh();
  }

  private get boxes(): readonly Boxed[] {
    return this.host.drill.station.boxes;
  }

  private hand(): Hand {
    return {
      sight: this.sight,
      design: WIDE,
      act: (control, value, near, stamp_ms) => {
        const why = this.host.act(control, value, stamp_ms);
        if (why) this.say(near, why);
        else this.hush();
        this.view?.acted();
        this.refresh();
        return why === undefined;
      },
      say: (near, text) => this.say(near, text),
    };
  }

  /** A refusal in words, right under what was touched, or over it when there is no room below; it goes by itself. */
  private say(near: HTMLElement, text: string): void {
    if (!near.isConnected) return;
    const name = (near.getAttribute('aria-label') ?? '').replace(/:.*/, '');
    this.note.replaceChildren(
      ...(name ? [el('b', {}, name), el('br')] : []),
      text.charAt(0).toUpperCase() + text.slice(1),
    );
    const a = near.getBoundingClientRect();
    const b = this.stage.getBoundingClientRect();
    const { offsetWidth: w, offsetHeight: h, style } = this.note;
    const middle = a.left + a.width / 2 - b.left;
    const left = Math.max(4, Math.min(b.width - w - 4, middle - w / 2));
    const seenTo = Math.min(b.bottom, innerHeight);
    const isOver = a.bottom + 12 + h > seenTo;
    style.left = `${left}px`;
    style.top = `${isOver ? a.top - b.top - h - 12 : a.bottom - b.top + 12}px`;
    style.setProperty('--tail', `${Math.max(12, Math.min(w - 12, middle - left))}px`);
    this.note.classList.toggle('panel__note--over', isOver);
    this.note.classList.add('panel__note--on');
    clearTimeout(this.said);
    this.said = window.setTimeout(() => this.hush(), SAY_MS);
  }

  private hush(): void {
    clearTimeout(this.said);
    this.note.classList.remove('panel__note--on');
    this.note.textContent = '';
  }

  private refresh(): void {
    this.scene.look(this.sight);
    this.view?.update(this.sight);
    this.inside?.update();
  }

  private keyed(e: KeyboardEvent): void {
    if (document.querySelector('dialog[open]')) return;
    if (e.key === 'Escape' && !e.repeat) {
      if (this.inside) this.inside.close();
      else if (this.view?.escape()) e.preventDefault();
      else if (this.place !== 'shelter') this.goTo('shelter');
      return;
    }
    if (!e.altKey && !this.inside) this.view?.typed(e);
    if (!e.altKey || e.repeat || e.ctrlKey || e.metaKey) return;
    const digit = /^Digit([0-5])$/.exec(e.code)?.[1];
    if (digit === '0') this.goTo('shelter');
    else if (digit) this.goTo(BAYS[Number(digit) - 1]!.place);
    else if (e.code === 'KeyE') this.view?.explain();
    else if (e.code === 'KeyM') this.view?.form();
    else if (e.code === 'KeyR') this.inside ? this.inside.focus() : this.view?.ribbon();
    else return;
    e.preventDefault();
  }

  /** Opens the sheet that shows what is inside a link. */
  private openLink(link: number): void {
    this.hush();
    this.inside?.el.remove();
    this.inside = new InsideSheet(
      this.host,
      {
        palette: themeOf,
        isStill: () => this.scene.still,
        sight: this.sight,
        isNarrow: this.isNarrow,
        closed: (at) => {
          this.inside = undefined;
          this.view!.el.inert = false;
          this.view!.leftLink(at);
        },
      },
      link,
    );
    this.view!.el.inert = true;
    this.stage.append(this.inside.el);
    this.inside.draw();
    this.inside.focus();
  }

  /** Goes close to a bay, or back before the whole shelter. */
  goTo(place: Place): void {
    this.inside?.close();
    const from = this.place;
    this.place = place;
    this.hush();
    this.build();
    if (this.isNarrow) window.scrollTo(0, 0);
    this.view?.arrive(from);
  }

  close(): void {
    for (const each of this.closing.reverse()) each();
    clearTimeout(this.said);
    this.inside?.stop();
    this.scene.close();
    this.root.remove();
  }
}
