/** Inside the terminal unit: from two tones to five units, and how surely. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { textWidth } from '../kit/metrics.ts';
import { type Op, words } from '../kit/ops.ts';
import { decision, holes, pulses, trace, twoTones } from './draw.ts';
import { prose, rest } from './figures.ts';
import type { Drawn, Panel } from './frame.ts';
import { letterCard, surely, weakest } from './letter.ts';
import { airFacts, letterWords, WHAT, whose } from './say.ts';
import { cut, spectrum, toneFlags } from './spectrum.ts';

type Look = Extract<Inside, { link: 'terminal unit' }>;

/** Which unit was nearest to wrong, in words. */
export const nearest = (units: Look['units']): string => {
  const at = weakest(units);
  return at < 0 ? 'No unit is read yet.' : `Unit ${at + 1} was nearest to wrong.`;
};

function aboutOf(l: Look): string {
  if (l.deaf) return `nothing to decide: ${l.deaf}`;
  if (l.window.letter) return `one letter ${l.isOwn ? 'as it arrives' : `as ${l.who} has it`}`;
  if (l.on === 'print') return `${whose(l)}: a steady line, no letter now`;
  return l.on === 'nothing' ? `${whose(l)}: only noise, nothing to decide` : `${whose(l)}: ${WHAT[l.on]} is not for it`;
}

function spectrumPanel(l: Look): Panel {
  const half = Math.max(700, l.shift_Hz);
  return {
    title: 'Spectrum of the last second',
    h: 1.15,
    draw: (a) =>
      spectrum(a, cut(l.spectrum, half), {
        before: cut(l.before, half),
        flags: toneFlags(l.shift_Hz, l.markLow),
        none: 'nothing comes in',
        note: 'Hz from the middle. Dotted: before the filter.',
      }),
  };
}

/** The letter that will be printed, and how surely its units were read. */
function nextPanel({ window: { letter }, units }: Look): Panel {
  const draw = (a: Box): Op[] => {
    const x = a.left + 134;
    const bars = { ...a, left: x, top: a.top + 2, bottom: a.top + 142 };
    return [
      ...letterCard(
        { ...a, bottom: a.top + 158 },
        letter && units.every((u) => u.isRead) ? letter : null,
        letter ? 'not read to its end yet' : undefined,
      ),
      words('How surely', x, a.top - 14, { size: 15, bold: true }),
      ...surely(bars, units),
      ...prose({ ...a, left: x, top: bars.bottom + 6, right: x + Math.max(212, textWidth('x', 14)) }, nearest(units), {
        fill: 'ink',
      }),
    ];
  };
  return { title: 'Prints next', h: 1, draw };
}

const wantsPanel = (l: Look): Panel => ({
  title: 'What it wants',
  h: 1,
  draw: (a) =>
    prose(
      a,
      `Two tones ${l.shift_Hz} Hz apart, one at a time: the ${l.markLow ? 'lower' : 'higher'} is mark. ${l.on === 'nothing' ? 'None is there' : `Now ${WHAT[l.on]} is there`}: no letter comes of it. Hold mark keeps the printer still meanwhile.`,
    ),
});

export function terminalUnit(l: Look): Drawn {
  const { window: w, units } = l;
  return {
    title: 'Inside the terminal unit',
    about: aboutOf(l),
    facts: airFacts(l),
    window: w,
    rows: [
      { title: 'Pulses', text: 'what the loop is given', h: 0.95, draw: (a) => pulses(a, l.line, w) },
      {
        title: l.on === 'print' ? 'Carrier, shifted' : 'What comes in',
        text: `beside a reference ${l.below_Hz} Hz below it, noise and all`,
        h: 1.15,
        draw: (a) => trace(a, l.tones, w),
      },
      {
        title: 'Two tones',
        text: 'mark filter upward, space filter down',
        h: 1.45,
        draw: (a) => twoTones(a, l.markTone, l.spaceTone, w),
      },
      {
        title: 'Decision',
        text: 'mark less space, read at the middle of each unit',
        h: 1.75,
        draw: (a) => [
          ...decision(a, l.decision, units, w),
          ...(a.left > 100
            ? [
                words('mark', a.left - 8, a.top + 8, { anchor: 'end', fill: 'ink2' }),
                words('space', a.left - 8, a.bottom - 2, { anchor: 'end', fill: 'ink2' }),
              ]
            : []),
        ],
      },
      {
        title: 'Read as holes',
        h: 0.42,
        draw: (a) => (w.letter ? holes(a, units, w) : rest(a, 'no letter to read')),
      },
    ],
    panels: l.on === 'print' ? [spectrumPanel(l), nextPanel(l)] : [spectrumPanel(l), wantsPanel(l)],
    words: [
      l.deaf || letterWords(l),
      ...units
        .filter((u) => u.isRead)
        .map((u, i) => `Unit ${i + 1} ${u.mark ? 'mark' : 'space'}, ${Math.round(u.surely * 100)} percent.`),
    ],
  };
}
