/** A hand at the real page: moves of a plan done with the keyboard alone or with the mouse alone, on the test clock. */
import type { Page } from 'playwright-core';
import { BAYS, type Place } from '../../src/panel/host.ts';
import { BOXES_OF } from '../../src/panel/places/bays.ts';
import { WIDE } from '../../src/panel/view.ts';
import { type Move, pointed, type Tool } from './hand-plan.ts';

type Point = { x: number; y: number };

const PLACE_OF = new Map(
  Object.entries(BOXES_OF).flatMap(([place, boxes]) => boxes.map((box) => [box, place as Place] as const)),
);
const bay = (control: string): Place => {
  const place = PLACE_OF.get(control.slice(0, control.indexOf('.')));
  if (!place) throw new Error(`no bay for ${control}`);
  return place;
};
const at = (control: string): string => `[data-control="${control}"]`;

const REAL_KEYS: Readonly<Record<string, string>> = {
  LTRS: 'F1',
  FIGS: 'F2',
  BLANK: 'F3',
  CR: 'Enter',
  SPACE: 'Space',
};
const DRAWN_KEYS: Readonly<Record<string, RegExp>> = {
  LTRS: /^Letters/,
  FIGS: /^Figures/,
  CR: /^Carriage return/,
  LF: /^Line feed/,
  SPACE: /^Space/,
};

/** Words that the tiles offer, longest first, so that the fewest are clicked. */
function inTiles(text: string, offered: readonly string[]): string[] {
  const chosen: string[] = [];
  const longest = [...offered].sort((a, b) => b.length - a.length);
  for (let rest = text; rest !== ''; ) {
    const tile = longest.find((t) => rest === t || rest.startsWith(`${t} `));
    if (tile === undefined) throw new Error(`no tile begins ${JSON.stringify(rest)}`);
    chosen.push(tile);
    rest = rest.slice(tile.length).trimStart();
  }
  return chosen;
}

/** One hand. */
export class PageHand {
  private place: Place = 'shelter';
  private count = 0;
  private awaited: Move | undefined;
  private drawn = new Map<string, Point>();

  constructor(
    readonly page: Page,
    readonly tool: Tool,
  ) {}

  /** Does the moves one after the other and sees after each that the page has stored what it should, and nothing else. */
  async work(moves: readonly Move[]): Promise<void> {
    for (const move of moves) {
      await this.turn(move.t);
      if (move.do !== 'let-go' && move.do !== 'follows') await this.go(bay(move.control));
      await (this.tool === 'keyboard' ? this.key(move) : this.mouse(move));
      this.awaited = move;
    }
  }

  /** Sees that the last move is in the journal, as it should be and alone, then turns the test clock on to `t`, us. */
  async turn(t: number): Promise<void> {
    const want = this.awaited?.stored.map((entry) => JSON.stringify(entry)) ?? [];
    const { at, wrong } = await this.page.evaluate(nextTurn, { from: this.count, want, to_ms: t / 1000 });
    if (wrong) throw new Error(`${JSON.stringify(this.awaited)}\n${wrong}`);
    this.awaited = undefined;
    this.count = at;
  }

  /** The same hand at a page that was opened anew and shows the whole shelter. */
  at(page: Page): PageHand {
    const hand = new PageHand(page, this.tool);
    hand.count = this.count;
    return hand;
  }

  private async go(place: Place): Promise<void> {
    if (place === this.place) return;
    this.place = place;
    const n = BAYS.findIndex((b) => b.place === place) + 1;
    if (this.tool === 'keyboard') await this.page.keyboard.press(`Alt+Digit${n}`);
    else await this.click(`nav [data-place="${place}"]`);
    await this.page.locator(`.layer--${place}`).waitFor({ state: 'attached' });
  }

  private async key(move: Move): Promise<void> {
    const { keyboard } = this.page;
    switch (move.do) {
      case 'let-go':
      case 'follows':
        return;
      case 'up':
        return keyboard.up('Space');
      default:
        await this.tabTo(at(move.control));
    }
    switch (move.do) {
      case 'flip':
        return keyboard.press('Space');
      case 'down':
        return keyboard.down('Space');
      case 'notch':
        return keyboard.press(move.by > 0 ? 'ArrowRight' : 'ArrowLeft');
      case 'page':
        return keyboard.press(move.by > 0 ? 'PageUp' : 'PageDown');
      case 'key':
        return keyboard.press(REAL_KEYS[move.key] ?? `Key${move.key}`);
      case 'type':
        await keyboard.press('Enter');
        await keyboard.type(move.text);
        return keyboard.press('Enter');
      case 'write':
        await keyboard.type(move.text);
        return keyboard.press('Enter');
      case 'say':
        await keyboard.type(move.text);
        await this.tabTo('.words__line .tile--first');
        return keyboard.press('Enter');
      default:
        throw new Error(`not done with keys: ${move.do}`);
    }
  }

  /** Tab or Shift and Tab, as often as it takes by the order of the page. */
  private async tabTo(selector: string): Promise<void> {
    for (let tries = 0; tries < 4; tries++) {
      const steps = await this.page.evaluate(tabsTo, selector);
      if (steps === 0) return;
      if (steps === null) break;
      for (let i = 0; i < Math.abs(steps); i++) await this.page.keyboard.press(steps > 0 ? 'Tab' : 'Shift+Tab');
    }
    const where = await this.page.evaluate(() => document.activeElement?.outerHTML.slice(0, 200));
    throw new Error(`Tab does not reach ${selector}; the focus is at ${where}`);
  }

  private async mouse(move: Move): Promise<void> {
    const { mouse } = this.page;
    switch (move.do) {
      case 'let-go':
        return;
      case 'up':
        return mouse.up();
      case 'flip':
        return this.click(at(move.control));
      case 'down':
        await this.over(at(move.control));
        return mouse.down();
      case 'notch':
        return this.click(at(move.control), move.by > 0 ? 0.8 : 0.2);
      case 'point':
        return this.point(move.control, move.at);
      case 'drag':
        return this.drag(at(move.control), move.px);
      case 'key':
        return this.drawnKey(move.key);
      case 'say':
        await this.tiles('.words', move.text);
        return this.click('.words__line .tile--first');
      case 'write':
        if (await this.page.locator('.log__pad').isHidden()) await this.click('.log__write .tile');
        await this.tiles('.log__pad', move.text);
        return this.click('.log__pad .tile--first');
      default:
        throw new Error(`not done with a mouse: ${move.do}`);
    }
  }

  /** Over an element, `across` of its width from the left, where nothing else lies over it. */
  private async over(selector: string, across = 0.5, nth = 0): Promise<Point> {
    const point = await this.page.evaluate(openSpot, { selector, across, nth });
    if (typeof point === 'string') throw new Error(`${selector} cannot be touched: ${point}`);
    await this.page.mouse.move(point.x, point.y);
    return point;
  }

  private async click(selector: string, across = 0.5, nth = 0): Promise<void> {
    await this.over(selector, across, nth);
    await this.page.mouse.down();
    await this.page.mouse.up();
  }

  /** Where a position is drawn: a name, or a notch. */
  private async point(control: string, to: number): Promise<void> {
    const [x, y] = pointed(control)!.points[to]!;
    const stage = (await this.page.locator('.panel__stage').boundingBox())!;
    const k = stage.width / WIDE.w;
    await this.page.mouse.click(stage.x + x * k, stage.y + y * k);
  }

  /** Right or left as far as the window goes, the rest up or down. */
  private async drag(selector: string, px: number): Promise<void> {
    const { x, y } = await this.over(selector);
    const { width } = this.page.viewportSize()!;
    const dx = Math.max(1 - Math.floor(x), Math.min(width - 2 - Math.ceil(x), px));
    await this.page.mouse.down();
    await this.page.mouse.move(x + dx, y - (px - dx));
    await this.page.mouse.up();
  }

  private async drawnKey(key: string): Promise<void> {
    if (!this.drawn.has(key)) {
      const label = DRAWN_KEYS[key] ?? new RegExp(`^${key}(,|$)`);
      const all = await this.page.locator(`${at('printer.key')} button`).all();
      for (const button of all) {
        if (!label.test((await button.getAttribute('aria-label')) ?? '')) continue;
        const box = (await button.boundingBox())!;
        this.drawn.set(key, { x: box.x + box.width / 2, y: box.y + box.height / 2 });
      }
    }
    const point = this.drawn.get(key);
    if (!point) throw new Error(`no drawn key ${key}`);
    await this.page.mouse.click(point.x, point.y);
  }

  private async tiles(group: string, text: string): Promise<void> {
    const offered = await this.page.evaluate(
      (within) =>
        [...document.querySelectorAll<HTMLElement>(`${within} .tile`)].map((tile) => tile.title || tile.textContent),
      group,
    );
    for (const tile of inTiles(text, offered)) {
      await this.click(`${group} .tile`, 0.5, offered.indexOf(tile));
    }
  }
}

/**
 * In the page: looks into the journal, from entry `from` on and at every frame, until as many acts are there as wanted;
 * then turns the test clock on. Returns how far the journal goes and what was wrong with its acts.
 */
async function nextTurn({ from, want, to_ms }: { from: number; want: string[]; to_ms: number }) {
  const stem = `keydown/run/${location.hash.slice('#work/'.length)}`;
  const found: string[] = [];
  let at = from;
  for (let frames = 0; frames < 300; frames++) {
    for (;;) {
      const entry = localStorage.getItem(`${stem}/${String(at + 1).padStart(6, '0')}`);
      if (entry === null) break;
      at++;
      if (entry.includes('"control":')) found.push(entry);
    }
    if (found.length >= want.length) break;
    await new Promise(requestAnimationFrame);
  }
  if (found.join() !== want.join()) return { at, wrong: `stored ${found.join(' ')}\n   not ${want.join(' ')}` };
  const clock = window.keydownClock!;
  clock.advance(to_ms - clock.now());
  return { at, wrong: '' };
}

/** In the page: how many Tabs from the focus to an element, negative for Shift and Tab; null if it is not in the order. */
function tabsTo(selector: string): number | null {
  const all = [
    ...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary, [tabindex]'),
  ];
  const order = all.filter(
    (el) => el.tabIndex >= 0 && !(el as HTMLButtonElement).disabled && el.checkVisibility({ visibilityProperty: true }),
  );
  const to = order.findIndex((el) => el.matches(selector));
  const from = order.indexOf(document.activeElement as HTMLElement);
  return to < 0 ? null : to - from;
}

/** In the page: a point of an element that a pointer meets, or why there is none. */
function openSpot({ selector, across, nth }: { selector: string; across: number; nth: number }): Point | string {
  const el = document.querySelectorAll(selector)[nth];
  if (!el) return 'it is not there';
  const { left, top, width, height } = el.getBoundingClientRect();
  let met = '';
  for (const down of [0.5, 0.3, 0.7, 0.15, 0.85]) {
    const point = { x: left + width * across, y: top + height * down };
    const hit = document.elementFromPoint(point.x, point.y);
    if (hit && el.contains(hit)) return point;
    met = hit?.outerHTML.slice(0, 160) ?? 'outside of the window';
  }
  return met;
}
