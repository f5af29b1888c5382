import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mark, sumUp, type Verdict } from '../../../src/core/marking/marking.ts';
import type { Stated } from '../../../src/core/marking/measure.ts';
import { readRecord, writeRecord } from '../../../src/core/record/format.ts';
import type { LineBody } from '../../../src/core/record/record.ts';
import { air, did, far, prints, recordOf, was, wrote } from './record-maker.ts';

const verdict = (of: number, go: boolean, critical: boolean, exercised = true): Verdict => ({
  id: 'x',
  title: 'X',
  standard: 's',
  critical,
  go,
  exercised,
  points: go ? of : 0,
  of,
  value: '',
  because: [],
  at_us: null,
});

describe('the mark', () => {
  // Essential items must each be passed, whatever the rest (patient-safety standard, Yudkowsky et al. 2014, Acad Med 89).
  it('one critical miss is NO-GO at 99 of 100', () => {
    expect(sumUp([verdict(99, true, false), verdict(1, false, true)], 80)).toMatchObject({
      verdict: 'NO-GO',
      score: 99,
    });
  });
  it('one critical miss is NO-GO at 95 %, and 84 % without one is GO at a pass mark of 84', () => {
    expect(sumUp([verdict(95, true, false), verdict(5, false, true)], 84).verdict).toBe('NO-GO');
    // 84 %: the mastery cut of Salzman 2020.
    expect(sumUp([verdict(84, true, true), verdict(16, false, false)], 84)).toMatchObject({ verdict: 'GO', score: 84 });
  });
  it('rounding never passes anybody', () => {
    expect(sumUp([verdict(7999, true, false), verdict(2001, false, false)], 80)).toMatchObject({
      verdict: 'NO-GO',
      score: 79.9,
    });
  });
  it('a critical measure that was not exercised is NO-GO', () => {
    expect(sumUp([verdict(99, true, false), verdict(1, false, true, false)], 80).verdict).toBe('NO-GO');
  });
  it('nothing weighs nothing', () => {
    expect(sumUp([], 80)).toMatchObject({ verdict: 'NO-GO', score: 0 });
  });
  it('any critical miss is NO-GO, and never is the score above what was earned', () => {
    const one = fc
      .tuple(fc.nat(100), fc.boolean(), fc.boolean())
      .map(([of, go, critical]) => verdict(of, go, critical));
    fc.assert(
      fc.property(fc.array(one, { maxLength: 30 }), fc.nat(100), (all, pass) => {
        const marked = sumUp(all, pass);
        const of = all.reduce((sum, m) => sum + m.of, 0);
        const points = all.reduce((sum, m) => sum + m.points, 0);
        expect(marked.score * of).toBeLessThanOrEqual(points * 100 + 1e-3);
        if (all.some((m) => m.critical && !m.go)) expect(marked.verdict).toBe('NO-GO');
        else expect(marked.verdict === 'GO').toBe(marked.score >= pass);
      }),
      { seed: 51, numRuns: 500 },
    );
  });
});

const stated = (kind: string, own: object): Stated =>
  ({ id: kind, title: kind, kind, weight: 10, critical: false, standard: '', ...own }) as Stated;
const ALL: Stated[] = [
  stated('order', {
    moments: [
      { k: 'do', control: 'a' },
      { k: 'far', what: 'called' },
    ],
  }),
  stated('state', { at: { k: 'do' }, which: 'every', need: [{ q: 'x.y', above: 2 }] }),
  stated('within', { from: { k: 'far' }, to: { k: 'do' }, seconds: 3, stretch: true }),
  stated('never', { what: { k: 'far', what: 'covered' }, while: [{ q: 'x.y', below: 3 }] }),
  stated('lasted', { while: [{ q: 'x.y', above: 1 }], seconds: 2, before: { k: 'air' } }),
  stated('copied', { at: 'QV7K', message: 'NR14', percent: 5 }),
  stated('logged', { entries: [{ like: '*A*', near: { k: 'air' }, minutes: 1 }] }),
  stated('airtime', { seconds: 5 }),
];
const sheet = {
  own: { call: 'QV4M' },
  papers: { messages: [{ id: 'NR14', lines: ['RY 12'] }] },
  measures: ALL,
  pass: 50,
};

const body: fc.Arbitrary<LineBody> = fc.oneof(
  fc.constantFrom('a', 'b').map((c) => did(c, true)),
  fc.integer({ min: 0, max: 4 }).map((v) => was('x.y', v)),
  fc.constantFrom(0, 80).map((w) => air(w)),
  fc.constantFrom('called', 'covered').map((w) => far(w)),
  fc.constantFrom('AB', 'C').map(wrote),
  fc.constantFrom('R', 'Y', ' ', '1', '2').map((c): LineBody => ({ k: 'print', at: 'QV7K', code: 4, c })),
);
const records = fc
  .tuple(fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), body), { maxLength: 40 }), fc.constantFrom(1, 2, 1.5))
  .map(([lines, stretch]) => {
    let t = 0;
    return recordOf(
      lines.map(([dt, b]) => {
        t += dt;
        return [t, b] as const;
      }),
      { stretch },
    );
  });

describe('a mark is a function of the record', () => {
  it('a record written and read again has the same mark', () => {
    fc.assert(
      fc.property(records, (record) => {
        const read = readRecord(writeRecord(record));
        if (!read.ok) throw new RangeError(JSON.stringify(read.errors));
        expect(mark(read.record, sheet)).toEqual(mark(record, sheet));
        expect(writeRecord(read.record)).toBe(writeRecord(record));
      }),
      { seed: 52, numRuns: 300 },
    );
  });
  it('marking changes nothing, and the same twice is the same', () => {
    fc.assert(
      fc.property(records, (record) => {
        const before = writeRecord(record);
        expect(mark(record, sheet)).toEqual(mark(record, sheet));
        expect(writeRecord(record)).toBe(before);
      }),
      { seed: 53, numRuns: 100 },
    );
  });
  it('what was not exercised earns nothing, and every reason is a line of the record', () => {
    fc.assert(
      fc.property(records, (record) => {
        for (const m of mark(record, sheet).measures) {
          if (!m.exercised) expect(m).toMatchObject({ go: false, points: 0, because: [], at_us: null });
          else if (m.id !== 'logged') expect(m.because.length).toBeGreaterThan(0);
          for (const i of m.because) expect(record.lines[i - 1]?.i).toBe(i);
          expect(m.points).toBeLessThanOrEqual(m.of);
          if (m.go) expect(m.points).toBe(m.of);
        }
      }),
      { seed: 54, numRuns: 300 },
    );
  });
  it('an unknown kind is a fault of the program', () => {
    expect(() => mark(recordOf([]), { ...sheet, measures: [stated('nope', {})] })).toThrow(RangeError);
  });
  it('prints of a whole message at 50 Bd come out right', () => {
    const copied = { ...sheet, measures: [ALL[5] as Stated] };
    expect(mark(recordOf(prints('RY 12', 'QV7K', 0)), copied).verdict).toBe('GO');
  });
});
