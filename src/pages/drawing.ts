/** A drawing made of the panel's strokes, as SVG whose inks are the page's own: it follows the theme and prints sharp. */
import { type Given, s } from './dom.ts';

/** One stroke, shape, line of type, or a bracket round others: what the panel's drawing kit hands out. */
export type Stroke = {
  d?: string;
  fill?: string;
  stroke?: string;
  w?: number;
  cap?: string;
  join?: string;
  o?: number;
  dash?: readonly number[];
  text?: string;
  x?: number;
  y?: number;
  size?: number;
  bold?: boolean;
  mono?: boolean;
  anchor?: string;
  push?: { matrix?: readonly number[]; clip?: string };
  pop?: true;
};

const ink = (name: string | undefined): string | undefined => name && `var(--${name})`;
let clips = 0;

function pathOf(op: Stroke): SVGElement {
  const hatched = op.fill === 'shade' || op.fill === 'hatch';
  return s('path', {
    d: op.d,
    fill: hatched ? 'url(#hatch)' : (ink(op.fill) ?? 'none'),
    class: op.fill === 'shade' ? 'shade' : undefined,
    stroke: ink(op.stroke),
    'stroke-width': op.stroke && `calc(${op.w ?? 1}px * var(--weight))`,
    style: op.stroke && `stroke-width:calc(${op.w ?? 1}px * var(--weight))`,
    'stroke-linecap': op.stroke && op.cap,
    'stroke-linejoin': op.stroke && (op.join ?? 'round'),
    'stroke-dasharray': op.dash?.join(' '),
    opacity: op.o,
  });
}

function typeOf(op: Stroke): SVGElement {
  const given: Given = { x: op.x, y: op.y, 'font-size': op.size, fill: ink(op.fill), opacity: op.o };
  const anchor = { 'text-anchor': op.anchor, 'font-weight': op.bold ? 700 : 400, class: op.mono ? 'mono' : undefined };
  return s('text', { ...given, ...anchor }, op.text);
}

function bracket(push: NonNullable<Stroke['push']>): { outer: SVGElement; inner: SVGElement } {
  const outer = s('g', { transform: push.matrix && `matrix(${push.matrix.join(' ')})` });
  if (!push.clip) return { outer, inner: outer };
  const id = `clip${++clips}`;
  const inner = s('g', { 'clip-path': `url(#${id})` });
  outer.append(s('clipPath', { id }, s('path', { d: push.clip })), inner);
  return { outer, inner };
}

/** Strokes as SVG nodes, in their order. */
export function drawn(strokes: readonly Stroke[]): SVGElement {
  const root = s('g');
  const into: SVGElement[] = [root];
  for (const op of strokes) {
    const here = into[into.length - 1] as SVGElement;
    if (op.pop) into.pop();
    else if (op.push) {
      const { outer, inner } = bracket(op.push);
      here.append(outer);
      into.push(inner);
    } else here.append(op.text === undefined ? pathOf(op) : typeOf(op));
  }
  return root;
}

/** The 45 degree hatch of shadows, to be put into an SVG once; it answers to `url(#hatch)`. */
export const hatchDefs = (): SVGElement =>
  s(
    'defs',
    {},
    s(
      'pattern',
      { id: 'hatch', width: 5.1, height: 5.1, patternUnits: 'userSpaceOnUse' },
      s('path', { d: 'M-1 6.1L6.1 -1M-1 1L1 -1M4.1 6.1L6.1 4.1', class: 'hatch-line' }),
    ),
  );
