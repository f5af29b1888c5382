/** Inside the sender: the carrier, its width, and where the watts go. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { FINE, line, type Op } from '../kit/ops.ts';
import { poly } from '../kit/path.ts';
import { trace } from './draw.ts';
import { bars, prose } from './figures.ts';
import { type Drawn, height, width } from './frame.ts';
import { kHzText, letterWords, num, printFacts, whose } from './say.ts';
import { spectrum, toneFlags } from './spectrum.ts';

type Look = Extract<Inside, { link: 'sender' }>;

/** Size of the carrier both ways from the middle, as a modulated wave's outline. */
function outline(a: Box, size: readonly number[]): Op[] {
  const mid = (a.top + a.bottom) / 2;
  const half = height(a) / 2 - 2;
  const n = size.length - 1;
  const edge = (sign: number) => size.map((v, i) => [a.left + (width(a) * i) / n, mid - sign * half * v] as const);
  let ruled = '';
  for (let i = 0; i <= n; i += 2) {
    const x = a.left + (width(a) * i) / n;
    ruled += poly([
      [x, mid - half * size[i]!],
      [x, mid + half * size[i]!],
    ]);
  }
  return [line(ruled, 0.7, 'ink', { cap: 'butt', o: 0.7 }), line(poly(edge(1)), 1.6), line(poly(edge(-1)), 1.6)];
}

const watt = (v: number): string => `${num(v, v < 9.95 ? 1 : 0)} W`;

function power(l: Look, a: Box): Op[] {
  const { watts } = l;
  if (!watts)
    return prose(
      a,
      l.radiated_W > 0
        ? `${watt(l.radiated_W)} leave the whip. What its sender offers and gets back is known there only.`
        : `Silent: ${l.silent}.`,
    );
  return bars(a, [
    { name: 'offered', value: watts.forward, text: watt(watts.forward), ink: 'g2' },
    { name: 'comes back', value: watts.back, text: watt(watts.back), ink: 'hatch' },
    { name: 'heat in coil', value: watts.coil, text: watt(watts.coil), ink: 'ink2' },
    { name: 'heat in the earth', value: watts.ground, text: watt(watts.ground), ink: 'ink2' },
    { name: 'radiated', value: watts.radiated, text: watt(watts.radiated), ink: 'persimmon' },
  ]);
}

export function sender(l: Look): Drawn {
  const isPrint = l.emission === 'F1B' || l.emission === 'A3E+F1B';
  const half = isPrint ? Math.max(400, l.shift_Hz) : 1500;
  const s = l.spectrum;
  const cut = s && {
    from_Hz: Math.max(s.from_Hz, -half * 1.6),
    to_Hz: Math.min(s.to_Hz, half * 1.6),
    dB: s.dB.filter((_, k) => Math.abs(s.from_Hz + (k * (s.to_Hz - s.from_Hz)) / (s.dB.length - 1)) <= half * 1.6),
  };
  return {
    title: 'Inside the sender',
    about: l.silent ? `${whose(l)}, silent: ${l.silent}` : `${whose(l)}, at ${kHzText(l.kHz)} kHz`,
    facts: isPrint ? printFacts(l) : [l.emission === 'N0N' ? 'no carrier' : l.emission, `${kHzText(l.kHz)} kHz`],
    window: isPrint ? l.window : null,
    rows: [
      {
        title: 'Carrier',
        text: isPrint ? 'beside a reference a little below it' : 'slowed down until the eye can follow',
        h: 1.2,
        draw: (a) => trace(a, l.carrier, isPrint ? l.window : null),
      },
      {
        title: 'Size',
        isFree: true,
        text: l.emission.startsWith('A')
          ? 'the last 1.2 s: a voice swells and shrinks it, a key breaks it'
          : 'the last 1.2 s: frequency carries the print, so the size stays',
        h: 1.2,
        draw: (a) =>
          l.size.some((v) => v > 0)
            ? outline(a, l.size)
            : [
                line(
                  poly([
                    [a.left, (a.top + a.bottom) / 2],
                    [a.right, (a.top + a.bottom) / 2],
                  ]),
                  FINE,
                  'ink2',
                  { dash: [2, 5] },
                ),
              ],
      },
    ],
    panels: [
      {
        title: 'Spectrum of the last second',
        h: 1,
        draw: (a) =>
          spectrum(a, cut, {
            ...(isPrint ? { flags: toneFlags(l.shift_Hz, l.markLow) } : {}),
            note:
              l.occupied_Hz === null
                ? 'Hz from the carrier.'
                : isPrint
                  ? `99 % within ${l.occupied_Hz} Hz; rule of thumb ${num(l.rule_Hz)}.`
                  : `99 % within ${l.occupied_Hz} Hz.`,
          }),
      },
      { title: 'Where the watts go', h: 1.08, draw: (a) => power(l, a) },
    ],
    words: [
      l.silent ? `Silent: ${l.silent}.` : `${watt(l.radiated_W)} radiated at ${kHzText(l.kHz)} kilohertz.`,
      ...(l.watts ? [`${watt(l.watts.back)} of ${watt(l.watts.forward)} come back.`] : []),
      letterWords(l),
    ],
  };
}
