/** Cards of prose over the drawing: explain, now, what is heard, papers. All text, all DOM. */
import type { Control, Indicator } from '../core/station/box.ts';
import { el, mark, tell } from './controls/dom.ts';
import type { Sight } from './host.ts';
import { scaleInForce } from './shows.ts';
import { capital, unitText } from './words.ts';

/** The warning triangle, as a picture for cards. */
function triangle(): HTMLElement {
  const span = el('span', { class: 'triangle', 'aria-hidden': 'true' });
  span.innerHTML =
    '<svg viewBox="0 0 30 27"><path d="M15 2L28 25H2Z" fill="var(--persimmon)" stroke="var(--persimmon)" stroke-width="3" stroke-linejoin="round"/><path d="M15 10V17" stroke="var(--sheet)" stroke-width="3" stroke-linecap="round"/><circle cx="15" cy="21.5" r="1.7" fill="var(--sheet)"/></svg>';
  return span;
}

/** A page is so many steps: who turns through fewer has no use for it. */
const PAGE = 10;

type Keys = readonly (readonly [key: string, does: string])[];

/** Faces that take other keys than their range would. */
const OF_FACE: Readonly<Record<string, Keys>> = {
  drums: [
    ['0–9', 'type it'],
    ['↑ ↓', 'turn'],
    ['← →', 'next drum'],
  ],
  keyboard: [
    ['F1', 'letters'],
    ['F2', 'figures'],
    ['Enter', 'return, line feed'],
  ],
  key: [['Space', 'hold']],
  microphone: [['Space', 'hold']],
};

/** The keys of a control and what each does. */
export function keysOf({ face, range: r }: Control): Keys {
  if (OF_FACE[face]) return OF_FACE[face];
  switch (r.kind) {
    case 'number': {
      const page: Keys = (r.max - r.min) / r.step > PAGE ? [['Page', `${PAGE} steps`]] : [];
      return [['← →', 'turn'], ...page, ['Enter', 'type it']];
    }
    case 'words':
      return [['← →', 'move']];
    case 'switch':
      return [['Space', r.words.join(', ')]];
    case 'press':
      return [['Space', 'press']];
    default:
      return [['Enter', 'write']];
  }
}

/** The card that explains the control in hand. */
export class ExplainCard {
  readonly el = el('section', { class: 'card explain', 'aria-label': 'Explain', tabindex: -1 });
  private shown = '';
  private cameWithFocus = false;

  /** Where no column keeps the card, it comes with the focus of a control and goes with it, unless something else `isOpen` there. */
  comeWithFocus(layer: HTMLElement, isOpen: () => boolean, changed: () => void): void {
    const isAt = (node: EventTarget | null) => node instanceof Element && node.closest('[data-box], .explain') !== null;
    const pressed = new Set<number>();
    const show = (isShown: boolean) => {
      if (this.el.hidden === isShown) this.cameWithFocus = isShown;
      this.el.hidden = !isShown;
      changed();
    };
    const leave = () => this.cameWithFocus && !isAt(document.activeElement) && show(false);
    // What is pressed elsewhere must not move away before it is let go.
    layer.addEventListener('pointerdown', ({ pointerId }) => {
      pressed.add(pointerId);
      const over = new AbortController();
      const up = (e: PointerEvent) => {
        if (e.pointerId !== pointerId) return;
        over.abort();
        pressed.delete(pointerId);
        setTimeout(leave);
      };
      // A touch that becomes a scroll is cancelled, never lifted.
      for (const end of ['pointerup', 'pointercancel'] as const)
        window.addEventListener(end, up, { signal: over.signal });
    });
    layer.addEventListener('focusout', () => pressed.size === 0 && setTimeout(leave));
    layer.addEventListener('focusin', (e) => isAt(e.target) && !isOpen() && show(true));
  }

  /** It was called by a key, and stays until it is sent away. */
  get isAsked(): boolean {
    return this.el.hidden !== true && !this.cameWithFocus;
  }

  /** Comes or goes by a key. */
  turn(): void {
    this.el.hidden = !this.el.hidden;
    this.cameWithFocus = false;
  }

  /** It is cut where it lies, or a part of it is. Its drawn shadow, which lies outside, does not count. */
  get isCut(): boolean {
    const { bottom } = this.el.getBoundingClientRect();
    const parts = [...this.el.children];
    return parts.some((p) => p.scrollHeight > p.clientHeight + 1 || p.getBoundingClientRect().bottom > bottom + 1);
  }

  /** Explains a control of a box. */
  show(box: { name: string; about: string }, control: Control | undefined, full: string): void {
    const key = `${box.name} ${full}`;
    if (key === this.shown) return;
    this.shown = key;
    const head = el('h2', { class: 'card__head' }, control ? capital(control.name) : box.name);
    const said = el('p', {}, control ? control.inside : box.about);
    const keys = control ? keysOf(control) : [];
    const more = control ? rangeText(control) : 'Tab goes to its controls; each is explained here.';
    this.el.replaceChildren(
      head,
      el('div', { class: 'card__body' }, said, ...(more ? [el('p', { class: 'quiet' }, more)] : [])),
      ...(control?.caution ? [el('div', { class: 'card__caution' }, triangle(), el('p', {}, control.caution))] : []),
      ...(keys.length
        ? [el('div', { class: 'card__keys' }, ...keys.flatMap(([k, does]) => [el('kbd', {}, k), el('span', {}, does)]))]
        : []),
    );
  }
}

/** What a control can be set to, in words. */
export function rangeText(c: Control): string {
  const r = c.range;
  if (r.kind === 'words') return `Positions: ${r.words.join(', ')}${r.unit ? ` ${r.unit}` : ''}.`;
  if (r.kind === 'number') {
    const most = `${r.max} ${unitText(r.unit)}`.trim();
    return `From ${r.min} to ${most} in steps of ${r.step}.`.replace('-', '−');
  }
  return '';
}

type Caption = { n: number; words: string; ended: boolean; by: string };

/** What the ear made out: the last words, and a polite voice for those that are complete. */
export class HeardStrip {
  readonly el: HTMLElement;
  private readonly list = el('div', { class: 'heard__list' });
  private readonly voice = el('p', { class: 'unseen', 'aria-live': 'polite' });
  private spoken = 0;

  constructor(private readonly most: number) {
    this.el = el(
      'section',
      { class: 'heard', 'aria-label': 'Heard' },
      el('h2', { class: 'heard__head' }, 'Heard'),
      this.list,
      this.voice,
    );
  }

  update(sight: Sight): void {
    const all = ((sight.see('hand.heard') as unknown as Caption[] | null) ?? []).slice(-this.most);
    const saying = String(sight.see('hand.saying') ?? '');
    const lines = all.map((c) => `${c.by === 'morse' ? 'Morse: ' : ''}${c.words}${c.ended ? '' : ' …'}`);
    if (saying) lines.push(`You, still to say: ${saying}`);
    const shown = lines.slice(-this.most);
    while (this.list.childElementCount > shown.length) this.list.lastElementChild!.remove();
    shown.forEach((text, i) => {
      const line = this.list.children[i] ?? this.list.appendChild(el('p', {}, el('bdi', {})));
      // Of what was heard the last words count, of what is still to say the first.
      line.classList.toggle('heard__past', !saying || i < shown.length - 1);
      tell(line.firstElementChild!, text);
    });
    this.el.classList.toggle('heard--none', shown.length === 0);
    const done = all.filter((c) => c.ended).at(-1);
    if (done && done.n > this.spoken) {
      this.spoken = done.n;
      tell(this.voice, `Heard: ${done.words}`);
    }
  }
}

type Read = Pick<Indicator<never>, 'name' | 'face' | 'unit' | 'scaleAt' | 'min' | 'max'>;

/** An indicator for who cannot see it: its name and what it shows. */
export function readingOf(full: string, indicator: Read) {
  const { face, name } = indicator;
  const role = face === 'sail' || face === 'reeds' || face === 'scale' ? 'meter' : face === 'window' ? 'status' : 'img';
  const node = el('div', { role, class: 'reading', 'aria-label': capital(name), 'data-indicator': full });
  if (role === 'status') node.setAttribute('aria-live', 'off');
  const update = (sight: Sight): void => {
    const v = sight.see(full);
    const { min = 0, max = 100, unit = '' } = { ...indicator, ...scaleInForce(full, indicator, sight) };
    const said = (text: string) => `${text} ${unit}`.trim();
    if (role === 'meter') {
      const [lo, hi] = face === 'scale' ? [0, 28_000] : [min, max];
      // A needle is read to a tenth, a scale to a hundredth.
      const value = Number(Number(v ?? 0).toFixed(face === 'scale' ? 2 : 1));
      node.setAttribute('aria-valuemin', String(lo));
      node.setAttribute('aria-valuemax', String(hi));
      node.setAttribute('aria-valuenow', String(Math.max(lo, Math.min(hi, value))));
      node.setAttribute('aria-valuetext', said(String(value)));
    } else if (role === 'img')
      mark(node, 'aria-label', `${capital(name)}: ${v === null ? 'nothing' : said(imgWords(face, v))}`);
    else tell(node, v === null ? 'nothing' : said(typeof v === 'object' ? '' : String(v)));
  };
  return { el: node, update };
}

/** Levels under this are no sign of a tone, and lean nowhere. */
const NO_TONE = 0.02;

function imgWords(face: string, v: unknown): string {
  if (face === 'lamp') return v === true ? 'lit' : 'dark';
  if (face === 'blades') {
    const b = v as { mark: number; space: number; lean: number };
    if (Math.max(b.mark, b.space) < NO_TONE) return 'no tone';
    const lean = Math.abs(b.lean) < 0.08 ? 'upright' : b.lean > 0 ? 'lean right' : 'lean left';
    return `mark ${Math.round(b.mark * 100)} per cent, space ${Math.round(b.space * 100)} per cent, ${lean}`;
  }
  if (face === 'tape') {
    const t = v as number[] | { codes: number[]; at: number };
    return Array.isArray(t)
      ? `${t.length} columns`
      : t.codes.length
        ? `column ${t.at} of ${t.codes.length}`
        : 'no tape';
  }
  return typeof v === 'object' ? '' : String(v);
}
