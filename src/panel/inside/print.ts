/** Inside the printer: when each unit is looked at, and what comes on the page. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { line, type Op, shape, solid, words } from '../kit/ops.ts';
import { poly, rect, seg } from '../kit/path.ts';
import { holes, pulses } from './draw.ts';
import { figures, prose, rest } from './figures.ts';
import { along, type Drawn, height, type Panel, width } from './frame.ts';
import { letterCard, surely, tapeStrip } from './letter.ts';
import { airFacts, letterWords, WHAT, whose } from './say.ts';

type Look = Extract<Inside, { link: 'print' }>;

function aboutOf(l: Look): string {
  if (l.deaf) return `${whose(l)}, nothing comes: ${l.deaf}`;
  if (l.on === 'print')
    return `${whose(l)}: ${l.window.letter ? 'the cam looks five times, then prints' : 'the line rests, the cam stands'}`;
  return `${whose(l)}: nothing to print${l.on === 'nothing' ? '' : `, ${WHAT[l.on]} is on the air`}`;
}

/** The last lines of the page. */
function page(a: Box, l: Look): Op[] {
  const lines = l.page.slice(-Math.max(1, Math.floor((height(a) - 14) / 22)));
  const most = Math.floor((width(a) - 24) / 10.4);
  const isEmpty = l.page.every((t) => t.trim() === '');
  return [
    solid(rect(a.left + 5, a.top + 5, width(a), height(a)), 'shade'),
    shape(rect(a.left, a.top, width(a), height(a)), 'sheet', 1.6, 'ink', { snap: true }),
    ...(isEmpty
      ? rest(a, 'nothing printed yet')
      : lines.map((t, i) => words(t.slice(-most), a.left + 12, a.top + 24 + 22 * i, { mono: true, size: 16 }))),
  ];
}

/** The letter that will be printed, and how surely its units were read. */
const nextPanel = ({ window: { letter }, units }: Look): Panel => ({
  title: 'Prints next',
  h: 1,
  draw: (a) => [
    ...letterCard(a, units.every((u) => u.isRead) ? letter : null, 'not read to its end yet'),
    words('How surely', a.left + 134, a.top - 14, { size: 15, bold: true }),
    ...surely({ ...a, left: a.left + 134, top: a.top + 2, bottom: a.top + 142 }, units),
  ],
});

/** What comes in place of a letter. */
function restOf({ deaf, on }: Look): string {
  if (deaf || on === 'nothing') return 'Nothing comes in';
  return on === 'print' ? 'Now the line rests at mark' : `Now ${WHAT[on]} comes in`;
}

const restPanel = (l: Look): Panel => ({
  title: 'What it waits for',
  h: 1,
  draw: (a) =>
    prose(
      a,
      `A start: the line leaves mark for one unit, and that lets the cam go. ${restOf(l)}, so the cam stands at its stop.`,
    ),
});

export function print(l: Look): Drawn {
  const { window: w, units } = l;
  return {
    title: 'Inside the printer',
    about: aboutOf(l),
    facts: airFacts(l),
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
      {
        title: 'Read as holes',
        h: 0.55,
        draw: (a) => (w.letter ? holes(a, units, w) : rest(a, 'no letter to read')),
      },
      {
        title: 'Last read',
        text: 'the letters before',
        h: 1.4,
        isFree: true,
        draw: (a) =>
          l.letters.length > 0 ? tapeStrip(a, l.letters, w.letter) : rest(a, 'nothing read in the last second'),
      },
      { title: 'Page', text: 'its last lines', h: 1.3, isFree: true, isPast: true, draw: (a) => page(a, l) },
    ],
    panels: [
      l.on === 'print' && w.letter && !l.deaf ? nextPanel(l) : restPanel(l),
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
