import fc from 'fast-check';
import { expect, test } from 'vitest';
import { measureDistortion, withBias } from '../../../src/core/telegraphy/distortion.ts';
import { encode } from '../../../src/core/telegraphy/ita2.ts';
import { charsInStep, selectorAtRest, selectorRun } from '../../../src/core/telegraphy/selector.ts';
import {
  charEdges,
  codesEdges,
  type Edge,
  invertEdges,
  levelAt,
  SPEEDS_Bd,
  STOPS_units,
  unit_us,
  wordsPerMinute,
} from '../../../src/core/telegraphy/startstop.ts';

const QUICK = encode('THE QUICK BROWN FOX JUMPS OVER THE LAZY DOG 1234567890').codes;
const read = (edges: readonly Edge[], baud: number, until_us: number, range = 50) =>
  selectorRun(selectorAtRest(), edges, until_us, { baud, range }).chars;
const same = (chars: readonly { code: number }[], codes: readonly number[]) =>
  chars.length === codes.length && chars.every((c, i) => c.code === codes[i]);

test('unit lengths and words a minute of the usual speeds (common practice: 22 ms at 60 wpm, 13.477 ms at 74.2 Bd)', () => {
  expect(unit_us(45.45)).toBeCloseTo(22002.2, 1);
  expect(unit_us(50)).toBe(20000);
  expect(unit_us(74.2)).toBeCloseTo(13477.1, 1);
  expect(wordsPerMinute(45.45, 1.42)).toBeCloseTo(61.3, 1);
  expect(wordsPerMinute(50, 1.5)).toBeCloseTo(66.7, 1);
  expect(wordsPerMinute(56.92, 1.42)).toBeCloseTo(76.7, 1);
  expect(wordsPerMinute(75, 1)).toBeCloseTo(107.1, 1);
});

test('R at 50 Bd: start, 01010, stop', () => {
  const { edges, end_us } = charEdges(0x0a, 1000, 50, 1.5);
  expect(edges.map((e) => [e.t_us, e.mark])).toEqual([
    [1000, false],
    [41000, true],
    [61000, false],
    [81000, true],
    [101000, false],
    [121000, true],
  ]);
  expect(end_us).toBe(151000);
});

test('any codes at any speed and stop read back clean, with full margin', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 31 }), { minLength: 1, maxLength: 30 }),
      fc.constantFrom(...SPEEDS_Bd),
      fc.constantFrom(...STOPS_units),
      (codes, baud, stop) => {
        const { edges, end_us } = codesEdges(codes, 5000, baud, stop);
        const chars = read(edges, baud, end_us);
        expect(chars.map((c) => c.code)).toEqual(codes);
        for (const c of chars) {
          expect(c.stopOk).toBe(true);
          expect(c.margin).toBeGreaterThan(49.9);
        }
      },
    ),
    { seed: 2 },
  );
});

test('reading in pieces equals reading at once', () => {
  const { edges, end_us } = codesEdges(QUICK, 1000, 50, 1.5);
  fc.assert(
    fc.property(fc.integer({ min: 1000, max: 400_000 }), (step) => {
      let state = selectorAtRest(-1);
      const chars: unknown[] = [];
      for (let t = 0; t < end_us + step; t += step) {
        const out = selectorRun(JSON.parse(JSON.stringify(state)), edges, t, { baud: 50 });
        state = out.state;
        chars.push(...out.chars);
      }
      expect(chars).toEqual(selectorRun(selectorAtRest(-1), edges, end_us, { baud: 50 }).chars);
    }),
    { seed: 3, numRuns: 20 },
  );
});

test('mid-unit sampling of unit 5 stands 5.5 units after the start: 8 % of speed error reads, 10 % does not', () => {
  for (const error of [-0.08, 0.08]) {
    const { edges, end_us } = codesEdges(QUICK, 1000, 50, 1.5, error);
    expect(same(read(edges, 50, end_us + 20000), QUICK), `${error}`).toBe(true);
  }
  for (const error of [-0.1, 0.1]) {
    const { edges, end_us } = codesEdges(QUICK, 1000, 50, 1.5, error);
    expect(same(read(edges, 50, end_us + 20000), QUICK), `${error}`).toBe(false);
  }
});

test('45.45 read at 50 Bd is unreadable, 74.2 read at 75 Bd prints with about 6 % of a unit lost', () => {
  const slow = codesEdges(QUICK, 1000, 45.45, 1.5);
  expect(same(read(slow.edges, 50, slow.end_us), QUICK)).toBe(false);
  const near = codesEdges(QUICK, 1000, 74.2, 1.42);
  const chars = read(near.edges, 75, near.end_us);
  expect(same(chars, QUICK)).toBe(true);
  const least = chars.reduce((m, c) => Math.min(m, c.margin), 50);
  expect(least).toBeGreaterThan(50 - 6.5);
  expect(least).toBeLessThan(50 - 5);
});

test('an open line runs the machine open: blanks, one after another, without a stop', () => {
  const out = selectorRun(selectorAtRest(-1), [{ t_us: 0, mark: false }], 1_000_000, { baud: 50 }).chars;
  expect(out.length).toBe(7); // 6.75 units of 20 ms each turn
  expect(out.every((c) => c.code === 0 && !c.stopOk)).toBe(true);
});

test('an edge at the very instant of a sample has happened', () => {
  // Start at 0, mark from 1.5 units: unit 1 is sampled at 30 ms and is mark.
  const line = [
    { t_us: 0, mark: false },
    { t_us: 30_000, mark: true },
  ];
  const [char] = selectorRun(selectorAtRest(-1), line, 200_000, { baud: 50 }).chars;
  expect(char).toMatchObject({ start_us: 0, code: 31, margin: 0 });
});

test('an inverted line never prints clean', () => {
  const { edges, end_us } = codesEdges(QUICK, 1000, 50, 1.5);
  const inverted = [{ t_us: 1, mark: false }, ...invertEdges(edges)];
  const chars = read(inverted, 50, end_us);
  const right = chars.filter((c, i) => c.code === QUICK[i]).length;
  expect(right / QUICK.length).toBeLessThan(0.2);
});

test('range moves the sample: bias of 40 % to mark is read at 70 % into the unit and misread at 30 %', () => {
  const clean = codesEdges(QUICK, 1000, 50, 1.5);
  const biased = withBias(clean.edges, 50, 40);
  const wide = read(biased, 50, clean.end_us, 50);
  expect(same(wide, QUICK)).toBe(true);
  expect(wide.reduce((m, c) => Math.min(m, c.margin), 50)).toBeCloseTo(10, 6);
  expect(same(read(biased, 50, clean.end_us, 70), QUICK)).toBe(false);
  expect(same(read(biased, 50, clean.end_us, 30), QUICK)).toBe(true);
});

test('distortion: the terms of FS-1037C on a line with known faults', () => {
  const clean = codesEdges(QUICK, 1000, 50, 1.5);
  const none = measureDistortion(clean.edges, 50);
  expect(none).toMatchObject({ characters: QUICK.length, degree: 0, bias: 0 });
  const marking = measureDistortion(withBias(clean.edges, 50, 20), 50);
  expect(marking.bias).toBeCloseTo(20, 9);
  expect(marking.early).toBeCloseTo(-20, 9);
  expect(marking.degree).toBeCloseTo(20, 9);
  expect(marking.end).toBeCloseTo(0, 9);
  expect(measureDistortion(withBias(clean.edges, 50, -15), 50).bias).toBeCloseTo(-15, 9);
});

test('a stretch cut anywhere amid clean traffic is as clean as the whole', () => {
  const { edges } = codesEdges(QUICK, 1000, 50, 1.5);
  for (let cut = 1; cut < edges.length - 20; cut++) {
    const { characters, degree } = measureDistortion(edges.slice(cut), 50);
    expect({ cut, degree }).toEqual({ cut, degree: 0 });
    expect(characters).toBeGreaterThan(0);
  }
  fc.assert(
    fc.property(fc.integer({ min: 1, max: edges.length - 20 }), fc.integer({ min: -40, max: 40 }), (cut, bias) => {
      const bent = withBias(edges, 50, bias);
      expect(measureDistortion(bent.slice(cut), 50).degree).toBeLessThanOrEqual(measureDistortion(bent, 50).degree);
    }),
    { seed: 17 },
  );
});

test('the late edge of a lone character is seen, whatever part of it has come, and so is one in running traffic', () => {
  const late = (edges: readonly Edge[], i: number) =>
    edges.map((e, k) => (k === i ? { ...e, t_us: e.t_us + 8000 } : e));
  const lone = late(codesEdges(encode('Y').codes, 1000, 50, 1.5).edges, 1);
  for (let n = 2; n <= lone.length; n++) expect(measureDistortion(lone.slice(0, n), 50).degree).toBeCloseTo(40, 9);
  const { edges } = codesEdges(QUICK, 1000, 50, 1.5);
  for (const i of [1, 9, 40]) expect(measureDistortion(late(edges, i), 50).degree).toBeCloseTo(40, 9);
});

test('a less sure first letter is read all the same', () => {
  for (const [text, bias] of [
    ['Y', 0],
    ['YY', 20],
  ] as const) {
    const codes = [...encode(text).codes, 31];
    const { edges, end_us } = codesEdges(codes, 1000, 50, 1.5);
    const read = charsInStep(withBias(edges, 50, bias), end_us, { baud: bias ? 50 : 50.5 });
    expect(read.map((c) => c.code)).toEqual(codes);
  }
});

test('a stretch cut anywhere amid traffic is read in step from its first whole character', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 60 }), fc.integer({ min: -25, max: 25 }), (cut, bias) => {
      const { edges, end_us } = codesEdges(QUICK, 1000, 50, 1.5);
      const left = withBias(edges, 50, bias).slice(cut);
      const read = charsInStep(left, end_us, { baud: 50 }).map((c) => c.code);
      expect(read).toEqual(QUICK.slice(-read.length));
      const lost = QUICK.length - read.length;
      const edgesOf = (n: number) => codesEdges(QUICK.slice(0, n), 1000, 50, 1.5).edges.length;
      // No letter is lost but those of which an edge is.
      expect(cut).toBeGreaterThan(lost === 0 ? -1 : edgesOf(lost - 1));
    }),
    { seed: 18 },
  );
});

test('gross distortion of a sender 2 % slow is 2 % of the six units to its last edge', () => {
  const slow = codesEdges(QUICK, 1000, 50, 1.5, -0.02);
  expect(measureDistortion(slow.edges, 50).degree).toBeCloseTo((600 * 0.02) / 0.98, 1);
});

test('level of a line at, before and after its edges', () => {
  const edges = [
    { t_us: 10, mark: false },
    { t_us: 20, mark: true },
  ];
  expect([9, 10, 19, 20, 99].map((t) => levelAt(edges, t))).toEqual([true, false, false, true, true]);
  expect(() => unit_us(0)).toThrow(RangeError);
});
