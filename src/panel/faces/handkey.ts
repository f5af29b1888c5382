import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, poly, rect, rrect } from '../kit/path.ts';

/** A hand key side on. x, y is the left end of its base, upper edge; w 112 alone. */
export interface HandKeySpec extends Labelled {
  x: number;
  y: number;
  w: number;
  words?: { up: string; down: string };
}

const liveOps = (spec: HandKeySpec, down: boolean): Op[] => {
  const { x, y, w } = spec;
  const k = w / 112;
  const [px, py] = [x + 59 * k, y - 22 * k];
  const tilt = down ? -3.4 : 5;
  const knob = `${arc(px - 45 * k, py - 7 * k, 13.5 * k, -90, 90)}Z`;
  const sag = down ? 3 * k : 0;
  const zig = poly([
    [x + 41 * k, y - 19 * k + sag],
    [x + 33 * k, y - 15 * k + sag * 0.7],
    [x + 43 * k, y - 10 * k + sag * 0.5],
    [x + 33 * k, y - 6 * k],
    [x + 42 * k, y - 1 * k],
  ]);
  const word = spec.words
    ? [
        words(down ? spec.words.down : spec.words.up, x + w / 2, y + 26, {
          anchor: 'middle',
          bold: down,
          fill: down ? 'ink' : 'ink2',
        }),
      ]
    : [];
  return [
    line(zig, LINE),
    ...within({ matrix: turn(tilt, px, py) }, [
      solid(rect(px - 38.5 * k, py - 4 * k, 6 * k, 13 * k), 'ink'),
      solid(rect(px + 28 * k, py + 3 * k, 5 * k, 9 * k), 'ink'),
      shape(rrect(px - 54 * k, py - 8 * k, 112 * k, 8.5 * k, 4 * k), 'sheet', LINE),
      solid(knob, 'ink'),
      line(arc(px - 45 * k, py - 8 * k, 8.5 * k, -70, -5), 1.8 * k, 'onCut'),
    ]),
    ...word,
  ];
};

/** Value: down (contact closed) or up. */
export const handKey: Face<HandKeySpec, boolean> = {
  natural: { w: 116, h: 66 },
  staticOps: ({ x, y, w, label }) => {
    const k = w / 112;
    return [
      solid(rrect(x + 4, y + 5, w, 8.5 * k, 3 * k), 'shade'),
      solid(rrect(x, y, w, 8.5 * k, 3 * k), 'cut', { snap: true }),
      solid(rect(x + 20 * k, y - 8 * k, 8 * k, 8 * k), 'cut', { snap: true }),
      shape(rect(x + 53 * k, y - 22 * k, 12 * k, 22 * k), 'sheet', LINE, 'ink', { snap: true }),
      ...(label ? [words(label, x + w / 2, y + 26, { anchor: 'middle', bold: true })] : []),
    ];
  },
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, [false, true]),
};
