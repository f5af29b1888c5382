/** Inside the keys: the letter as holes, as contacts, as one of the last on the tape; or the hand that keys, or what is said. */
import type { Inside } from '../../core/drill.ts';
import type { Box } from '../kit/bounds.ts';
import { wrap } from '../kit/metrics.ts';
import { line, type Op, words } from '../kit/ops.ts';
import { type Point, poly } from '../kit/path.ts';
import { hole, pulses, unitMiddles } from './draw.ts';
import { figures, prose, rest } from './figures.ts';
import { along, type Drawn, type Panel, type Row, width } from './frame.ts';
import { letterCard, tapeStrip, unitList } from './letter.ts';
import { letterWords, lineFacts, thousands, whose } from './say.ts';

type Look = Extract<Inside, { link: 'keys' }>;

const BY: Record<Look['by'], string> = {
  keyboard: 'the keyboard sends',
  tape: 'the tape sends',
  'hand key': 'the hand key sends',
  voice: 'a voice speaks',
  line: 'as their line has it',
  nobody: 'nobody sends',
};

/** Contact of the hand key: high is down. */
function handKey(a: Box, l: Look): Op[] {
  const points: Point[] = l.handKey.flatMap((p) => {
    const y = p.mark ? a.top + 8 : a.bottom - 8;
    return [[along(a, p.from), y] as const, [along(a, p.to), y] as const];
  });
  return [line(poly(points), 2.4, 'ink', { cap: 'butt', join: 'miter', snap: true })];
}

/** The last words, the newest below and bold. */
function said(a: Box, { words: all }: Look): Op[] {
  if (all.length === 0) return rest(a, 'no word yet');
  const lines = wrap(all.join(' '), width(a) - 24, 20).slice(-5);
  const top = (a.top + a.bottom) / 2 - 15 * (lines.length - 1) + 7;
  return lines.map((text, i) =>
    words(text, a.left + 12, top + 30 * i, { size: 20, bold: i === lines.length - 1, fill: 'ink' }),
  );
}

/** Five units a letter: holes, contact, tape. */
function printRows(l: Look): Row[] {
  const { window: w } = l;
  const { letter } = w;
  return [
    {
      title: 'Code',
      text: 'five units, a hole for each mark',
      h: 0.8,
      draw: (a) =>
        letter
          ? unitMiddles(a, w).map((x, i) => hole(x, (a.top + a.bottom) / 2, 10, ((letter.code >> i) & 1) === 1))
          : rest(a, 'no letter on its way'),
    },
    {
      title: 'Contact',
      text: 'closed is mark, open is space; a start before, a stop after',
      h: 1.5,
      draw: (a) => pulses(a, l.contact, w),
    },
    {
      title: 'Last sent',
      text: 'the letters before, as tape would hold them',
      h: 1.5,
      isFree: true,
      draw: (a) =>
        l.letters.length > 0 ? tapeStrip(a, l.letters, letter) : rest(a, 'nothing sent in the last seconds'),
    },
  ];
}

const printPanels = ({ window: { letter } }: Look): Panel[] => [
  {
    title: 'Sends now',
    h: 1,
    draw: (a) => [
      ...letterCard(a, letter),
      ...unitList({ ...a, left: a.left + 142, top: a.top + 2, bottom: a.top + 166 }, letter),
    ],
  },
  {
    title: 'One letter',
    h: 1,
    draw: (a) =>
      figures(a, [
        ['a unit', '20 ms'],
        ['start, five units, stop', '1 + 5 + 1.5'],
        ['a letter', '150 ms'],
        ['letters a second', '6.7'],
        ['words a minute', '67'],
      ]),
  },
];

const handPanels: Panel[] = [
  {
    title: 'Morse',
    h: 1.1,
    draw: (a) =>
      figures(
        a,
        [
          ['dot', '1 unit'],
          ['dash', '3 units'],
          ['between signs of a letter', '1 unit'],
          ['between letters', '3 units'],
          ['between words', '7 units'],
        ],
        30,
      ),
  },
  {
    title: 'What it does',
    h: 1,
    draw: (a) =>
      prose(
        a,
        'Key down, the carrier stands; key up, it is away. No loop, no shift: the key goes straight to the sender.',
      ),
  },
];

const voicePanels = (l: Look): Panel[] => [
  {
    title: 'A voice',
    h: 1,
    draw: (a) =>
      figures(
        a,
        [
          ['tones of speech', '300 to 3 000 Hz'],
          ['sent as', l.emission.includes('A3E') ? 'two sidebands' : `not sent: emission ${l.emission}`],
          ['needs', l.emission.includes('A3E') ? `${thousands(l.needs_Hz ?? 0)} Hz` : '–'],
        ],
        30,
      ),
  },
  {
    title: 'What it does',
    h: 1.1,
    draw: (a) =>
      prose(
        a,
        'The switch of the microphone brings the carrier up, the voice makes it larger and smaller. No loop, no shift: it goes straight to the sender.',
      ),
  },
];

export function keys(l: Look): Drawn {
  const shared = {
    title: 'Inside the keys',
    about: `${whose(l)}: ${l.by === 'nobody' && l.on === 'print' ? 'the line rests at mark' : BY[l.by]}`,
    facts: lineFacts(l),
    words: [letterWords(l), `Sent by: ${BY[l.by]}.`],
  };
  if (l.by === 'hand key')
    return {
      ...shared,
      window: null,
      rows: [{ title: 'Key', text: 'the last two seconds; high is down', h: 1, draw: (a) => handKey(inMiddle(a), l) }],
      panels: handPanels,
    };
  if (l.by === 'voice')
    return {
      ...shared,
      window: null,
      rows: [{ title: 'Words', text: 'of the last seconds', h: 1, draw: (a) => said(a, l) }],
      panels: voicePanels(l),
      words: [...shared.words, l.words.join(' ')],
    };
  return { ...shared, window: l.window, rows: printRows(l), panels: printPanels(l) };
}

/** The middle of a row that is alone on its sheet. */
const inMiddle = (a: Box): Box => {
  const mid = (a.top + a.bottom) / 2;
  return { ...a, top: Math.max(a.top, mid - 60), bottom: Math.min(a.bottom, mid + 60) };
};
