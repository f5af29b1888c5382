import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holds, inkBox, pathBox } from '../../../src/panel/kit/bounds.ts';
import { line, place, solid, times, turn, within } from '../../../src/panel/kit/ops.ts';
import { snapPath } from '../../../src/panel/kit/painter.ts';
import { PAPER } from '../../../src/panel/kit/palette.ts';
import { arc, at, circle, num, poly, rect, rrect, seg, smooth } from '../../../src/panel/kit/path.ts';
import { svg } from '../../../src/panel/kit/svg.ts';

const SEED = { seed: 612 };
const coord = fc.double({ min: -2000, max: 2000, noNaN: true });

describe('paths', () => {
  it('refuse a number that is not finite', () => {
    expect(() => num(Number.NaN)).toThrow(RangeError);
    expect(() => circle(0, Number.POSITIVE_INFINITY, 2)).toThrow(RangeError);
  });

  it('keep a circle within two hundredths of its radius', () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 400, noNaN: true }), (r) => {
        const n = (circle(0, 0, r).match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
        // Cubic pieces: every third point after the first lies on the circle.
        for (let i = 0; i + 5 < n.length; i += 6) expect(Math.hypot(n[i]!, n[i + 1]!)).toBeCloseTo(r, 1);
      }),
      SEED,
    );
  });

  it('pass through all points of a smooth run', () => {
    const d = smooth([
      [0, 0],
      [10, 5],
      [20, -5],
    ]);
    for (const p of ['0 0', '10 5', '20 -5']) expect(d).toContain(p);
  });

  it('measure compass angles clockwise from up', () => {
    expect(at(0, 0, 1, 90)[0]).toBeCloseTo(1);
    expect(at(0, 0, 1, 0)[1]).toBeCloseTo(-1);
  });
});

describe('matrices', () => {
  it('turn about a point and keep it', () => {
    const m = turn(73, 5, 9);
    expect(m[0] * 5 + m[2] * 9 + m[4]).toBeCloseTo(5);
    expect(m[1] * 5 + m[3] * 9 + m[5]).toBeCloseTo(9);
  });

  it('apply the inner one first', () => {
    const m = times(place(100, 0), place(0, 0, 2));
    expect(m[0] * 3 + m[4]).toBe(106);
  });
});

describe('bounds', () => {
  it('hold what they bound, weights and turns included', () => {
    fc.assert(
      fc.property(coord, coord, fc.double({ min: 1, max: 90, noNaN: true }), (x, y, w) => {
        const box = inkBox([line(rect(x, y, w, w), 3)]);
        expect(holds(box, { left: x - 1.5, top: y - 1.5, right: x + w + 1.5, bottom: y + w + 1.5 })).toBe(true);
      }),
      SEED,
    );
    const turned = inkBox(within({ matrix: turn(90, 0, 0) }, [solid(rect(10, 0, 5, 2), 'ink')]));
    expect(turned.left).toBeCloseTo(-2);
    expect(turned.bottom).toBeCloseTo(15);
  });

  it('respect a clip', () => {
    const box = inkBox(within({ clip: rect(0, 0, 10, 10) }, [solid(rect(-50, 5, 200, 2), 'ink')]));
    expect(box).toEqual({ left: 0, top: 5, right: 10, bottom: 7 });
  });

  it('read every number of a path', () => {
    expect(pathBox(seg(-1.5, 2, 3, -4))).toEqual({ left: -1.5, top: -4, right: 3, bottom: 2 });
    expect(pathBox(arc(0, 0, 10, 0, 90)).right).toBeCloseTo(10, 1);
  });
});

describe('snapping', () => {
  const numbers = (d: string): number[] => (d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

  it('puts odd strokes on pixel middles and even ones on edges, whatever the scale', () => {
    fc.assert(
      fc.property(coord, coord, fc.constantFrom(1, 1.25, 1.5, 2, 3), (x, y, s) => {
        for (const v of numbers(snapPath(seg(x, y, x + 40, y), [0, 0], s, true)))
          expect(Math.abs((v * s) % 1)).toBeCloseTo(0.5, 5);
        for (const v of numbers(snapPath(seg(x, y, x + 40, y), [0, 0], s, false)))
          expect(Math.abs(v * s - Math.round(v * s))).toBeLessThan(1e-6);
      }),
      SEED,
    );
  });

  it('moves nothing by more than a device pixel', () => {
    const before = rrect(10.3, 20.7, 50.2, 30.1, 5);
    const [a, b] = [numbers(before), numbers(snapPath(before, [0, 0], 1, true))];
    expect(b).toHaveLength(a.length);
    a.forEach((v, i) => {
      expect(Math.abs(v - b[i]!)).toBeLessThanOrEqual(1);
    });
  });
});

describe('svg', () => {
  it('closes every group and escapes words', () => {
    const out = svg(
      [
        ...within({ clip: rect(0, 0, 5, 5), matrix: place(1, 1) }, [
          line(
            poly([
              [0, 0],
              [1, 1],
            ]),
          ),
        ]),
        { text: 'a<b', x: 0, y: 0, size: 14, fill: 'ink' },
      ],
      10,
      10,
      PAPER,
      'a & b',
    );
    expect(out.match(/<g/g)).toHaveLength(2);
    expect(out.match(/<\/g>/g)).toHaveLength(2);
    expect(out).toContain('a&lt;b');
    expect(out).toContain('a &amp; b');
  });
});
