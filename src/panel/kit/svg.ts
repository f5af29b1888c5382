import { isText } from './bounds.ts';
import type { Op, PathOp, TextOp } from './ops.ts';
import type { Palette } from './palette.ts';

const safe = (s: string): string => s.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');

function pathTag(op: PathOp, { hex, weight }: Palette): string {
  const hatched = op.fill === 'shade' || op.fill === 'hatch';
  const fill = op.fill ? (hatched ? 'url(#hatch)' : hex[op.fill as keyof typeof hex]) : 'none';
  const stroke = op.stroke
    ? ` stroke="${hex[op.stroke]}" stroke-width="${(op.w ?? 1) * weight}" stroke-linecap="${op.cap ?? 'butt'}" stroke-linejoin="${op.join ?? 'round'}"`
    : '';
  const dash = op.dash ? ` stroke-dasharray="${op.dash.join(' ')}"` : '';
  const o = op.o === undefined ? '' : ` opacity="${op.o}"`;
  return `<path d="${op.d}" fill="${fill}"${stroke}${dash}${o}/>`;
}

function textTag(op: TextOp, { hex }: Palette): string {
  const o = op.o === undefined ? '' : ` opacity="${op.o}"`;
  return `<text x="${op.x}" y="${op.y}" font-family="${op.mono ? 'B612 Mono' : 'B612'}, sans-serif" font-size="${op.size}" font-weight="${op.bold ? 700 : 400}" fill="${hex[op.fill]}" text-anchor="${op.anchor ?? 'start'}" xml:space="preserve"${o}>${safe(op.text)}</text>`;
}

/** The same ops as a stand-alone SVG, for pages that have no canvas. `title` is its accessible name. */
export function svg(ops: readonly Op[], w: number, h: number, palette: Palette, title: string): string {
  let clips = 0;
  const body = ops.map((op) => {
    if ('pop' in op) return '</g>';
    if ('push' in op) {
      const { matrix, clip } = op.push;
      const def = clip ? `<clipPath id="c${++clips}"><path d="${clip}"/></clipPath>` : '';
      const inner = `${def}<g${clip ? ` clip-path="url(#c${clips})"` : ''}>`;
      return `<g${matrix ? ` transform="matrix(${matrix.join(' ')})"` : ''}>${inner}`;
    }
    if (isText(op)) return textTag(op, palette);
    return op.fill === 'shade' && !palette.shade ? '' : pathTag(op, palette);
  });
  const shut = body.map((s) => (s === '</g>' ? '</g></g>' : s)).join('');
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" role="img" aria-label="${safe(title)}"><defs>` +
    `<pattern id="hatch" width="5.1" height="5.1" patternUnits="userSpaceOnUse"><path d="M-1 6.1L6.1 -1M-1 1L1 -1M4.1 6.1L6.1 4.1" stroke="${palette.hex.ink}" stroke-opacity=".46"/></pattern>` +
    `</defs>${shut}</svg>`
  );
}
