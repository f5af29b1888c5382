import type { Box } from '../kit/bounds.ts';
import type { Face } from '../kit/face.ts';
import { textWidth } from '../kit/metrics.ts';
import { FINE, HAIR, LINE, line, type Op, shape, words } from '../kit/ops.ts';
import { rrect, seg } from '../kit/path.ts';

/** The printer's keys. x, y is the top left of the first row. */
export interface KeyboardSpec {
  x: number;
  y: number;
  /** 550 close up; under 200 the keys are blank. */
  w: number;
  /** Height of a row; 36 close up, 12 in the whole view. */
  row: number;
}

/** One key: an id, what it prints in letters and in figures case. */
export interface KeyCap {
  id: string;
  letter: string;
  figure?: string;
  /** Width in units of a letter key. */
  span: number;
}

/** Figures case as ITU-T Rec. S.1 prints it; a national place (F, G, H) stays blank. The arrangement is ours. */
const FIGURES: Readonly<Record<string, string>> = Object.fromEntries(
  [...'QWERTYUIOPASKLZXCVBNM'].map((c, i) => [c, [..."1234567890-'()+/:=?,."][i]!]),
);
const letters = (row: string): KeyCap[] =>
  [...row].map((c) => ({ id: c, letter: c, ...(FIGURES[c] ? { figure: FIGURES[c] } : {}), span: 1 }));
const wide = (id: string, letter: string, span: number): KeyCap => ({ id, letter, span });

/** Rows from the top, each with its indent in key widths. */
export const KEY_ROWS: readonly { indent: number; keys: readonly KeyCap[] }[] = [
  { indent: 0, keys: letters('QWERTYUIOP') },
  { indent: 0.27, keys: [...letters('ASDFGHJKL'), wide('CR', 'return', 1.23)] },
  {
    indent: 0,
    keys: [wide('LTRS', 'letters', 1.42), ...letters('ZXCVBNM'), wide('FIGS', 'figures', 1.52), wide('LF', 'line', 1)],
  },
  {
    indent: 0,
    keys: [wide('WRU', 'who are you', 2.2), wide('SPACE', 'space', 6.25), wide('BELL', 'bell', 1.55)],
  },
];
const SPAN = 10.5;
const GAP = 4;
/** Keys of so high a row have names. */
const isBig = (h: number): boolean => h > 24;

/** Width of each key of a row with its gap: a narrow row gives a key the room of its name, from the keys beside it. */
function pitches(keys: readonly KeyCap[], taken: number, { w, row }: KeyboardSpec): { unit: number; each: number[] } {
  const needs = keys.map((k) => (k.letter.length > 1 && isBig(row) ? textWidth(k.letter, 14) + 7 + GAP : 0));
  const isShort = (i: number) => needs[i]! > (keys[i]!.span * w) / taken;
  let [room, spans] = [w, taken];
  keys.forEach((key, i) => {
    if (isShort(i)) [room, spans] = [room - needs[i]!, spans - key.span];
  });
  const unit = room / spans;
  return { unit, each: keys.map((key, i) => (isShort(i) ? needs[i]! : key.span * unit)) };
}

/** Where every key lies: for drawing and for the hand. */
export function keyBoxes(spec: KeyboardSpec): { key: KeyCap; box: Box }[] {
  const { x, y, row } = spec;
  const gap = GAP * Math.min(1, row / 30);
  return KEY_ROWS.flatMap(({ indent, keys }, r) => {
    const taken = keys.reduce((n, k) => n + k.span, indent);
    const { unit, each } = pitches(keys, r < 2 ? SPAN : taken, spec);
    let left = x + indent * unit;
    return keys.map((key, i) => {
      const box = { left, top: y + r * row, right: left + each[i]! - gap, bottom: y + (r + 1) * row - gap };
      left += each[i]!;
      return { key, box };
    });
  });
}

type Held = 'up' | 'down' | 'waits' | 'refused';

/** A key that waits is half down with a bar on its lip; one that is refused stays up behind a bolt. */
function cap({ key, box: at }: { key: KeyCap; box: Box }, held: Held, figures: boolean | null, aside = 0): Op[] {
  const box = { ...at, left: at.left + aside, right: at.right + aside };
  const [w, h] = [box.right - box.left, box.bottom - box.top];
  const down = held === 'down';
  const big = isBig(h + GAP);
  const dy = down ? 2 : held === 'waits' ? 1 : 0;
  const face = shape(
    rrect(box.left, box.top + dy, w, h - dy, Math.min(8, 0.28 * h)),
    down ? 'g2' : held === 'waits' ? 'g1' : 'sheet',
    big ? LINE : FINE,
    'ink',
    { snap: true },
  );
  if (!big) return [face];
  const bolt = { cap: 'butt', snap: true } as const;
  const lip =
    held === 'refused'
      ? line(seg(box.left - 1, box.top + 3, box.right + 1, box.top + 3), 6, 'ink', bolt)
      : held === 'waits'
        ? line(seg(box.left + 7, box.bottom - 5, box.right - 7, box.bottom - 5), 3, 'ink', bolt)
        : line(seg(box.left + 7, box.bottom - 4, box.right - 7, box.bottom - 4), HAIR, 'ink', { snap: true });
  const base = box.top + h / 2 + 5 + dy / 2;
  const middle = (box.left + box.right) / 2;
  if (key.letter.length > 1)
    return [face, ...(down ? [] : [lip]), words(key.letter, middle, base, { bold: true, anchor: 'middle' })];
  const bold = figures !== true;
  return [
    face,
    ...(down ? [] : [lip]),
    words(key.letter, key.figure ? box.left + w * 0.38 : middle, base, {
      bold,
      anchor: 'middle',
      size: 16,
      fill: bold ? 'ink' : 'ink2',
    }),
    ...(key.figure
      ? [
          words(key.figure, box.right - w * 0.22, base, {
            bold: figures === true,
            anchor: 'middle',
            fill: figures === true ? 'ink' : 'ink2',
          }),
        ]
      : []),
  ];
}

export interface KeyboardValue {
  /** Ids of keys held down. */
  down: readonly string[];
  /** Case of the machine: figures are bold when true. */
  figures: boolean;
  /** Ids of keys that wait until the one before is through. */
  waits?: readonly string[];
  /** The key that the lock has refused, and how far it shakes aside, units. */
  refused?: { key: string; aside: number };
}

const liveOps = (spec: KeyboardSpec, { down, figures, waits = [], refused }: KeyboardValue): Op[] =>
  keyBoxes(spec).flatMap((k) => {
    const { id } = k.key;
    if (id === refused?.key) return cap(k, 'refused', figures, refused.aside);
    if (down.includes(id)) return cap(k, 'down', figures);
    if (waits.includes(id)) return cap(k, 'waits', figures);
    return figures ? cap(k, 'up', figures) : [];
  });

/** Value: keys held and case. The sheet shows all keys up, in letters case. */
export const keyboard: Face<KeyboardSpec, KeyboardValue> = {
  natural: { w: 550, h: 144 },
  staticOps: (spec) => keyBoxes(spec).flatMap((k) => cap(k, 'up', null)),
  liveOps,
  tileBox: ({ x, y, w, row }) => ({ left: x - 6, top: y - 3, right: x + w + 6, bottom: y + 4 * row + 3 }),
};
