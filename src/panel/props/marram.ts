import { between } from '../kit/dice.ts';
import { FINE, HAIR, LINE, line, type Op, shape, solid } from '../kit/ops.ts';
import { curve, num, type Point, smooth } from '../kit/path.ts';

/** One leaf: it rises, arches over and ends in a point; the more it leans the more its tip droops. */
function blade(x: number, y: number, tall: number, bend: number, half: number): string {
  const n = num;
  const droop = Math.min(0.5, (Math.abs(bend) / tall) * 0.42);
  const [tx, ty] = [x + bend, y - tall * (1 - droop)];
  const side = (dx: number): string =>
    `${n(x + dx)} ${n(y - tall * 0.5)} ${n(x + bend * 0.34 + dx)} ${n(y - tall * 1.02 - (bend > 0 ? -dx : dx) * 0.8)}`;
  const [c1, c2, c3, c4] = side(half).split(' ');
  return `M${n(x)} ${n(y)}C${side(-half)} ${n(tx)} ${n(ty)}C${c3} ${c4} ${c1} ${c2} ${n(x)} ${n(y)}Z`;
}

/** A tuft of marram rooted at x, y. `seed` chooses the tuft; the same seed is the same tuft. */
export function tuft(x: number, y: number, tall: number, seed: number, count = 15): Op[] {
  let d = '';
  for (let i = 0; i < count; i++) {
    const t = count === 1 ? 0 : (i / (count - 1)) * 2 - 1;
    const h = tall * (1 - 0.38 * t * t) * between(0.66, 1.08, seed, i, 1);
    const lean = t * tall * between(0.45, 0.8, seed, i, 2) + between(-0.12, 0.12, seed, i, 3) * tall;
    d += blade(x + t * tall * 0.1, y + 1, h, lean, tall * 0.021 + 0.7);
  }
  return [solid(d, 'ink')];
}

/** Stalks with seed heads, behind a tuft. */
export function seedHeads(x: number, y: number, tall: number, seed: number, count = 3): Op[] {
  return Array.from({ length: count }, (_, i) => i).flatMap((i) => {
    const lean = (i - (count - 1) / 2) * tall * 0.2 + between(-0.05, 0.1, seed, i, 7) * tall;
    const h = tall * between(0.82, 1.05, seed, i, 8);
    const [tx, ty] = [x + lean, y - h];
    const r = Math.max(1.6, tall * 0.022);
    const l = tall * 0.2;
    const n = num;
    const head = `M${n(tx)} ${n(ty - l)}C${n(tx + r * 1.5)} ${n(ty - l * 0.6)} ${n(tx + r * 1.3)} ${n(ty - l * 0.2)} ${n(tx)} ${n(ty)}C${n(tx - r * 1.3)} ${n(ty - l * 0.2)} ${n(tx - r * 1.5)} ${n(ty - l * 0.6)} ${n(tx)} ${n(ty - l)}Z`;
    return [
      line(curve([x + lean * 0.15, y], [x + lean * 0.2, y - h * 0.5], [x + lean * 0.6, y - h * 0.8], [tx, ty]), FINE),
      shape(head, 'sheet', FINE),
    ];
  });
}

/** A gull on the wing, `w` from tip to tip. */
export function gull(x: number, y: number, w: number): Op[] {
  const k = w / 40;
  const p = (dx: number, dy: number): string => `${num(x + dx * k)} ${num(y + dy * k)}`;
  const wings = `M${p(-20, -1)}C${p(-14, -8)} ${p(-7, -7)} ${p(0, 2.5)}C${p(6, -5)} ${p(12, -6)} ${p(20, -1.5)}C${p(13, -2)} ${p(8, 0)} ${p(3.5, 5.5)}C${p(1.5, 7)} ${p(-1.5, 7)} ${p(-3.2, 5.5)}C${p(-8, -1.5)} ${p(-13, -3)} ${p(-20, -1)}Z`;
  const tail = `M${p(-4, 5.4)}L${p(-7, 8.6)}M${p(3.6, 5.6)}L${p(7, 8.4)}`;
  return [shape(wings, 'sheet', w > 25 ? 1.3 : FINE), line(tail, w > 25 ? 1.3 : HAIR)];
}

/** Cloud: two thin ruled waves. */
export function cloud(x: number, y: number, w: number): Op[] {
  const wave = (x0: number, y0: number, len: number): string =>
    smooth(
      [0, 0.14, 0.3, 0.48, 0.66, 0.84, 1].map(
        (t, i): Point => [x0 + t * len, y0 + [0, -1.6, -0.4, 2, 2.6, 0.8, 0.6][i]! * (len / 90)],
      ),
    );
  return [line(wave(x, y, w) + wave(x + w * 0.3, y + 8, w * 0.85), HAIR, 'ink', { o: 0.7 })];
}

/** Short ruled lines of a calm sea, thinning towards the eye. */
export function seaLines(x: number, y: number, w: number, h: number, seed: number, rows = 9): Op {
  let d = '';
  for (let i = 0; i < rows; i++) {
    const t = i / rows;
    const ry = y + 5 + h * t ** 1.25;
    const n = Math.max(2, Math.round((w / 85) * (1.4 - 0.5 * t)));
    for (let j = 0; j < n; j++) {
      const len = between(16, 46, seed, i, j) * (0.6 + 0.5 * t);
      const lx = x + ((j + between(0.05, 0.75, seed, i, j, 4)) * w) / n;
      const r = Math.min(lx + len, x + w - 3);
      if (r - lx > 6) d += `M${num(lx)} ${num(ry)}L${num(r)} ${num(ry)}`;
    }
  }
  return line(d, FINE, 'ink', { o: 0.75, snap: true });
}

/** Grains of sand: a loose grid of dots inside a box; clip it to the dune. */
export function sand(x: number, y: number, w: number, h: number, seed: number, pitch = 11): Op {
  let d = '';
  for (let j = 0; j * pitch * 0.62 < h; j++)
    for (let i = 0; i * pitch < w; i++) {
      const px = x + (i + (j % 2) / 2) * pitch + between(-1.8, 1.8, seed, i, j);
      const py = y + j * pitch * 0.62 + between(-1, 1, seed, i, j, 1);
      const r = between(0.45, 1, seed, i, j, 2);
      d += `M${num(px - r)} ${num(py)}L${num(px)} ${num(py - r)}L${num(px + r)} ${num(py)}L${num(px)} ${num(py + r)}Z`;
    }
  return solid(d, 'ink', { o: 0.34 });
}

/** A line of a dune or a hill through points. */
export const ridgeLine = (points: readonly Point[], w: number = LINE): Op => line(smooth(points), w);
