/** Inside the terminal unit: from two tones to five units, and how surely. */
import type { Inside } from '../../core/drill.ts';
import { textWidth } from '../kit/metrics.ts';
import { words } from '../kit/ops.ts';
import { decision, holes, pulses, trace, twoTones } from './draw.ts';
import { prose } from './figures.ts';
import type { Drawn } from './frame.ts';
import { letterCard, surely, weakest } from './letter.ts';
import { letterWords, printFacts } from './say.ts';
import { spectrum, toneFlags } from './spectrum.ts';

type Look = Extract<Inside, { link: 'terminal unit' }>;

/** Which unit was nearest to wrong, in words. */
export const nearest = (units: Look['units']): string => {
  const at = weakest(units);
  return at < 0 ? 'No unit is read yet.' : `Unit ${at + 1} was nearest to wrong.`;
};

function cut(s: NonNullable<Look['spectrum']>, half: number): NonNullable<Look['spectrum']> {
  const step = (s.to_Hz - s.from_Hz) / (s.dB.length - 1);
  const dB = s.dB.filter((_, k) => Math.abs(s.from_Hz + k * step) <= half);
  const edge = ((dB.length - 1) / 2) * step;
  return { from_Hz: -edge, to_Hz: edge, dB };
}

export function terminalUnit(l: Look): Drawn {
  const { window: w, units } = l;
  const half = Math.max(700, l.shift_Hz);
  return {
    title: 'Inside the terminal unit',
    about: l.deaf
      ? `nothing to decide: ${l.deaf}`
      : w.letter
        ? `one letter ${l.isOwn ? 'as it arrives' : `as ${l.who} has it`}`
        : `${l.isOwn ? 'your own' : `${l.who}’s`}: no letter now`,
    facts: printFacts(l),
    window: w,
    rows: [
      { title: 'Pulses', text: 'what the loop is given', h: 0.95, draw: (a) => pulses(a, l.line, w) },
      {
        title: 'Carrier, shifted',
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
      { title: 'Read as holes', h: 0.42, draw: (a) => holes(a, units, w) },
    ],
    panels: [
      {
        title: 'Spectrum of the last second',
        h: 1.15,
        draw: (a) =>
          spectrum(a, l.spectrum && cut(l.spectrum, half), {
            before: l.before && cut(l.before, half),
            flags: toneFlags(l.shift_Hz, l.markLow),
            note: 'Hz from the middle. Dotted: before the filter.',
          }),
      },
      {
        title: 'Prints next',
        h: 1,
        draw: (a) => {
          const x = a.left + 134;
          const bars = { ...a, left: x, top: a.top + 2, bottom: a.top + 142 };
          return [
            ...letterCard(
              { ...a, bottom: a.top + 158 },
              w.letter && units.every((u) => u.isRead) ? w.letter : null,
              w.letter ? 'not read to its end yet' : undefined,
            ),
            words('How surely', x, a.top - 14, { size: 15, bold: true }),
            ...surely(bars, units),
            ...prose(
              { ...a, left: x, top: bars.bottom + 6, right: x + Math.max(212, textWidth('x', 14)) },
              nearest(units),
              { fill: 'ink' },
            ),
          ];
        },
      },
    ],
    words: [
      l.deaf || letterWords(l),
      ...units
        .filter((u) => u.isRead)
        .map((u, i) => `Unit ${i + 1} ${u.mark ? 'mark' : 'space'}, ${Math.round(u.surely * 100)} percent.`),
    ],
  };
}
