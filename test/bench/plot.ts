/** Draws assets/errors.svg from the bench's last numbers: `npx tsx test/bench/plot.ts`. */
import { readFileSync, writeFileSync } from 'node:fs';
import type { Point } from './errors.ts';
import type { Numbers } from './main.ts';

const { curves } = JSON.parse(readFileSync(new URL('numbers.json', import.meta.url), 'utf8')) as Numbers;
if (!curves) throw new Error('the bench has no curves yet: npm run bench -- errors');

// The panel's inks by day (src/pages/inks.css).
const INK = { paper: '#fcf6e8', rule: '#d6c7ab', line: '#17305c', word: '#45587d' };
const [W, H] = [760, 480];
const BOX = { left: 84, top: 56, right: 736, bottom: 416 };
const RANGE = { from_dB: 4, to_dB: 12.5, decades: 5 };

const x = (dB: number): number =>
  BOX.left + ((dB - RANGE.from_dB) / (RANGE.to_dB - RANGE.from_dB)) * (BOX.right - BOX.left);
const y = (share: number): number => BOX.top + (-Math.log10(share) / RANGE.decades) * (BOX.bottom - BOX.top);
const at = (p: number): string => p.toFixed(1);
const text = (tx: number, ty: number, words: string, more = ''): string =>
  `<text x="${at(tx)}" y="${at(ty)}" ${more}>${words}</text>`;

function grid(): string {
  const decades = Array.from({ length: RANGE.decades + 1 }, (_, n) => {
    const gy = y(10 ** -n);
    const label = n === 0 ? '100 %' : n === 1 ? '10 %' : n === 2 ? '1 %' : `${10 ** (2 - n)} %`;
    return `<path d="M${BOX.left} ${at(gy)}H${BOX.right}"/>${text(BOX.left - 10, gy + 5, label, 'text-anchor="end" stroke="none"')}`;
  });
  const steps = Array.from({ length: 9 }, (_, i) => {
    const gx = x(4 + i);
    return `<path d="M${at(gx)} ${BOX.top}V${BOX.bottom}"/>${text(gx, BOX.bottom + 22, String(4 + i), 'text-anchor="middle" stroke="none"')}`;
  });
  return `<g stroke="${INK.rule}" fill="${INK.word}">${[...decades, ...steps].join('')}</g>`;
}

const inside = (p: number): boolean => p > 10 ** -RANGE.decades;

function theory(share: (p: number) => number, dash: string): string {
  const points = Array.from({ length: 86 }, (_, i) => RANGE.from_dB + i / 10).flatMap((dB) => {
    const p = share(0.5 * Math.exp(-(10 ** (dB / 10)) / 2));
    return inside(p) ? [`${at(x(dB))} ${at(y(p))}`] : [];
  });
  return `<path d="M${points.join('L')}" fill="none" stroke="${INK.line}" stroke-width="2" ${dash}/>`;
}

const seen = (points: readonly Point[]): Point[] => points.filter((p) => inside(p.share));
const rounds = (points: readonly Point[]): string =>
  seen(points)
    .map((p) => `<circle cx="${at(x(p.ebN0_dB))}" cy="${at(y(p.share))}" r="5" fill="${INK.line}"/>`)
    .join('');
const squares = (points: readonly Point[]): string =>
  seen(points)
    .map(
      (p) =>
        `<rect x="${at(x(p.ebN0_dB) - 5)}" y="${at(y(p.share) - 5)}" width="10" height="10" fill="${INK.paper}" stroke="${INK.line}" stroke-width="2"/>`,
    )
    .join('');

/** A goal as a tick that opens to the left: the squares should pass on that side of it. */
const goal = (dB: number, share: number): string =>
  `<path d="M${at(x(dB))} ${at(y(share) - 9)}v18m0 -9h-14" fill="none" stroke="${INK.word}" stroke-width="2.5"/>`;

function key(): string {
  const rows = [
    `<circle cx="0" cy="-5" r="5" fill="${INK.line}"/>${text(16, 0, 'elements wrong, timing known')}`,
    `<path d="M-8 -5H8" stroke="${INK.line}" stroke-width="2"/>${text(16, 0, 'theory: exp(-Eb/2N0)/2')}`,
    `<rect x="-5" y="-10" width="10" height="10" fill="${INK.paper}" stroke="${INK.line}" stroke-width="2"/>${text(16, 0, 'characters wrong, <tspan font-family="monospace">wav read</tspan>, free-running')}`,
    `<path d="M-8 -5H8" stroke="${INK.line}" stroke-width="2" stroke-dasharray="7 5"/>${text(16, 0, 'theory: five elements right, timing known')}`,
    `<path d="M6 -14v18m0 -9h-14" fill="none" stroke="${INK.word}" stroke-width="2.5"/>${text(16, 0, 'goals for the characters')}`,
  ];
  return rows
    .map((row, i) => `<g transform="translate(${BOX.left + 24} ${BOX.bottom - 114 + i * 24})">${row}</g>`)
    .join('');
}

const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${W} ${H}" width="${W}" height="${H}" font-family="'B612', 'DejaVu Sans', sans-serif" font-size="14" fill="${INK.line}" role="img" aria-label="Share of elements and characters read wrong against Eb/N0, measured and by theory">
<rect width="${W}" height="${H}" fill="${INK.paper}"/>
${text(BOX.left, 32, 'Read wrong, by signal over noise: measured and by theory', 'font-size="17" font-weight="bold"')}
${grid()}
<rect x="${BOX.left}" y="${BOX.top}" width="${BOX.right - BOX.left}" height="${BOX.bottom - BOX.top}" fill="none" stroke="${INK.line}" stroke-width="1.5"/>
${theory((p) => p, '')}
${theory((p) => 1 - (1 - p) ** 5, 'stroke-dasharray="7 5"')}
${goal(9.3, 0.1)}${goal(11.6, 0.01)}
${rounds(curves.bits)}${squares(curves.characters)}
${key()}
${text((BOX.left + BOX.right) / 2, H - 16, 'Eb/N0 in dB: energy of an element over noise density', 'text-anchor="middle"')}
</svg>
`;
writeFileSync(new URL('../../assets/errors.svg', import.meta.url), svg);
