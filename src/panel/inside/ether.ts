/** Inside the ether: the wave falls along the way; what counts is how far it stands over the noise at the end. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { between } from '../kit/dice.ts';
import { textWidth } from '../kit/metrics.ts';
import { FINE, HAIR, line, type Op, solid, words } from '../kit/ops.ts';
import { circle, poly, rect, seg } from '../kit/path.ts';
import { figures, prose } from './figures.ts';
import { type Drawn, height, width } from './frame.ts';
import { kHzText, num, WHAT } from './say.ts';

type Look = Extract<Inside, { link: 'ether' }>;

const GROUNDS: Readonly<Record<string, string>> = {
  sea: 'sea',
  average: 'average ground',
  lowSalinitySea: 'brackish sea',
  freshWater: 'fresh water',
  mediumMoist: 'moist ground',
  mediumDry: 'rather dry ground',
  veryDry: 'very dry ground',
};
const groundName = (g: string): string => GROUNDS[g] ?? `${g} ground`;

/** Ground as a strip: waves for water, dots for land. */
function strip(g: string, x1: number, x2: number, y: number): Op[] {
  const isWater = /sea|water/i.test(g);
  let d = '';
  if (isWater)
    for (let r = 0; r < 3; r++)
      for (let x = x1 + 6 + 9 * (r % 2); x < x2 - 18; x += 26)
        d += `M${x} ${y + 10 + 11 * r}C${x + 5} ${y + 5 + 11 * r} ${x + 9} ${y + 5 + 11 * r} ${x + 14} ${y + 10 + 11 * r}`;
  else
    for (let i = 0; i < (x2 - x1) / 3; i++)
      d += circle(between(x1 + 3, x2 - 3, i, 5), between(y + 5, y + 37, i, 9), 0.9);
  return d ? [isWater ? line(d, FINE, 'ink') : solid(d, 'ink2')] : [];
}

const mast = (x: number, y: number, hot: boolean): Op[] => [
  line(seg(x, y, x, y - 54), 3, hot ? 'persimmon' : 'ink'),
  solid(rect(x - 8, y - 8, 16, 8), 'ink', { snap: true }),
];

function way(l: Look, a: Box): Op[] {
  const plot: Box = { left: a.left + 52, right: a.right - 18, top: a.top + 40, bottom: a.bottom - 118 };
  const levels = l.ground_dBuV;
  const top = Math.ceil((Math.max(...levels, l.field_dBuV ?? 0, 20) + 6) / 20) * 20;
  const low = Math.floor((Math.min(l.noise_dBuV, l.sky_dBuV ?? 0) - 6) / 20) * 20;
  const y = (dB: number) => plot.bottom - ((Math.max(low, Math.min(top, dB)) - low) / (top - low)) * height(plot);
  const x = (km: number) => plot.left + (km / Math.max(0.1, l.km)) * width(plot);
  const ops: Op[] = [];
  for (let v = low; v <= top; v += 20)
    ops.push(
      line(seg(plot.left, y(v), plot.right, y(v)), HAIR, 'ink', { cap: 'butt', snap: true, o: 0.35 }),
      words(num(v), plot.left - 8, y(v) + 5, { anchor: 'end' }),
    );
  ops.push(words('dB over 1 µV a metre', a.left, a.top + 14, { fill: 'ink2' }));
  ops.push(
    solid(rect(plot.left, y(l.noise_dBuV), width(plot), plot.bottom - y(l.noise_dBuV)), 'hatch', { o: 0.6 }),
    line(seg(plot.left, y(l.noise_dBuV), plot.right, y(l.noise_dBuV)), 1.6, 'ink', { cap: 'butt', snap: true }),
  );
  ops.push(...patch('noise in 1 Hz', plot.left + 12, y(l.noise_dBuV) + 20));
  if (levels.length > 1) {
    const d = levels.map((v, i) => [x(l.firstKm + ((l.km - l.firstKm) * i) / (levels.length - 1)), y(v)] as const);
    ops.push(
      line(poly(d), 2.6, 'ink'),
      words('ground wave', d[Math.floor(d.length * 0.4)]![0] + 8, d[Math.floor(d.length * 0.4)]![1] - 12, {
        bold: true,
      }),
    );
    if (l.field_dBuV !== null) {
      const ex = plot.right;
      ops.push(
        line(seg(ex, y(l.field_dBuV), ex, y(l.noise_dBuV)), 4.6, 'sea', { cap: 'butt', snap: true }),
        solid(circle(ex, y(l.field_dBuV), 5), 'ink'),
      );
      const over = `${num(l.cn0_dB ?? 0)} dB over it`;
      const base = y(l.field_dBuV) + 0.3 * (y(l.noise_dBuV) - y(l.field_dBuV)) + 5;
      ops.push(...patch(over, ex - 12 - textWidth(over, 14), base, true));
    }
  } else
    ops.push(
      words('Nobody sends: no wave is on its way.', (plot.left + plot.right) / 2, plot.top + height(plot) * 0.3, {
        anchor: 'middle',
        fill: 'ink2',
      }),
    );
  if (l.sky_dBuV !== null) {
    const sy = y(l.sky_dBuV);
    ops.push(
      line(seg(plot.right - 150, sy, plot.right, sy), 1.6, 'ink', { dash: [5, 4], cap: 'butt', snap: true }),
      ...patch(`sky wave ${num(l.sky_dBuV)}`, plot.right - 148, sy < y(l.noise_dBuV) - 4 ? sy - 7 : sy + 20),
    );
  }
  const ground = plot.bottom + 62;
  ops.push(line(seg(plot.left - 14, ground, plot.right + 14, ground), 2.4, 'ink', { cap: 'butt', snap: true }));
  let km = 0;
  for (const s of l.sections) {
    const [x1, x2] = [x(km), x(km + s.km)];
    km += s.km;
    ops.push(...strip(s.ground, x1, x2, ground));
    if (km < l.km - 0.01)
      ops.push(line(seg(x2, ground, x2, ground + 38), FINE, 'ink', { dash: [2, 3], cap: 'butt', snap: true }));
    const name = `${num(s.km)} km ${groundName(s.ground)}`;
    ops.push(words(x2 - x1 > 110 ? name : `${num(s.km)} km`, (x1 + x2) / 2, ground + 52, { anchor: 'middle' }));
  }
  ops.push(...mast(plot.left, ground, l.radiated_W > 0), ...mast(plot.right, ground, false));
  ops.push(
    words(l.from, plot.left + 14, ground - 22, { bold: true }),
    words(l.to, plot.right - 14, ground - 22, { bold: true, anchor: 'end' }),
  );
  return ops;
}

/** Words with paper behind them, so that no line runs through. */
function patch(text: string, x: number, base: number, bold = false): Op[] {
  return [solid(rect(x - 4, base - 15, textWidth(text, 14) + 8, 20), 'sheet'), words(text, x, base, { bold })];
}

type For = Look['needs']['for'];
const NEEDS: Record<For, string> = {
  print: '50 Bd print needs',
  voice: 'a voice needs',
  Morse: 'Morse by ear needs',
  carrier: 'to be noticed it needs',
};
const NEEDED_FOR: Record<For, string> = {
  print: 'for one wrong letter in a hundred',
  voice: 'for nine words in ten',
  Morse: 'for nine words in ten',
  carrier: 'for an ear to notice it',
};
const LOOK_ELSEWHERE: Record<For, string> = {
  print: 'look at dial, sense and shift',
  voice: 'look at dial and bandwidth',
  Morse: 'look at dial, bandwidth and BFO',
  carrier: 'look at the dial',
};
const FALLS_OUT: Record<For, string> = { print: 'letters', voice: 'words', Morse: 'words', carrier: 'the carrier' };

/** Is it enough for what is sent, and what follows from that? */
function verdict({ needs }: Look, spare: number | null): string {
  if (spare === null) return `Needed: carrier over the noise in 1 Hz, ${NEEDED_FOR[needs.for]}.`;
  if (spare > 10)
    return `More than enough ${NEEDED_FOR[needs.for]}. What goes wrong now is not the path: ${LOOK_ELSEWHERE[needs.for]}.`;
  if (spare > 0) return `Just enough. A fade, or a storm, and ${FALLS_OUT[needs.for]} may be lost.`;
  return `Too little ${NEEDED_FOR[needs.for]}. Another hour, another frequency, or more of the whip radiating.`;
}

function arrives(l: Look, a: Box): Op[] {
  const field = (v: number | null | undefined) => (v === null || v === undefined ? '–' : `${num(v, 1)} dBµV/m`);
  return figures(
    a,
    [
      ['radiated', l.radiated_W > 0 ? `${num(l.radiated_W, 1)} W` : '–'],
      ['ground wave', field(l.ground_dBuV.at(-1))],
      ['sky wave', field(l.sky_dBuV)],
      ['both', field(l.field_dBuV)],
      ['noise in 1 Hz', field(l.noise_dBuV)],
      ['over the noise', l.cn0_dB === null ? '–' : `${num(l.cn0_dB, 1)} dB`],
    ],
    30,
  );
}

export function ether(l: Look): Drawn {
  const { needs } = l;
  const spare = l.cn0_dB === null ? null : l.cn0_dB - needs.dB;
  return {
    title: 'Inside the ether',
    about: `${l.from} to ${l.to}, ${num(l.km)} km by ground: ${WHAT[l.on]} on its way`,
    facts: [`${kHzText(l.kHz)} kHz`, l.on === 'nothing' ? 'no carrier' : l.designator],
    window: null,
    picture: { h: 1, draw: (a) => way(l, a) },
    rows: [],
    panels: [
      { title: 'What arrives', h: 1.25, draw: (a) => arrives(l, a) },
      {
        title: needs.for === 'carrier' ? 'Enough to be noticed?' : `Enough for ${WHAT[needs.for]}?`,
        h: 0.9,
        draw: (a) => [
          ...figures(
            { ...a, bottom: a.top + 60 },
            [
              [NEEDS[needs.for], `${num(needs.dB, 1)} dB`],
              ['to spare', spare === null ? '–' : `${num(spare, 1)} dB`],
            ],
            30,
          ),
          ...prose({ ...a, top: a.top + 78 }, verdict(l, spare)),
        ],
      },
    ],
    words: [
      l.cn0_dB === null
        ? 'Nobody sends.'
        : `The wave arrives ${num(l.cn0_dB)} decibels over the noise in one hertz; ${NEEDS[needs.for]} ${num(needs.dB)}.`,
      ...l.sections.map((s) => `${num(s.km)} kilometres over ${groundName(s.ground)}.`),
    ],
  };
}
