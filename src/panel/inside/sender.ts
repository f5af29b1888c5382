/** Inside the sender: the carrier, its width, and where the watts go. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { line, type Op } from '../kit/ops.ts';
import { poly } from '../kit/path.ts';
import { trace } from './draw.ts';
import { bars, prose, rest } from './figures.ts';
import { type Drawn, height, width } from './frame.ts';
import { airFacts, kHzText, letterWords, num, thousands, WHAT, whose } from './say.ts';
import { cut, spectrum, toneFlags } from './spectrum.ts';

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

const CARRIER: Record<Look['on'], string> = {
  nothing: 'none now',
  carrier: 'bare, slowed down until the eye can follow',
  Morse: 'keyed; slowed down until the eye can follow',
  voice: 'slowed down until the eye can follow; the voice is in its size',
  print: 'beside a reference a little below it',
  sound: 'suppressed: only one sideband goes out',
};
const SIZE: Record<Look['on'], string> = {
  nothing: 'the last 1.2 s',
  carrier: 'the last 1.2 s: nothing is done to it',
  Morse: 'the last 1.2 s: the key breaks it',
  voice: 'the last 1.2 s: the voice swells and shrinks it',
  print: 'the last 1.2 s: frequency carries the print, so the size stays',
  sound: 'the last 1.2 s',
};

/** Both sides of the carrier that hold what is sent, with a little air. */
const half_Hz = (l: Look): number => 0.8 * Math.max(l.needs_Hz ?? 0, 1000);

function widthNote(l: Look): string {
  if (l.occupied_Hz === null) return 'Hz from the carrier.';
  const needs = l.needs_Hz === null ? '' : ` The emission needs ${thousands(l.needs_Hz)} Hz.`;
  const most = l.on === 'voice' ? ', for most of it is carrier' : '';
  return `Hz from the carrier. 99 % of the power lies within ${thousands(l.occupied_Hz)} Hz${most}.${needs}`;
}

export function sender(l: Look): Drawn {
  const isPrint = l.on === 'print';
  return {
    title: 'Inside the sender',
    about: l.silent ? `${whose(l)}, silent: ${l.silent}` : `${whose(l)}: ${WHAT[l.on]} at ${kHzText(l.kHz)} kHz`,
    facts: airFacts(l),
    window: isPrint ? l.window : null,
    rows: [
      {
        title: 'Carrier',
        text: CARRIER[l.on],
        h: 1.2,
        draw: (a) =>
          l.carrier.some((v) => v !== 0)
            ? trace(a, l.carrier, isPrint ? l.window : null)
            : rest(a, l.on === 'sound' ? 'no carrier: it is suppressed' : 'no carrier in this stretch'),
      },
      {
        title: 'Size',
        isFree: true,
        text: SIZE[l.on],
        h: 1.2,
        draw: (a) => (l.size.some((v) => v > 0) ? outline(a, l.size) : rest(a, 'nothing radiated in it')),
      },
    ],
    panels: [
      {
        title: 'Spectrum of the last second',
        h: 1,
        draw: (a) =>
          spectrum(a, cut(l.spectrum, half_Hz(l)), {
            ...(isPrint ? { flags: toneFlags(l.shift_Hz, l.markLow) } : {}),
            none: 'nothing was radiated',
            note: widthNote(l),
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
