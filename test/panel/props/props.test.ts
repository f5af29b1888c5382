import { describe, expect, it } from 'vitest';
import { inkBox, isPath } from '../../../src/panel/kit/bounds.ts';
import { fieldLines } from '../../../src/panel/props/field.ts';
import { pictureOps } from '../../../src/panel/props/picture.ts';
import { shelterOps } from '../../../src/panel/props/shelter.ts';
import { KEYDOWN, titleStrip } from '../../../src/panel/props/titlestrip.ts';

describe('field lines', () => {
  const spec = { x: 0, y: 0, wavelength: 128, reach: 470, phase: 0.3 };

  // Hertz's solution for a short current: along a line, sin² of the polar angle times (cos u / kr + sin u) stays the same.
  it('are contours of the stream function of a short current', () => {
    const k = (2 * Math.PI) / spec.wavelength;
    for (const { level, points } of fieldLines(spec))
      for (const [x, y] of points.slice(1, -1)) {
        const r = Math.hypot(x, y);
        const u = k * r - 2 * Math.PI * spec.phase;
        const f = Math.cos(u) / (k * r) + Math.sin(u);
        expect(Math.abs((x / r) ** 2 * f)).toBeCloseTo(level, 3);
      }
  });

  it('stand on the ground, and repeat after one turn of the carrier', () => {
    for (const { points } of fieldLines(spec)) {
      const [x, y] = points[0]!;
      if (Math.hypot(x, y) < spec.reach - 1) expect(y).toBeLessThan(2.5);
    }
    expect(fieldLines({ ...spec, phase: 1.3 })).toHaveLength(fieldLines(spec).length);
  });
});

describe('the title strip', () => {
  // ITU-T Rec. S.1, units 1 to 5 of K E Y D O W N.
  it('spells the name in the standard code', () => {
    const rows = ['11110', '10000', '10101', '10010', '00011', '11001', '00110'];
    const units = KEYDOWN.map((c) => [0, 1, 2, 3, 4].map((i) => (c >> i) & 1).join(''));
    expect(units).toEqual(rows);
    const holes = titleStrip({ x: 24, y: 22, w: 1224, h: 106 }).filter(isPath).at(-1)!;
    const ones = rows.join('').replaceAll('0', '').length;
    expect((holes.d.match(/M/g) ?? []).length).toBeGreaterThan(ones);
  });
});

describe('pictures', () => {
  it('stay inside their frames, wide or square', () => {
    for (const [w, h] of [
      [612, 524],
      [358, 195],
      [700, 250],
    ] as const) {
      const box = inkBox(pictureOps({ x: 24, y: 150, w, h, name: 'Marram 4' }));
      expect(box.left).toBeGreaterThanOrEqual(22);
      expect(box.right).toBeLessThanOrEqual(24 + w + 2);
      expect(box.top).toBeGreaterThanOrEqual(148);
      expect(box.bottom).toBeLessThanOrEqual(150 + h + 2);
    }
  });

  it('use neither persimmon nor sea-green, for nothing runs there', () => {
    const ops = pictureOps({ x: 0, y: 0, w: 612, name: 'Marram 4' }).filter(isPath);
    expect(ops.filter((o) => [o.fill, o.stroke].some((i) => i === 'persimmon' || i === 'sea'))).toEqual([]);
  });

  it('draw the shelter without a NaN', () => {
    expect(JSON.stringify(shelterOps([{ key: '1', name: 'Power' }]))).not.toMatch(/NaN|null/);
  });
});
