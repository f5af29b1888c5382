import { ASCENT, DESCENT, textWidth } from './metrics.ts';
import { type Matrix, type Op, type PathOp, type TextOp, times } from './ops.ts';

/** A box in sheet units. */
export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const NONE: Box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
const ONE: Matrix = [1, 0, 0, 1, 0, 0];
/** The heaviest palette multiplies weights by this. */
const HEAVIEST = 1.4;

export const isPath = (op: Op): op is PathOp => 'd' in op;
export const isText = (op: Op): op is TextOp => 'text' in op;

/** The smallest box round both. */
export const join = (a: Box, b: Box): Box => ({
  left: Math.min(a.left, b.left),
  top: Math.min(a.top, b.top),
  right: Math.max(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
});

const meet = (a: Box, b: Box): Box => ({
  left: Math.max(a.left, b.left),
  top: Math.max(a.top, b.top),
  right: Math.min(a.right, b.right),
  bottom: Math.min(a.bottom, b.bottom),
});

/** A box grown by d on every side. */
export const grow = (b: Box, d: number): Box => ({
  left: b.left - d,
  top: b.top - d,
  right: b.right + d,
  bottom: b.bottom + d,
});

/** Whether outer holds inner. */
export const holds = (outer: Box, inner: Box): boolean =>
  outer.left <= inner.left && outer.top <= inner.top && outer.right >= inner.right && outer.bottom >= inner.bottom;

function corner(m: Matrix, x: number, y: number): Box {
  const [px, py] = [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
  return { left: px, top: py, right: px, bottom: py };
}

const through = (m: Matrix, b: Box): Box =>
  [
    corner(m, b.left, b.top),
    corner(m, b.right, b.top),
    corner(m, b.left, b.bottom),
    corner(m, b.right, b.bottom),
  ].reduce(join);

/** Bounds of the control points of a path, which hold the path. */
export function pathBox(d: string, m: Matrix = ONE): Box {
  const n = d.match(/-?\d+(\.\d+)?/g) ?? [];
  let box = NONE;
  for (let i = 0; i + 1 < n.length; i += 2) box = join(box, corner(m, Number(n[i]), Number(n[i + 1])));
  return box;
}

function textBox(op: TextOp): Box {
  const width = textWidth(op.text, op.size, op.mono);
  const left = op.x - (op.anchor === 'middle' ? width / 2 : op.anchor === 'end' ? width : 0);
  return { left, top: op.y - ASCENT * op.size, right: left + width, bottom: op.y + DESCENT * op.size };
}

/** A box that holds all the ink of the ops at the heaviest palette; infinite inside out if there is none. */
export function inkBox(ops: readonly Op[]): Box {
  const stack: { m: Matrix; clip: Box | null }[] = [{ m: ONE, clip: null }];
  let all = NONE;
  for (const op of ops) {
    const now = stack[stack.length - 1]!;
    if ('pop' in op) stack.pop();
    else if ('push' in op) {
      const m = op.push.matrix ? times(now.m, op.push.matrix) : now.m;
      const cut = op.push.clip ? pathBox(op.push.clip, m) : null;
      stack.push({ m, clip: cut && now.clip ? meet(cut, now.clip) : (cut ?? now.clip) });
    } else {
      let box: Box;
      if (isText(op)) box = through(now.m, textBox(op));
      else {
        const scale = Math.sqrt(Math.abs(now.m[0] * now.m[3] - now.m[1] * now.m[2]));
        box = grow(pathBox(op.d, now.m), op.stroke ? ((op.w ?? 1) * HEAVIEST * Math.max(1, scale)) / 2 : 0);
      }
      if (now.clip) box = meet(box, now.clip);
      if (box.left <= box.right && box.top <= box.bottom) all = join(all, box);
    }
  }
  return all;
}
