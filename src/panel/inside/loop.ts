/** Inside the loop: contacts in series, and the current that is left of them. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { FINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { circle, rect, seg } from '../kit/path.ts';
import { pulses } from './draw.ts';
import { figures, prose } from './figures.ts';
import { type Drawn, height, width } from './frame.ts';
import { capital, letterWords, lineFacts, WHAT, whose } from './say.ts';

type Look = Extract<Inside, { link: 'loop' }>;

/** Is the contact closed at now? */
const closedNow = (l: Look, pieces: Look['loop']): boolean => {
  const { from_us, to_us, now_us } = l.window;
  const at = Math.min(0.999, (now_us - from_us) / (to_us - from_us));
  return pieces.find((p) => p.to >= at)?.mark ?? true;
};

/** Supply, contacts, magnet: one ring. */
function circuit(l: Look, a: Box): Op[] {
  const [x1, x2] = [a.left + 8, a.right - 8];
  const h = Math.min(height(a), 112);
  const [y1, y2] = [a.top + 26, a.top + h];
  const flows = closedNow(l, l.loop) && (l.isLocal || l.loop_mA >= l.holds_mA);
  const ops: Op[] = [
    line(rect(x1, y1, x2 - x1, y2 - y1), flows ? 4.6 : 1.6, flows ? 'sea' : 'ink', { snap: true, join: 'miter' }),
  ];
  const seen = l.contacts.filter((c) => c.isIn);
  seen.forEach((c, i) => {
    const x = x1 + ((i + 1) * (x2 - x1)) / (seen.length + 1);
    const isClosed = closedNow(l, c.pieces);
    ops.push(solid(rect(x - 20, y1 - 18, 40, 24), 'sheet'));
    ops.push(line(isClosed ? seg(x - 18, y1, x + 18, y1) : seg(x - 18, y1, x + 14, y1 - 15), 2.6));
    ops.push(shape(circle(x - 19, y1, 3.4), 'sheet', 1.6), shape(circle(x + 19, y1, 3.4), 'sheet', 1.6));
    ops.push(words(c.name, x, y1 + 24, { anchor: 'middle' }));
  });
  const mid = (x1 + x2) / 2;
  ops.push(
    shape(rect(mid - 58, y2 - 15, 116, 30), 'sheet', 1.8, 'ink', { snap: true }),
    words('printer magnet', mid, y2 + 5, { anchor: 'middle' }),
  );
  return ops;
}

/** Whose it is, and whether what is on its way comes through here at all. */
function aboutOf(l: Look): string {
  if (l.on === 'voice' || l.on === 'Morse') return `${whose(l)}: ${WHAT[l.on]} goes past it`;
  if (l.isLocal) return 'your own: the printer’s local loop, off the line';
  if (l.isOwn) return `your own, lever at ${l.lever}`;
  return l.on === 'print' ? `${whose(l)}, as their carrier has it` : `${whose(l)}: nothing is known of it now`;
}

/** What follows from the current. */
function moral(l: Look): string {
  if (l.isLocal) return 'What is typed is printed here and goes no further. The printer lever puts it on the line.';
  return l.loop_mA >= l.holds_mA
    ? 'Open one contact and the whole ring reads space.'
    : 'Too little to hold the magnet: it falls off, and the printer runs open.';
}

export function loop(l: Look): Drawn {
  const { window: w } = l;
  const inLoop = l.contacts.filter((c) => c.isIn);
  return {
    title: 'Inside the loop',
    about: aboutOf(l),
    facts: lineFacts(l),
    window: w,
    rows: [
      ...l.contacts.map((c) => ({
        title: capital(c.name),
        text: c.isIn ? 'in the loop' : 'not in the loop',
        h: 1,
        draw: (a: Box) =>
          pulses(a, c.pieces, w, { weight: c.isIn ? 2 : 1.1, ink: c.isIn ? 'ink' : 'ink2', named: false }),
      })),
      {
        title: l.isLocal ? 'Local loop' : 'Loop current',
        text: l.isLocal ? 'open where a contact is open' : `${l.loop_mA} mA while every contact is closed`,
        h: 1.7,
        draw: (a) => [
          ...pulses(a, l.loop, w),
          line(seg(a.left, a.bottom - 4, a.right, a.bottom - 4), FINE, 'ink2', { dash: [1.5, 4], cap: 'butt', o: 0.6 }),
        ],
      },
    ],
    panels: [
      { title: inLoop.length > 0 ? 'The ring now' : 'The ring now: steady', h: 1, draw: (a) => circuit(l, a) },
      {
        title: 'Current',
        h: 1.15,
        draw: (a) => [
          ...figures({ ...a, bottom: a.bottom - 66 }, [
            [l.isLocal ? 'supply of the line loop' : 'supply', `${l.supply_mA} mA`],
            [l.isLocal ? 'flows there at mark' : 'flows at mark', `${l.loop_mA} mA`],
            ['holds the magnet from', `${l.holds_mA} mA`],
            ['distortion', l.distortion_pct === null ? '–' : `${l.distortion_pct} %`],
          ]),
          ...prose({ ...a, top: a.bottom - 56, left: a.left, right: a.left + width(a) }, moral(l)),
        ],
      },
    ],
    words: [letterWords(l), l.isLocal ? 'The local loop, off the line.' : `${l.loop_mA} mA at mark of ${l.supply_mA}.`],
  };
}
