import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { timeWords } from '../../../src/panel/faces/clock.ts';
import { catenary } from '../../../src/panel/faces/jack.ts';
import { KEY_ROWS, keyBoxes } from '../../../src/panel/faces/keyboard.ts';
import { sailAngle } from '../../../src/panel/faces/sail.ts';
import { holesAt, rowAt, tapeWidth } from '../../../src/panel/faces/tape.ts';
import { tiller } from '../../../src/panel/faces/tiller.ts';
import { isText } from '../../../src/panel/kit/bounds.ts';

describe('a hanging cord', () => {
  const long = (p: readonly (readonly [number, number])[]): number =>
    p.slice(1).reduce((n, [x, y], i) => n + Math.hypot(x - p[i]![0], y - p[i]![1]), 0);

  it('ends at its plugs and has its length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 200, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 1.2, max: 2.5, noNaN: true }),
        (h, v, slack) => {
          const want = slack * Math.hypot(h, v);
          const p = catenary([0, 0], [h, v], want, 201);
          expect(p[200]![0]).toBeCloseTo(h, 6);
          expect(p[200]![1]).toBeCloseTo(v, 4);
          expect(long(p) / want).toBeGreaterThan(0.995);
          expect(long(p) / want).toBeLessThan(1.001);
        },
      ),
      { seed: 3 },
    );
  });
});

describe('tape', () => {
  // ECMA-10 / ISO 1154 style: units in order across the tape with the feed holes between units 2 and 3 (common practice for five-unit tape).
  it('has the feed between units 2 and 3 and as many holes as the code has ones', () => {
    for (let code = 0; code < 32; code++) {
      const holes = (holesAt(code, 0, 0, 10).match(/M/g) ?? []).length;
      expect(holes).toBe([...code.toString(2)].filter((b) => b === '1').length);
    }
    expect(rowAt(1, 10)).toBeLessThan(rowAt(2, 10));
    expect(rowAt(2, 10)).toBeLessThan(rowAt(3, 10));
    expect(rowAt(5, 10)).toBeLessThan(tapeWidth(10));
  });
});

describe('keys', () => {
  it('do not overlap, and there is one for each letter', () => {
    const all = keyBoxes({ x: 0, y: 0, w: 550, row: 36 });
    for (const a of all)
      for (const b of all)
        if (a !== b) {
          const apart =
            a.box.right <= b.box.left ||
            b.box.right <= a.box.left ||
            a.box.bottom <= b.box.top ||
            b.box.bottom <= a.box.top;
          expect([a.key.id, b.key.id, apart]).toEqual([a.key.id, b.key.id, true]);
        }
    const letters = all.map((k) => k.key.id).filter((id) => id.length === 1);
    expect([...letters].sort().join('')).toBe('ABCDEFGHIJKLMNOPQRSTUVWXYZ');
    for (const { box } of all) {
      expect(box.right - box.left).toBeGreaterThanOrEqual(32);
      expect(box.bottom - box.top).toBeGreaterThanOrEqual(32);
    }
  });

  // ITU-T Rec. S.1, figures case: the rows that are not national or service signals.
  it('print the figures of the standard', () => {
    const of = Object.fromEntries(KEY_ROWS.flatMap((r) => r.keys).map((k) => [k.id, k.figure]));
    const table = {
      Q: '1',
      W: '2',
      E: '3',
      R: '4',
      T: '5',
      Y: '6',
      U: '7',
      I: '8',
      O: '9',
      P: '0',
      A: '-',
      B: '?',
      C: ':',
      K: '(',
      L: ')',
      M: '.',
      N: ',',
      S: "'",
      V: '=',
      X: '/',
      Z: '+',
    };
    for (const [id, figure] of Object.entries(table)) expect([id, of[id]]).toEqual([id, figure]);
    for (const id of ['F', 'G', 'H', 'D', 'J']) expect(of[id]).toBeUndefined();
  });
});

describe('the chosen word', () => {
  it('is the only bold one', () => {
    for (const chosen of [0, 1, 2]) {
      const ops = tiller.liveOps({ x: 0, y: 0, length: 70, words: ['OUT', 'STEADY', 'IN'] }, chosen).filter(isText);
      expect(ops.map((o) => o.bold)).toEqual([0, 1, 2].map((i) => i === chosen));
    }
  });
});

describe('the clock', () => {
  it('writes the time as the log does', () => {
    expect(timeWords(13 * 3600 + 54 * 60 + 20)).toBe('13 54 20');
    expect(timeWords(86400 + 59.9)).toBe('00 00 59');
  });
});

describe('a sail', () => {
  const spec = { x: 0, y: 0, s: 125, min: 0, max: 120, step: 10 };

  it('swings from left to up over its scale and rests just past the ends', () => {
    expect(sailAngle(spec, 0)).toBe(-90);
    expect(sailAngle(spec, 60)).toBe(-45);
    expect(sailAngle(spec, 120)).toBe(0);
    expect(sailAngle(spec, 5000)).toBeLessThan(4);
    expect(sailAngle(spec, -5000)).toBeGreaterThan(-94);
  });
});
