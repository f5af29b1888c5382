import { grain } from '../kit/dice.ts';
import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { FINE, HAIR, LINE, line, type Op, shape, solid, turn, within, words } from '../kit/ops.ts';
import { arc, circle, num, rrect, seg } from '../kit/path.ts';

/** The cooling filter before its fan. x, y is the top left; 76 x 54 close up, 40 x 28 in the whole view. */
export interface FilterSpec extends Labelled {
  x: number;
  y: number;
  w: number;
  h: number;
}

export interface FilterValue {
  /** Whether the filter is in its frame. */
  fitted: boolean;
  /** 0 clean to 1 blocked. */
  dirt: number;
  /** Turn of the fan, degrees; and whether it runs (its lines blur into arcs). */
  fan: number;
  running: boolean;
}

const centre = ({ x, y, w, h }: FilterSpec): [number, number, number] => [x + 0.38 * w, y + h / 2, 0.37 * h];

function blades(spec: FilterSpec, fan: number): Op[] {
  const [cx, cy, r] = centre(spec);
  const n = num;
  const petal = `M${n(cx)} ${n(cy)}C${n(cx - 0.5 * r)} ${n(cy - 0.4 * r)} ${n(cx - 0.35 * r)} ${n(cy - 0.95 * r)} ${n(cx + 0.15 * r)} ${n(cy - 0.92 * r)}C${n(cx + 0.5 * r)} ${n(cy - 0.85 * r)} ${n(cx + 0.35 * r)} ${n(cy - 0.4 * r)} ${n(cx)} ${n(cy)}Z`;
  return [0, 1, 2, 3, 4].flatMap((i) => within({ matrix: turn(72 * i + fan, cx, cy) }, [shape(petal, 'sheet', FINE)]));
}

function dust(spec: FilterSpec, dirt: number): Op[] {
  const { x, y, w, h } = spec;
  const n = Math.round(240 * dirt);
  let d = '';
  for (let i = 0; i < n; i++)
    d += circle(x + (0.07 + 0.62 * grain(i, 1)) * w, y + (0.14 + 0.72 * grain(i, 2)) * h, 0.5 + 1.1 * grain(i, 3));
  return d ? [solid(d, 'ink2')] : [];
}

const liveOps = (spec: FilterSpec, { fitted, dirt, fan, running }: FilterValue): Op[] => {
  const { x, y, w, h } = spec;
  const [cx, cy, r] = centre(spec);
  const bars = [0.17, 0.3, 0.43, 0.56, 0.69, 0.82]
    .map((t) => seg(x + 0.06 * w, y + t * h, x + 0.7 * w, y + t * h))
    .join('');
  const handle = rrect(x + 0.77 * w, y + 0.15 * h, 0.14 * w, 0.7 * h, 0.07 * w);
  const speed = [0, 120, 240].map((a) => arc(cx, cy, 0.8 * r, a + fan, a + 50 + fan)).join('');
  return [
    ...(fitted ? [line(bars, FINE, 'ink', { snap: true })] : []),
    shape(circle(cx, cy, r), fitted ? 'g1' : 'g2', FINE),
    ...blades(spec, fan),
    ...(running ? [line(speed, HAIR)] : []),
    solid(circle(cx, cy, 0.17 * r), 'ink'),
    ...(fitted
      ? [...dust(spec, dirt), solid(handle, 'ink', { snap: true })]
      : [line(handle, FINE, 'ink2', { dash: [3, 3], snap: true })]),
  ];
};

export const filter: Face<FilterSpec, FilterValue> = {
  natural: { w: 80, h: 58 },
  staticOps: ({ x, y, w, h, label }) => [
    shape(rrect(x, y, w, h, 5), 'sheet', LINE, 'ink', { snap: true }),
    ...(label ? [words(label, x + w / 2, y + h + 20, { bold: true, anchor: 'middle' })] : []),
  ],
  liveOps,
  tileBox: (spec) => {
    const at = (fan: number): FilterValue => ({ fitted: true, dirt: 1, fan, running: true });
    return boxOver(liveOps, spec, [0, 12, 24, 36, 48, 60].map(at));
  },
};
