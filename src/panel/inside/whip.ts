/** Inside the whip: the field that leaves it, what stands at its foot, and the coil's dip. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { between } from '../kit/dice.ts';
import { textWidth, wrap } from '../kit/metrics.ts';
import { FINE, line, type Op, shape, solid, within, words } from '../kit/ops.ts';
import { circle, poly, rect, seg, spread } from '../kit/path.ts';
import { fieldOps } from '../props/field.ts';
import { figures, prose } from './figures.ts';
import { type Drawn, height, width } from './frame.ts';
import { kHzText, num, thousands, WHAT, whose } from './say.ts';

type Look = Extract<Inside, { link: 'whip' }>;

/** Volts and watts that stop the work (the sender trips above 25 W back). */
const STOP_W = 25;

function insulator(x: number, y: number, guard: boolean): Op[] {
  const ribs = spread(0, 4, 5)
    .map((i) => seg(x - 9, y - 6 - 6 * i, x + 9, y - 6 - 6 * i))
    .join('');
  const wires = [-17, -10, 10, 17].map((dx) => seg(x + dx, y, x + dx * 0.8, y - 44)).join('');
  return [
    solid(rect(x - 4, y - 36, 8, 36), 'sheet'),
    line(ribs, 3.2),
    ...(guard ? [line(wires + seg(x - 15, y - 44, x + 15, y - 44) + seg(x - 18, y - 4, x + 18, y - 4), 1.6)] : []),
  ];
}

function scene(l: Look, a: Box): Op[] {
  const isHot = l.radiated_W > 0;
  const ground = a.bottom - 88;
  const x = a.left + width(a) * 0.46;
  const h = Math.min(height(a) * 0.62, ground - a.top - 56, 40 * Math.max(0.2, l.height_m) + 20);
  const top = ground - 40 - h;
  const lines = isHot
    ? fieldOps({ x, y: ground, wavelength: width(a) * 0.36, reach: width(a) * 0.62, phase: 0.2, lift: 1 }, 0.8)
    : [];
  const sections = Math.max(0, l.sections);
  const joints = spread(1, Math.max(1, sections - 1), Math.max(1, sections - 1)).map(
    (k) => ground - 40 - (h * k) / Math.max(1, sections),
  );
  const sand = Array.from({ length: 160 }, (_, i) =>
    circle(between(a.left, a.right, i, 3), between(ground + 6, ground + 56, i, 7), 0.9),
  ).join('');
  const ops: Op[] = [
    ...within({ clip: rect(a.left, a.top, width(a), ground - a.top) }, lines),
    solid(sand, 'g3'),
    line(seg(a.left, ground, a.right, ground), 2.4, 'ink', { cap: 'butt', snap: true }),
    ...(l.earthed
      ? [
          line(seg(x - 40, ground, x - 40, ground + 46), 3),
          solid(
            poly(
              [
                [x - 45, ground + 42],
                [x - 35, ground + 42],
                [x - 40, ground + 56],
              ],
              true,
            ),
            'ink',
          ),
          line(seg(x - 40, ground, x, ground - 2), 1.6),
          words('earth', x - 52, ground + 34, { anchor: 'end' }),
        ]
      : [words('no earth', x - 30, ground + 34, { anchor: 'end' })]),
    ...insulator(x, ground, l.guard),
  ];
  if (sections > 0) {
    ops.push(line(seg(x, ground - 38, x, top), 4.2, isHot ? 'persimmon' : 'ink', { snap: true }));
    if (sections > 1) ops.push(...joints.map((y) => solid(rect(x - 5, y - 5, 10, 10), 'ink', { snap: true })));
    ops.push(words(`${num(l.height_m, 1)} m`, x + 16, (top + ground) / 2 - 10, { bold: true }));
  } else ops.push(words('no section fitted', x + 26, ground - 20, { fill: 'ink2' }));
  if (isHot && l.foot) {
    const label = `${thousands(l.foot.volts)} V at the foot`;
    // On a phone there is no room beside the foot: the warning stands in the ground.
    const isTight = x + 92 + textWidth(label, 14) > a.right - 20;
    const bx = isTight ? x - 6 : x + 60;
    const by = isTight ? ground + 48 : ground;
    ops.push(
      solid(
        poly(
          [
            [bx, by - 14],
            [bx + 22, by - 14],
            [bx + 11, by - 34],
          ],
          true,
        ),
        'persimmon',
      ),
      line(seg(bx + 11, by - 28, bx + 11, by - 22), 2.2, 'sheet', { cap: 'butt' }),
      solid(circle(bx + 11, by - 18, 1.3), 'sheet'),
      ...boxed(label, bx + 32, by - 18),
    );
  }
  const caption = wrap(
    'Field lines of a short current over ground; the wave’s length is not to scale.',
    width(a) - 8,
    14,
  );
  ops.push(
    ...caption.map((t, i) => words(t, a.left + 4, a.bottom - 2 - 18 * (caption.length - 1 - i), { fill: 'ink2' })),
  );
  return ops;
}

/** Words on a patch of sheet, so that no line runs through them. */
function boxed(text: string, x: number, y: number): Op[] {
  const w = textWidth(text, 14) + 18;
  return [
    shape(rect(x, y - 17, w, 25), 'sheet', FINE, 'ink', { snap: true }),
    words(text, x + 8, y + 1, { bold: true }),
  ];
}

function dip(l: Look, a: Box): Op[] {
  const m = l.match;
  if (!m) return prose(a, 'Nothing to match: no whip is fitted.');
  const full = l.isOwn ? 120 : 100;
  const plot: Box = { left: a.left + 34, right: a.right, top: a.top + 6, bottom: a.bottom - 38 };
  const [c0, c1] = [m.coils[0]!, m.coils[m.coils.length - 1]!];
  const most = Math.min(full, Math.max(40, 1.08 * full * Math.max(...m.back)));
  const x = (c: number) => plot.left + ((c - c0) / (c1 - c0)) * width(plot);
  const y = (w: number) => plot.bottom - (Math.min(most, w) / most) * height(plot);
  const backAt =
    m.back[
      m.coils.reduce((best, c, i) => (Math.abs(c - m.coil_uH) < Math.abs(m.coils[best]! - m.coil_uH) ? i : best), 0)
    ]!;
  const ops: Op[] = [
    solid(rect(plot.left, plot.top, width(plot), Math.max(0, y(STOP_W) - plot.top)), 'hatch', { o: 0.55 }),
    line(seg(plot.left, y(STOP_W), plot.right, y(STOP_W)), FINE, 'ink', { dash: [4, 3], cap: 'butt', snap: true }),
    line(
      seg(plot.left, plot.top, plot.left, plot.bottom) + seg(plot.left, plot.bottom, plot.right, plot.bottom),
      1.6,
      'ink',
      { cap: 'butt', snap: true },
    ),
    line(poly(m.coils.map((c, i) => [x(c), y(full * m.back[i]!)] as const)), 2.2),
  ];
  for (const w of [0, STOP_W, 50, 100].filter((v) => v <= most))
    ops.push(words(String(w), plot.left - 6, y(w) + 5, { anchor: 'end' }));
  for (const c of spread(c0, c1, 5).slice(1, 4))
    ops.push(
      line(seg(x(c), plot.bottom, x(c), plot.bottom + 5), FINE),
      words(num(c, 1), x(c), plot.bottom + 20, { anchor: 'middle' }),
    );
  ops.push(
    words('coil, µH', a.right, a.bottom, { anchor: 'end', fill: 'ink2' }),
    ...flag(`now ${num(m.coil_uH, 2)}`, x(m.coil_uH), y(full * backAt), plot),
  );
  return ops;
}

/** A dark flag beside a ring on the curve. */
function flag(text: string, x: number, y: number, plot: Box): Op[] {
  const w = textWidth(text, 14) + 16;
  const left = Math.max(plot.left + 6, Math.min(plot.right - w - 2, x - w / 2));
  const top = Math.max(plot.top + 4, Math.min(plot.top + 30, y - 40));
  return [
    line(seg(x, top + 12, x, y), FINE + 0.3, 'ink', { snap: true }),
    solid(rect(left, top, w, 24), 'cut', { snap: true }),
    words(text, left + 8, top + 17, { bold: true, fill: 'onCut' }),
    shape(circle(x, y, 5), 'sheet', 2.2),
  ];
}

export function whip(l: Look): Drawn {
  const f = l.foot;
  return {
    title: 'Inside the whip',
    about:
      l.radiated_W > 0
        ? `${whose(l)}: ${WHAT[l.on]} goes out with ${num(l.radiated_W, 1)} W`
        : `${whose(l)}: nothing goes out now`,
    facts: [`${kHzText(l.kHz)} kHz`, `${num(l.height_m, 1)} m`],
    window: null,
    picture: { h: 1, draw: (a) => scene(l, a) },
    rows: [],
    panels: [
      {
        title: 'At the foot',
        h: 1.05,
        draw: (a) =>
          f
            ? figures(
                a,
                [
                  ['radiates as', `${num(f.R_ohm, 1)} Ω`],
                  ['looks like a capacitor of', `${num(f.X_ohm)} Ω`],
                  ['lost in the earth', `${num(f.ground_ohm, 1)} Ω`],
                  ['lost in the coil', `${num(f.coil_ohm, 1)} Ω`],
                  ['share radiated', `${num(100 * f.efficiency)} %`],
                  ['volts', `${thousands(f.volts)} V`],
                  ['current', `${num(f.amps, 2)} A`],
                ],
                27,
              )
            : prose(a, 'No whip is fitted: all comes back.'),
      },
      { title: 'Watts back against the coil', h: 1, draw: (a) => dip(l, a) },
    ],
    words: f
      ? [
          `${num(l.radiated_W, 1)} watts radiated.`,
          `${thousands(f.volts)} volts and ${num(f.amps, 2)} amperes at the foot.`,
          `${num(100 * f.efficiency)} percent of the power is radiated.`,
        ]
      : ['No whip is fitted.'],
  };
}
