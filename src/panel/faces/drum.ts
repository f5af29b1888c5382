import { boxOver, type Face, type Labelled } from '../kit/face.ts';
import { CAPITAL } from '../kit/metrics.ts';
import { EDGE, FINE, LINE, line, type Op, place, shape, solid, within, words } from '../kit/ops.ts';
import { rrect, seg } from '../kit/path.ts';

/** A wheel behind a window. x, y is the top left of the window; the ridge stands to its right, 0.22 of the height wide at most 9. */
export interface DrumSpec extends Labelled {
  x: number;
  y: number;
  /** 36 x 78 alone, 29 x 53 in a row, 14 x 22 in the whole view. */
  w: number;
  h: number;
  /** Type size; default 0.53 h. */
  size?: number;
  ridge?: boolean;
}

const DIGITS = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];
/** Degrees between neighbours, and the sine at which the wheel meets the window's edge. */
const STEP = 50;
const EDGE_SINE = 0.96;

/** Width with the ridge. */
export const drumWidth = (spec: DrumSpec): number => spec.w + (spec.ridge === false ? 0 : ridgeWidth(spec) + 1.5);

const ridgeWidth = ({ h }: DrumSpec): number => Math.min(9, 0.12 * h + 1);

function wheel(spec: DrumSpec, value: number): Op[] {
  const { x, y, w, h } = spec;
  const size = spec.size ?? (h < 36 ? 0.6 : 0.53) * h;
  const radius = h / 2 / EDGE_SINE;
  const middle = Math.round(value);
  // Small wheels show their neighbours only while they roll.
  const still = h < 36 && Math.abs(middle - value) < 0.02;
  return (still ? [0] : [-1, 0, 1]).flatMap((k) => {
    const angle = ((middle + k - value) * STEP * Math.PI) / 180;
    const flat = Math.cos(angle);
    if (flat <= 0.1) return [];
    const i = (((middle + k) % DIGITS.length) + DIGITS.length) % DIGITS.length;
    const cy = y + h / 2 + radius * Math.sin(angle);
    return within({ matrix: place(x + w / 2, cy, 1, flat) }, [
      words(DIGITS[i]!, 0, (CAPITAL * size) / 2, {
        size,
        bold: true,
        mono: true,
        anchor: 'middle',
        fill: Math.abs(middle + k - value) < 0.5 ? 'ink' : 'ink2',
      }),
    ]);
  });
}

/** Lines at equal angles along the wheel: they crowd where it turns away. */
function bend({ x, y, w, h }: DrumSpec): Op[] {
  const n = h > 60 ? 9 : h > 36 ? 6 : 3;
  return Array.from({ length: n }, (_, i) => {
    const s = (Math.sin(((40 + (34 * (i + 0.5)) / n) * Math.PI) / 180) / EDGE_SINE) * (h / 2);
    const d = seg(x, y + h / 2 - s, x + w, y + h / 2 - s) + seg(x, y + h / 2 + s, x + w, y + h / 2 + s);
    return line(d, h > 30 ? FINE : 0.8, 'ink', { cap: 'butt', o: 0.25 + (0.6 * i) / n });
  });
}

function ridge(spec: DrumSpec, value: number): Op[] {
  if (spec.ridge === false) return [];
  const { x, y, w, h } = spec;
  const [rx, ry, rw, rh] = [x + w + 1.5, y + 0.05 * h, ridgeWidth(spec), 0.9 * h];
  const turned = value * STEP;
  const cuts: string[] = [];
  for (let a = -80 - (((turned % 12) + 12) % 12); a < 80; a += 12) {
    const s = Math.sin((a * Math.PI) / 180) * (rh / 2);
    if (Math.abs(s) < rh / 2 - 1) cuts.push(seg(rx, ry + rh / 2 + s, rx + rw, ry + rh / 2 + s));
  }
  return [
    shape(rrect(rx, ry, rw, rh, 2), 'g1', h > 30 ? FINE : 0.8, 'ink', { snap: true }),
    line(cuts.join(''), h > 30 ? FINE : 0.7, 'ink', { cap: 'butt' }),
  ];
}

const liveOps = (spec: DrumSpec, value: number): Op[] => {
  const { x, y, w, h } = spec;
  const r = Math.min(4, h / 10);
  const frame = rrect(x, y, w, h, r);
  return [
    ...ridge(spec, value),
    solid(frame, 'sheet', { snap: true }),
    ...within({ clip: frame }, [...wheel(spec, value), ...bend(spec)]),
    line(frame, h > 60 ? EDGE - 0.4 : LINE, 'ink', { snap: true }),
  ];
};

/** Value: the digit, fractions while it rolls; it wraps. */
export const drum: Face<DrumSpec, number> = {
  natural: { w: 46, h: 78 },
  staticOps: (spec) =>
    spec.label ? [words(spec.label, spec.x + spec.w / 2, spec.y - 6, { anchor: 'middle', fill: 'ink2' })] : [],
  liveOps,
  tileBox: (spec) => boxOver(liveOps, spec, [0]),
};
