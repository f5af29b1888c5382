/** Inside the printer: when each unit is looked at, and what comes on the page. */
import type { Inside } from '../../core/drill.ts';
import { line, shape, solid, words } from '../kit/ops.ts';
import { poly, rect, seg } from '../kit/path.ts';
import { holes, pulses } from './draw.ts';
import { figures } from './figures.ts';
import { along, type Drawn, height, width } from './frame.ts';
import { letterCard, surely, tapeStrip } from './letter.ts';
import { letterWords, printFacts, whose } from './say.ts';

type Look = Extract<Inside, { link: 'print' }>;

export function print(l: Look): Drawn {
  const { window: w, units } = l;
  return {
    title: 'Inside the printer',
    about: l.deaf ? `${whose(l)}, nothing comes: ${l.deaf}` : `${whose(l)}: the cam looks five times, then prints`,
    facts: printFacts(l),
    window: w,
    rows: [
      {
        title: 'Line and looks',
        text: 'the start edge trips the cam; an arrow is a look',
        h: 1.5,
        draw: (a) => [
          ...pulses({ ...a, bottom: a.bottom - 24 }, l.line, w),
          ...units.flatMap((u) => {
            const x = along(a, u.at);
            const o = u.isRead ? 1 : 0.35;
            return [
              line(seg(x, a.bottom, x, a.bottom - 15), 2, 'ink', { cap: 'butt', snap: true, o }),
              solid(
                poly(
                  [
                    [x - 5, a.bottom - 12],
                    [x + 5, a.bottom - 12],
                    [x, a.bottom - 22],
                  ],
                  true,
                ),
                'ink',
                { o },
              ),
            ];
          }),
        ],
      },
      { title: 'Read as holes', h: 0.55, draw: (a) => holes(a, units, w) },
      {
        title: 'Last read',
        text: 'the letters before',
        h: 1.4,
        isFree: true,
        draw: (a) => tapeStrip(a, l.letters, w.letter),
      },
      {
        title: 'Page',
        text: 'its last lines',
        h: 1.3,
        isFree: true,
        draw: (a) => {
          const lines = l.page.slice(-Math.max(1, Math.floor((height(a) - 14) / 22)));
          const most = Math.floor((width(a) - 24) / 10.4);
          return [
            solid(rect(a.left + 5, a.top + 5, width(a), height(a)), 'shade'),
            shape(rect(a.left, a.top, width(a), height(a)), 'sheet', 1.6, 'ink', { snap: true }),
            ...lines.map((t, i) => words(t.slice(-most), a.left + 12, a.top + 24 + 22 * i, { mono: true, size: 16 })),
          ];
        },
      },
    ],
    panels: [
      {
        title: 'Prints next',
        h: 1,
        draw: (a) => [
          ...letterCard(
            a,
            w.letter && units.every((u) => u.isRead) ? w.letter : null,
            w.letter ? 'not read to its end yet' : undefined,
          ),
          words('How surely', a.left + 134, a.top - 14, { size: 15, bold: true }),
          ...surely({ ...a, left: a.left + 134, top: a.top + 2, bottom: a.top + 142 }, units),
        ],
      },
      {
        title: 'Margin',
        h: 1,
        draw: (a) =>
          figures(
            a,
            [
              ['from a look to the next edge', l.margin_pct === null ? '–' : `${l.margin_pct} %`],
              ['of a unit, at best', '50 %'],
              ['latch', '6.75 units'],
              ['line at the latch must be', 'mark'],
            ],
            30,
          ),
      },
    ],
    words: [l.deaf || letterWords(l), `The page ends: ${l.page.at(-1) ?? ''}`],
  };
}
