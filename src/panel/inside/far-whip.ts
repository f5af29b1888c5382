/** Inside the whip that receives: everything in the air round the frequency, wanted or not. */
import type { Inside } from '../../core/drill.ts';
import { figures, prose } from './figures.ts';
import type { Drawn } from './frame.ts';
import { airFacts, kHzText, needsText, num, signed, WHAT, whose } from './say.ts';
import { spectrum } from './spectrum.ts';

type Look = Extract<Inside, { link: 'far whip' }>;

export function farWhip(l: Look): Drawn {
  const near = l.arrivals.filter((a) => Math.abs(a.off_Hz) < 3600);
  return {
    title: 'Inside the far whip',
    about: `${whose(l)}: ${l.deaf || (l.on === 'nothing' ? 'all that the air brings' : `${WHAT[l.on]} and all else that the air brings`)}`,
    facts: [`${kHzText(l.tuned_kHz)} kHz`, ...airFacts(l).slice(0, 1)],
    window: null,
    picture: {
      h: 1,
      draw: (a) =>
        l.deaf
          ? prose({ ...a, top: a.top + 20 }, `Nothing comes in here: ${l.deaf}.`, { size: 16 })
          : spectrum({ ...a, top: a.top + 14 }, l.spectrum, {
              flags: near.map((x) => ({ at: x.off_Hz, name: `${x.station} ${x.designator}` })),
              passes: l.bandwidth_Hz / 2,
              least_dB: -80,
              ticks: [-3000, -2000, -1000, 0, 1000, 2000, 3000],
              note: 'Hz from the frequency tuned to, the last second. Hatched: what the passband will keep out.',
            }),
    },
    rows: [],
    panels: [
      {
        title: 'Who is there, over the noise in 1 Hz',
        h: 1,
        draw: (a) =>
          l.arrivals.length === 0
            ? prose(a, l.deaf ? 'Not known.' : 'Nobody: only noise.')
            : figures(
                a,
                l.arrivals
                  .slice(0, 6)
                  .map((x) => [`${x.station} ${x.designator}`, `${num(x.cn0_dB)} dB  ${signed(x.off_Hz)} Hz`] as const),
                30,
              ),
      },
      {
        title: 'Over what noise',
        h: 0.9,
        draw: (a) => [
          ...figures(
            { ...a, bottom: a.top + 60 },
            [
              ['noise in 1 Hz', `${num(l.noise_dBuV, 1)} dBµV/m`],
              ['in the passband', `${num(l.noise_dBuV + 10 * Math.log10(l.bandwidth_Hz), 1)} dBµV/m`],
            ],
            30,
          ),
          ...prose(
            { ...a, top: a.top + 78 },
            'Machines, sparks and the sky itself. A wider passband lets in more of it; no gain takes it away.',
          ),
        ],
      },
    ],
    words:
      l.arrivals.length > 0
        ? l.arrivals.map(
            (x) =>
              `${x.station} arrives ${num(x.cn0_dB)} decibels over the noise, ${num(x.off_Hz)} hertz off; ${x.designator} needs ${needsText(x)}.`,
          )
        : [l.deaf || 'Only noise arrives.'],
  };
}
