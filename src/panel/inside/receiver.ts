/** Inside the receiver: what the passband lets through. */
import type { Inside } from '../../core/drill.ts';
import { trace } from './draw.ts';
import { figures, prose } from './figures.ts';
import type { Drawn } from './frame.ts';
import { kHzText, letterWords, num, printFacts, whose } from './say.ts';
import { spectrum, toneFlags } from './spectrum.ts';

type Look = Extract<Inside, { link: 'receiver' }>;

export function receiver(l: Look): Drawn {
  const isPrint = l.emission === 'F1B' || l.emission === 'A3E+F1B';
  return {
    title: 'Inside the receiver',
    about: `${whose(l)}${l.deaf ? `: ${l.deaf}` : `, ${num(l.bandwidth_Hz)} Hz wide`}`,
    facts: isPrint ? printFacts(l) : [l.emission === 'N0N' ? 'no carrier' : l.emission, `${kHzText(l.tuned_kHz)} kHz`],
    window: isPrint ? l.window : null,
    picture: {
      h: 2.1,
      draw: (a) =>
        spectrum({ ...a, top: a.top + 8 }, l.after, {
          before: l.before,
          passes: l.bandwidth_Hz / 2,
          least_dB: -80,
          ...(isPrint ? { flags: toneFlags(l.shift_Hz, l.markLow) } : {}),
          ticks: [-2000, -1000, -500, 0, 500, 1000, 2000],
          note: 'Hz from the middle of the passband, the last second. Dotted: before the filter. Flags: where the terminal unit expects its tones.',
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
        h: 1,
        draw: (a) =>
          figures(
            a,
            l.isOwn
              ? [
                  ['tuned to', `${kHzText(l.tuned_kHz)} kHz`],
                  ['bandwidth', `${num(l.bandwidth_Hz)} Hz`],
                  ['RF gain and trim', `${num(l.gain_dB, 1)} dB`],
                  ['own noise under the air’s', `${num(-l.innerNoise_dB)} dB`],
                  ['AGC', l.agc],
                  ['BFO', l.bfo_Hz === null ? 'off' : `${num(l.bfo_Hz)} Hz`],
                ]
              : [
                  ['tuned to', `${kHzText(l.tuned_kHz)} kHz`],
                  ['bandwidth', `${num(l.bandwidth_Hz)} Hz`],
                ],
            30,
          ),
      },
      {
        title: 'What to look for',
        h: 0.85,
        draw: (a) =>
          prose(
            a,
            l.deaf
              ? 'A deaf receiver hears only itself.'
              : isPrint
                ? 'Two hills under their flags: on tune. Both to one side: the dial is off by as much. Mark and space changed over: the sense is wrong. Nearer or wider than the flags: another shift.'
                : 'A hill in the clear part is heard. What lies under the hatching is kept out, noise and strangers alike.',
          ),
      },
    ],
    words: [l.deaf || `Tuned to ${kHzText(l.tuned_kHz)} kilohertz, ${num(l.bandwidth_Hz)} hertz wide.`, letterWords(l)],
  };
}
