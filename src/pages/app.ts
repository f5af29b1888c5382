/** The pages and the ways between them. The address says where one is, so that a reload comes back to the same place. */
import type { Manner } from '../core/record/record.ts';
import { debriefPage, foreignRecordPage } from './debrief.ts';
import { h, s } from './dom.ts';
import { hatchDefs } from './drawing.ts';
import { firstPage } from './first.ts';
import type { Lent } from './host.ts';
import { anotherDraw, type How, LAST_SEED } from './manner.ts';
import { orderPage } from './order.ts';
import { wearTheme } from './settings-slip.ts';
import { troubleNote } from './trouble.ts';
import type { Page, Ways } from './ways.ts';
import { workPage } from './work.ts';

const MANNERS: readonly Manner[] = ['shown', 'prompted', 'unaided', 'assessed'];
const UNKNOWN = {
  what: 'There is no such page here.',
  why: 'The address names a drill or a run that this browser does not hold.',
  todo: 'Go back to the first page; what is stored is listed there.',
};
const TOO_LONG = 64 * 1024 * 1024;

/** Puts the pages into `root` and follows the address from then on. */
export class App implements Ways {
  seed: number = anotherDraw();
  given = false;
  private page: Page | undefined;
  private record: { text: string; file: string } | undefined;
  private readonly chooser = h('input', {
    type: 'file',
    hidden: true,
    accept: '.jsonl,.txt,.json',
    'aria-label': 'Record file',
    onchange: () => this.taken(),
  });

  constructor(
    private readonly root: HTMLElement,
    private readonly lent: Lent,
  ) {
    wearTheme(lent.settings.read().theme);
    document.body.append(
      this.chooser,
      s('svg', { width: 0, height: 0, class: 'inkwell', 'aria-hidden': 'true' }, hatchDefs()),
    );
    addEventListener('hashchange', () => this.follow());
    addEventListener('keydown', (event) => this.keyed(event));
    this.follow();
  }

  first(): void {
    this.to('');
  }

  order(drill: string, manner: Manner): void {
    this.to(`order/${drill}/${manner}/${this.seed}`);
  }

  ordered(drill: string, { manner, seed, given }: How): void {
    this.seed = seed;
    this.given = given;
    history.replaceState(history.state, '', `#order/${drill}/${manner}/${seed}`);
  }

  work(run: string): void {
    this.to(`work/${run}`);
  }

  debrief(run: string): void {
    this.to(`debrief/${run}`);
  }

  openRecord(): void {
    this.chooser.value = '';
    this.chooser.click();
  }

  private async taken(): Promise<void> {
    const [one] = this.chooser.files ?? [];
    if (!one) return;
    this.record = { text: one.size > TOO_LONG ? '' : await one.text(), file: one.name };
    if (location.hash === '#record') this.follow();
    else this.to('record');
  }

  private to(place: string): void {
    if (location.hash.replace(/^#/, '') === place) this.follow();
    else location.hash = place;
  }

  private follow(): void {
    this.page?.close?.();
    const [place = '', ...rest] = location.hash.replace(/^#/, '').split('/').map(decoded);
    const page = this.make(place, rest);
    this.page = page;
    this.root.replaceChildren(page.el);
    document.title = page.title;
    scrollTo(0, 0);
  }

  private make(place: string, [a = '', b = '', c = '']: string[]): Page {
    if (place === '') return firstPage(this.lent, this);
    if (place === 'work') return workPage(this.lent, this, a);
    if (place === 'debrief') return debriefPage(this.lent, this, a);
    if (place === 'record' && this.record) return foreignRecordPage(this.lent, this, this.record);
    const drill = this.lent.drills.find(({ id }) => id === a);
    const manner = MANNERS.find((each) => each === b);
    const seed = Number(c);
    const fits = Number.isInteger(seed) && seed >= 0 && seed <= LAST_SEED;
    if (place === 'order' && drill && manner && fits) {
      // An address with another draw was handed to the trainee, or is an assessed drill's that was begun before.
      if (manner === 'assessed' && seed !== this.seed) this.given = true;
      this.seed = seed;
      return orderPage(this.lent, this, drill, { manner, seed, given: this.given });
    }
    return this.lost();
  }

  private lost(): Page {
    const back = h(
      'button',
      { type: 'button', class: 'push push--first', onclick: () => this.first() },
      'To the first page',
    );
    const el = h(
      'main',
      { class: 'page', id: 'main' },
      h('h1', {}, 'Not here'),
      troubleNote(UNKNOWN, h('div', { class: 'slip__foot' }, back)),
    );
    return {
      el,
      title: 'Keydown',
      key: (key) => (key === 'Enter' || key === 'escape' ? () => this.first() : undefined),
    };
  }

  private keyed(event: KeyboardEvent): void {
    if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || event.isComposing || event.defaultPrevented)
      return;
    const at = event.target as HTMLElement;
    if (document.querySelector('dialog[open]') || takesText(at)) return;
    if (event.key === 'Enter' && at.closest('button, a, summary, [role=button]')) return;
    if (event.key.length === 1 && !this.lent.settings.read().letters) return;
    const go = this.page?.key?.(event.key === 'Enter' ? 'Enter' : event.key.toLowerCase());
    if (!go) return;
    event.preventDefault();
    go();
  }
}

const takesText = (el: HTMLElement): boolean =>
  el.isContentEditable ||
  (el instanceof HTMLInputElement && !['radio', 'checkbox', 'button'].includes(el.type)) ||
  el instanceof HTMLTextAreaElement ||
  el instanceof HTMLSelectElement;

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return '';
  }
}
