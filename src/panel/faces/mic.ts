import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { EDGE, FINE, LINE, line, type Op, shape, solid, words } from '../kit/ops.ts';
import { arc, num, rrect, seg } from '../kit/path.ts';

/** A hand microphone with a press bar. x, y is the top middle of its body; h 94 alone. */
export interface MicSpec extends Labelled {
  x: number;
  y: number;
  h: number;
  words?: { open: string; pressed: string };
}

function body({ x, y, h }: MicSpec): Op[] {
  const k = h / 94;
  const n = num;
  const p = (dx: number, dy: number): string => `${n(x + dx * k)} ${n(y + dy * k)}`;
  const d = `M${p(-20, 24)}C${p(-20, 6)} ${p(-11, 0)} ${p(0, 0)}C${p(11, 0)} ${p(20, 6)} ${p(20, 24)}L${p(16, 88)}C${p(10, 93)} ${p(5, 95.5)} ${p(0, 95.5)}C${p(-5, 95.5)} ${p(-10, 93)} ${p(-16, 88)}Z`;
  const tail = `M${p(0, 95.5)}C${p(0, 105)} ${p(3, 107)} ${p(9, 105)}C${p(15, 104)} ${p(14, 112)} ${p(6, 111)}C${p(0, 111)} ${p(-1, 118)} ${p(6, 117.5)}`;
  const slots = [14, 21, 28, 35, 42, 49].map((dy) => seg(x - 10.5 * k, y + dy * k, x + 10.5 * k, y + dy * k)).join('');
  return [line(tail, EDGE - 0.2), shape(d, 'sheet', EDGE), line(slots, LINE + 0.2, 'ink', { snap: true })];
}

const liveOps = (spec: MicSpec, pressed: boolean): Op[] => {
  const { x, y, h } = spec;
  const k = h / 94;
  const bar = solid(rrect(x - (pressed ? 23.5 : 29) * k, y + 34 * k, 9 * k, 33 * k, 3 * k), 'ink');
  const arcs = [22, 34, 45].map((r, i) => arc(x, y + 22 * k, r * k + 4, -34 - 2 * i, 34 + 2 * i)).join('');
  const word = spec.words
    ? [
        words(pressed ? spec.words.pressed : spec.words.open, x + 31 * k, y + 62 * k, {
          bold: pressed,
          fill: pressed ? 'ink' : 'ink2',
        }),
      ]
    : [];
  return [bar, ...body(spec), ...(pressed ? [bar, line(arcs, FINE + 0.4)] : []), ...word];
};

/** Value: pressed (open to air) or not. */
export const mic: Face<MicSpec, boolean> = {
  natural: { w: 80, h: 140 },
  staticOps: (spec) => {
    const { x, y, h, label } = spec;
    const k = h / 94;
    return [
      solid(rrect(x - 14 * k, y + 8 * k, 40 * k, 88 * k, 18 * k), 'shade'),
      ...(label ? [words(label, x, y + 138 * k, { anchor: 'middle', bold: true })] : []),
    ];
  },
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, [false, true]),
};
