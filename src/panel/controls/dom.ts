/** Small words for the control layer's elements. */
import type { Box } from '../kit/bounds.ts';

type Attrs = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element with attributes and children; `true` is a bare attribute, `false` and undefined none. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attrs: Attrs = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attrs))
    if (value !== undefined && value !== false) node.setAttribute(name, value === true ? '' : String(value));
  node.append(...children);
  return node;
}

/** The design that boxes are measured in. */
export type Design = { w: number; h: number };

const percent = (part: number, whole: number): string => `${Math.round((part / whole) * 1e5) / 1e3}%`;

/** Puts an element where a box of the design lies. */
export function lay<E extends HTMLElement>(node: E, box: Box, { w, h }: Design): E {
  const { style } = node;
  style.position = 'absolute';
  style.left = percent(box.left, w);
  style.top = percent(box.top, h);
  style.width = percent(box.right - box.left, w);
  style.height = percent(box.bottom - box.top, h);
  return node;
}

/** Sets an attribute only when it differs: most looks change nothing. */
export function mark(node: Element, name: string, value: string): void {
  if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}

/** Sets text only when it differs. */
export function tell(node: Element, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}
