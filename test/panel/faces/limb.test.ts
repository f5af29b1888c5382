/** The rim and its index: what stands under the index is what the scale says, and it moves the right way. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { limb } from '../../../src/panel/faces/limb.ts';
import type { Op, PathOp } from '../../../src/panel/kit/ops.ts';

const SPEC = { x: 100, y: 50, w: 330, h: 46, bow: 27, span: 34, step: 1 };
const inked = (middle: number, index: number) => limb.liveOps(SPEC, { middle, index, low: 4000, wide: 2000 });

/** The figure `text` as it stands on the sheet, by the matrix it is turned with. */
function figure(ops: readonly Op[], text: string): [number, number] {
  const i = ops.findIndex((op) => 'text' in op && op.text === text);
  const [word, turned] = [ops[i], ops[i - 1]];
  if (!word || !('text' in word) || !turned || !('push' in turned)) throw new Error(`no figure ${text}`);
  const [a, b, c, d, e, f] = turned.push.matrix!;
  return [a * word.x + c * word.y + e, b * word.x + d * word.y + f];
}

/** Both ends of the index's hair line: the last but one thing drawn. */
function hair(ops: readonly Op[]): [number, number, number, number] {
  const [x1, y1, x2, y2] = (ops.at(-2) as PathOp).d.match(/-?[\d.]+/g)!.map(Number);
  return [x1!, y1!, x2!, y2!];
}

/** How far the figure stands from the hair line, to its right, points. */
function beside(ops: readonly Op[], text: string): number {
  const [x1, y1, x2, y2] = hair(ops);
  const [x, y] = figure(ops, text);
  return ((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / Math.hypot(x2 - x1, y2 - y1) || 0;
}

test('the figure of the sum of rim and index stands under the index', () => {
  fc.assert(
    fc.property(fc.integer({ min: -1000, max: 1000 }), (hundredths) => {
      const index = hundredths / 100;
      expect(Math.abs(beside(inked(4710 - index, index), '4 710'))).toBeLessThan(0.1);
    }),
  );
});

test('higher figures stand to the right, a kilohertz is a thirty-fourth of the window, and the bead goes with the dial', () => {
  const ops = inked(4710, 0);
  const off = beside(ops, '4 720');
  expect(Math.abs(off)).toBeGreaterThan((10 / SPEC.span) * SPEC.w * 0.8);
  expect(figure(ops, '4 720')[0]).toBeGreaterThan(figure(ops, '4 710')[0]);
  const bead = (middle: number) =>
    Number(
      (inked(middle, 0).filter((op) => 'd' in op && op.fill === 'ink' && op.stroke === 'sheet')[0] as PathOp).d.match(
        /[\d.]+/,
      )![0],
    );
  expect(bead(4100)).toBeLessThan(bead(5000));
  expect(bead(5000)).toBeCloseTo(SPEC.x + SPEC.w / 2, 0);
});

test('no figure is cut by the ends of the window: it is drawn whole or not at all', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2000 }), (hundredths) => {
      const ops = inked(4700 + hundredths / 100, 0);
      const drawn = ops.flatMap((op) => ('text' in op ? [figure(ops, op.text)[0]] : []));
      expect(drawn.length).toBeGreaterThan(1);
      // Three figures at 17 points are some 28 wide, and near the ends they stand aslant.
      for (const x of drawn) expect([x - 13 > SPEC.x, x + 13 < SPEC.x + SPEC.w]).toEqual([true, true]);
    }),
  );
});
