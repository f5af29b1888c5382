/** Inside the receiver: what the passband lets through. */
import type { Inside } from '../../core/drill.ts';
import { trace } from './draw.ts';
import { figures, prose } from './figures.ts';
import type { Drawn } from './frame.ts';
import { airFacts, kHzText, letterWords, needsText, num, signed, thousands, WHAT, whose } from './say.ts';
import { cut, spectrum, toneFlags } from './spectrum.ts';

type Look = Extract<Inside, { link: 'receiver' }>;

/** What the passband does to what is there. */
function advice(l: Look): string {
  if (l.on === 'nothing')
    return 'A hill in the clear part would be heard. What lies under the hatching is kept out, noise and strangers alike.';
  if (l.on === 'print' && !l.window.letter)
    return 'The line rests: one hill, that of mark. It should stand under its flag; so far to one side as it stands, the dial is off.';
  if (l.on === 'print')
    return 'Two hills under their flags: on tune. Both to one side: the dial is off by as much. Mark and space changed over: the sense is wrong. Nearer or wider than the flags: another shift.';
  if (l.on === 'carrier')
    return 'One line and nothing beside it: it tells where to tune, and how strongly it comes in.';
  if (l.on === 'Morse')
    return 'One line that comes and goes. The BFO makes a tone of it; a narrow passband leaves noise out.';
  if (l.on === 'sound') return 'One sideband beside a carrier that is not there: the BFO must stand where it would be.';
  const isNarrow = l.needs_Hz !== null && l.bandwidth_Hz < 0.95 * l.needs_Hz;
  return isNarrow
    ? 'Narrower than the voice: what lies under the hatching is lost, the high tones first. Words that differ only there are confused.'
    : 'The carrier in the middle, the voice to both sides. All of it passes: no tone is lost, and no more noise comes than must.';
}

/** So far to both sides as passes, and a little of what does not. */
const shown_Hz = ({ bandwidth_Hz, needs_Hz }: Look): number =>
  Math.max(1000, 0.6 * Math.max(bandwidth_Hz, needs_Hz ?? 0));

const NOTE: Partial<Record<Look['on'], string>> = { print: ' Flags: where the terminal unit expects its tones.' };

export function receiver(l: Look): Drawn {
  const isPrint = l.on === 'print';
  const half = shown_Hz(l);
  const needs = l.on === 'nothing' ? [] : [[`${l.designator} needs`, needsText(l)] as const];
  return {
    title: 'Inside the receiver',
    about: `${whose(l)}${l.deaf ? `: ${l.deaf}` : `, ${thousands(l.bandwidth_Hz)} Hz wide: ${WHAT[l.on]} comes in`}`,
    facts: airFacts(l),
    window: isPrint ? l.window : null,
    picture: {
      h: 2.1,
      draw: (a) =>
        spectrum({ ...a, top: a.top + 8 }, cut(l.after, half), {
          before: cut(l.before, half),
          passes: l.bandwidth_Hz / 2,
          least_dB: -80,
          ...(isPrint ? { flags: toneFlags(l.shift_Hz, l.markLow) } : {}),
          note: `Hz from the middle of the passband, the last second. Dotted: before the filter.${NOTE[l.on] ?? ''}`,
        }),
    },
    rows: [
      {
        title: 'Out of it',
        text: `beside a reference ${l.below_Hz} Hz below: noise and all`,
        h: 1,
        draw: (a) => trace(a, l.tones, isPrint ? l.window : null),
      },
    ],
    panels: [
      {
        title: 'As it stands',
        h: 1.15,
        draw: (a) =>
          figures(
            a,
            [
              ['tuned to', `${kHzText(l.tuned_kHz)} kHz`],
              ['bandwidth', `${thousands(l.bandwidth_Hz)} Hz`],
              ...needs,
              ...(l.isOwn
                ? ([
                    ['RF gain and trim', `${num(l.gain_dB, 1)} dB`],
                    ['own noise against the air’s', `${signed(l.innerNoise_dB)} dB`],
                    ['AGC', l.agc],
                    ['BFO', l.bfo_Hz === null ? 'off' : `${num(l.bfo_Hz)} Hz`],
                  ] as const)
                : []),
            ],
            30,
          ),
      },
      {
        title: 'What to look for',
        h: 0.85,
        draw: (a) => prose(a, l.deaf ? 'A deaf receiver hears only itself.' : advice(l)),
      },
    ],
    words: [
      l.deaf || `Tuned to ${kHzText(l.tuned_kHz)} kilohertz, ${num(l.bandwidth_Hz)} hertz wide.`,
      letterWords(l),
      ...needs.map(([name, value]) => `${name} ${value}.`),
    ],
  };
}
