/** Inside the keyer: current becomes frequency. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { FINE, line, type Op, solid, words } from '../kit/ops.ts';
import { poly, seg } from '../kit/path.ts';
import { pulses, trace } from './draw.ts';
import { figures, prose } from './figures.ts';
import { along, type Drawn, untilNow, width } from './frame.ts';
import { letterWords, lineFacts, signed, WHAT, whose } from './say.ts';

type Look = Extract<Inside, { link: 'keyer' }>;

const tone = (l: Look, mark: boolean): number => (mark === l.markLow ? -1 : 1) * (l.shift_Hz / 2);

/** Frequency against time, in two steps. */
function frequency(l: Look, a: Box): Op[] {
  const mid = (a.top + a.bottom) / 2;
  const half = (a.bottom - a.top) / 2 - 6;
  const y = (mark: boolean) => mid - Math.sign(tone(l, mark)) * half;
  const d = poly(
    l.keyed.flatMap((p) => [[along(a, p.from), y(p.mark)] as const, [along(a, p.to), y(p.mark)] as const]),
  );
  return [
    line(seg(a.left, mid, a.right, mid), FINE, 'ink2', { dash: [6, 4], cap: 'butt', snap: true }),
    ...untilNow(a, l.window, (o) => [line(d, 2.4, 'ink', { cap: 'butt', join: 'miter', snap: true, o })]),
  ];
}

/** Mark and space on a rule of hertz. */
function rule(l: Look, a: Box): Op[] {
  const y = a.top + 52;
  const span = l.shift_Hz * 0.8;
  const x = (f: number) => (a.left + a.right) / 2 + (f / span) * (width(a) / 2 - 8);
  const ops: Op[] = [line(seg(a.left, y, a.right, y), 1.6, 'ink', { cap: 'butt', snap: true })];
  const step = l.shift_Hz / 20;
  for (let k = -16; k <= 16; k++)
    ops.push(
      line(seg(x(k * step), y, x(k * step), y + (k % 5 === 0 ? 9 : 5)), FINE, 'ink', { cap: 'butt', snap: true }),
    );
  for (const mark of [true, false]) {
    const f = tone(l, mark);
    ops.push(line(seg(x(f), y - 26, x(f), y), 2.4, 'ink', { cap: 'butt', snap: true }));
    ops.push(
      solid(
        poly(
          [
            [x(f) - 6, y - 9],
            [x(f) + 6, y - 9],
            [x(f), y],
          ],
          true,
        ),
        'ink',
      ),
    );
    ops.push(words(mark ? 'mark' : 'space', x(f), y - 32, { anchor: 'middle', bold: true }));
    ops.push(words(`${signed(f)} Hz`, x(f), y + 28, { anchor: 'middle' }));
  }
  return [...ops, words('carrier', x(0), y + 28, { anchor: 'middle', fill: 'ink2' })];
}

function aboutOf(l: Look): string {
  if (!l.isOn) return 'your own is off: nothing is shifted';
  if (l.on === 'voice' || l.on === 'Morse') return `${whose(l)}: ${WHAT[l.on]} goes past it`;
  return `${whose(l)}: current on is mark, off is space`;
}

export function keyer(l: Look): Drawn {
  const { window: w } = l;
  return {
    title: 'Inside the keyer',
    about: aboutOf(l),
    facts: lineFacts(l),
    window: w,
    rows: [
      { title: 'Pulses', text: 'current on is mark, off is space', h: 1, draw: (a) => pulses(a, l.line, w) },
      ...(l.isCovered
        ? [
            {
              title: 'In cover',
              text: 'after the key tape is added',
              h: 0.9,
              draw: (a: Box) => pulses(a, l.keyed, w, { named: false }),
            },
          ]
        : []),
      { title: 'Frequency', text: 'two steps about the carrier', h: 1, draw: (a) => frequency(l, a) },
      {
        title: 'Carrier, shifted',
        text: `${l.on === 'print' ? '' : 'as print would have it, '}beside a reference ${l.below_Hz} Hz below it: ${l.below_Hz - l.shift_Hz / 2} or ${l.below_Hz + l.shift_Hz / 2} Hz`,
        h: 1.5,
        draw: (a) => trace(a, l.carrier, w),
      },
    ],
    panels: [
      { title: 'Where the two stand', h: 0.6, draw: (a) => rule(l, a) },
      {
        title: 'The shift',
        h: 1,
        draw: (a) => [
          ...figures({ ...a, bottom: a.top + 104 }, [
            ['shift', `${l.shift_Hz} Hz`],
            ['mark', `${signed(tone(l, true))} Hz`],
            ['space', `${signed(tone(l, false))} Hz`],
            ['phase', 'runs on'],
          ]),
          ...prose(
            { ...a, top: a.top + 118 },
            'The phase never jumps: the carrier only hurries or tarries. A jump would splash far to both sides.',
          ),
        ],
      },
    ],
    words: [letterWords(l), `Mark stands at ${signed(tone(l, true))} hertz, space at ${signed(tone(l, false))}.`],
  };
}
