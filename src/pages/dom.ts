/** Elements by hand: text always goes in as text, so nothing read from a file can become markup. */

/** What an element may be given: attributes, and functions as listeners (`onclick`). `false` and `undefined` leave it out. */
export type Given = Record<string, string | number | boolean | undefined | ((event: never) => void)>;
/** What may stand inside an element. */
export type Inside = Node | string | number | false | undefined | null | Inside[];

const SVG = 'http://www.w3.org/2000/svg';

function give(el: Element, given: Given): void {
  for (const [name, value] of Object.entries(given)) {
    if (value === undefined || value === false) continue;
    if (typeof value === 'function') el.addEventListener(name.slice(2), value as (event: Event) => void);
    else el.setAttribute(name, value === true ? '' : String(value));
  }
}

function fill(el: Element, inside: Inside[]): void {
  for (const one of inside) {
    if (one === undefined || one === null || one === false) continue;
    if (Array.isArray(one)) fill(el, one);
    else el.append(typeof one === 'number' ? String(one) : one);
  }
}

/** An HTML element. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  given: Given = {},
  ...inside: Inside[]
): HTMLElementTagNameMap[K] {
  const el = document.createElement(tag);
  give(el, given);
  fill(el, inside);
  return el;
}

/** An SVG element. */
export function s<K extends keyof SVGElementTagNameMap>(
  tag: K,
  given: Given = {},
  ...inside: Inside[]
): SVGElementTagNameMap[K] {
  const el = document.createElementNS(SVG, tag);
  give(el, given);
  fill(el, inside);
  return el;
}

/** A key of the real keyboard, as a cap in running text. */
export const cap = (key: string): HTMLElement => h('kbd', { class: 'cap', 'aria-hidden': 'true' }, key);

/** Puts new contents in the place of the old. */
export function refill(el: Element, ...inside: Inside[]): void {
  el.replaceChildren();
  fill(el, inside);
}
