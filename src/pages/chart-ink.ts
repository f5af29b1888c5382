/** Strokes and type of the chart strip. */
import { s } from './dom.ts';

/** A line of so many px. */
export const stroke = (d: string, w: number, more = {}) =>
  s('path', {
    d,
    fill: 'none',
    stroke: 'var(--ink)',
    style: `stroke-width:calc(${w}px * var(--weight))`,
    'stroke-linecap': 'round',
    'stroke-linejoin': 'round',
    ...more,
  });
/** A word. */
export const type = (text: string, x: number, y: number, more = {}) =>
  s('text', { x, y, 'font-size': 14, fill: 'var(--ink)', ...more }, text);
