/** Inside the keys: the letter as holes, as contacts, as one of the last on the tape. */
import type { Inside } from '../../core/drill.ts';
import { line, words } from '../kit/ops.ts';
import { type Point, poly } from '../kit/path.ts';
import { hole, pulses, unitMiddles } from './draw.ts';
import { figures } from './figures.ts';
import { along, type Drawn } from './frame.ts';
import { letterCard, tapeStrip, unitList } from './letter.ts';
import { letterWords, printFacts, whose } from './say.ts';

type Look = Extract<Inside, { link: 'keys' }>;

const BY: Record<Look['by'], string> = {
  keyboard: 'the keyboard sends',
  tape: 'the tape sends',
  'hand key': 'the hand key sends',
  voice: 'a voice, nothing keyed',
  line: 'as their line has it',
  nobody: 'the line rests at mark',
};

export function keys(l: Look): Drawn {
  const { window: w } = l;
  const { letter } = w;
  const hand = l.by === 'hand key';
  return {
    title: 'Inside the keys',
    about: `${whose(l)}: ${BY[l.by]}`,
    facts: printFacts(l),
    window: w,
    rows: [
      {
        title: 'Code',
        text: 'five units, a hole for each mark',
        h: 0.8,
        draw: (a) =>
          unitMiddles(a, w).map((x, i) => hole(x, (a.top + a.bottom) / 2, 10, ((letter!.code >> i) & 1) === 1)),
      },
      {
        title: 'Contact',
        text: 'closed is mark, open is space; a start before, a stop after',
        h: 1.5,
        draw: (a) => pulses(a, l.contact, w),
      },
      hand
        ? {
            title: 'Hand key',
            text: 'the last two seconds',
            h: 1.2,
            isFree: true,
            draw: (a) => {
              const points: Point[] = l.handKey.flatMap((p) => {
                const y = p.mark ? a.top + 8 : a.bottom - 8;
                return [[along(a, p.from), y] as const, [along(a, p.to), y] as const];
              });
              return [line(poly(points), 2.4, 'ink', { cap: 'butt', join: 'miter', snap: true })];
            },
          }
        : {
            title: 'Last sent',
            text: 'the letters before, as tape would hold them',
            h: 1.5,
            isFree: true,
            draw: (a) =>
              l.letters.length > 0
                ? tapeStrip(a, l.letters, letter)
                : [
                    words(
                      l.words.length > 0 ? l.words.join(' ') : 'nothing sent in the last seconds',
                      a.left + 12,
                      (a.top + a.bottom) / 2 + 5,
                      { fill: 'ink2' },
                    ),
                  ],
          },
    ],
    panels: [
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
    ],
    words: [letterWords(l), `Sent by: ${BY[l.by]}.`],
  };
}
