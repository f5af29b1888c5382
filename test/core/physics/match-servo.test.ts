import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arrived,
  MATCH_POSITIONS,
  MATCH_TICK_MS,
  type MatchPosition,
  matchAt,
  motorStep,
  nearestPosition,
  withinReach,
} from '../../../src/core/physics/match-motors.ts';
import { MATCH_GOOD, type MatchSearch, servoStep, startSearch } from '../../../src/core/physics/match-servo.ts';
import { inputImpedance, type Load, lMatch, reflection, withGround } from '../../../src/core/physics/matching.ts';
import { whipImpedance } from '../../../src/core/physics/whip.ts';

const aerial = (f_MHz: number, sections: number, ground: number): Load =>
  withGround(whipImpedance({ f_MHz, h_m: 1.3 * sections, a_m: 0.01 }), ground);

const backAt = (f_MHz: number, load: Load, at: MatchPosition): number =>
  reflection(inputImpedance(f_MHz, load, matchAt(at)), 1).back;

function search(f_MHz: number, load: Load, from: MatchPosition): MatchSearch {
  let s = startSearch(f_MHz, from);
  for (let tick = 0; tick < 6000; tick++) {
    const next = servoStep(s, backAt(f_MHz, load, s.at));
    if (next === s) return s;
    s = next;
  }
  throw new Error(`no end after 6000 ticks: ${JSON.stringify(s)}`);
}

const anywhere = fc.record({
  coil: fc.integer({ min: 0, max: MATCH_POSITIONS }),
  loading: fc.integer({ min: 0, max: MATCH_POSITIONS }),
  side: fc.constantFrom('sender' as const, 'whip' as const),
});

describe('motors', () => {
  it('cover the full travel in 8 s', () => {
    let at: MatchPosition = { coil: 0, loading: MATCH_POSITIONS, side: 'sender' };
    const goal: MatchPosition = { coil: MATCH_POSITIONS, loading: 0, side: 'whip' };
    let ticks = 0;
    for (; !arrived(at, goal); ticks++) at = motorStep(at, goal);
    expect(ticks * MATCH_TICK_MS).toBe(8000);
  });

  it('give back the position of any position', () => {
    fc.assert(
      fc.property(anywhere, (at) => {
        expect(nearestPosition(matchAt(at))).toEqual(at);
      }),
      { seed: 5 },
    );
  });

  it('refuse a position off the scale', () => {
    expect(() => matchAt({ coil: 4001, loading: 0, side: 'sender' })).toThrow(/4001/);
    expect(() => matchAt({ coil: 1.5, loading: 0, side: 'sender' })).toThrow(/1.5/);
  });
});

describe('search', () => {
  it('finds every setting that the parts can reach, from any stored position', () => {
    const f = fc.double({ min: 1.8, max: 17, noNaN: true });
    const sections = fc.integer({ min: 1, max: 4 });
    const ground = fc.double({ min: 5, max: 25, noNaN: true });
    fc.assert(
      fc.property(f, sections, ground, anywhere, (f_MHz, n, ohm, from) => {
        const load = aerial(f_MHz, n, ohm);
        const exact = lMatch(f_MHz, load);
        const end = search(f_MHz, load, from);
        if (end.phase === 'found') expect(backAt(f_MHz, load, end.at)).toBeLessThanOrEqual(MATCH_GOOD);
        else expect(exact !== null && withinReach(exact), `${f_MHz} MHz, ${n} sections, ${ohm} ohm`).toBe(false);
      }),
      { seed: 6, numRuns: 300 },
    );
  });

  it('takes seconds, not minutes, and less when the stored position is near', () => {
    const load = aerial(7, 4, 10);
    const exact = nearestPosition(lMatch(7, load)!);
    const near = search(7, load, { ...exact, coil: exact.coil + 10, loading: exact.loading + 60 });
    const far = search(7, load, { coil: 4000, loading: 4000, side: 'whip' });
    expect(near.ticks * MATCH_TICK_MS).toBeLessThan(3000);
    expect(far.ticks * MATCH_TICK_MS).toBeLessThan(30_000);
    expect(near.ticks).toBeLessThan(far.ticks);
  });

  it('is guided by the dip: the whole whip from far away takes 12 s on average and 22 s at most, with a meter of 500 steps', () => {
    const seconds: number[] = [];
    for (let n = 0; n <= 76; n++) {
      const f_MHz = 1.8 + n / 5;
      const load = aerial(f_MHz, 4, 10);
      let s = startSearch(f_MHz, { coil: 3000, loading: 1500, side: 'sender' });
      while (s.phase !== 'found' && s.ticks < 6000) s = servoStep(s, Math.round(500 * backAt(f_MHz, load, s.at)) / 500);
      seconds.push((s.ticks * MATCH_TICK_MS) / 1000);
    }
    expect(Math.max(...seconds)).toBeLessThan(22);
    expect(seconds.reduce((sum, x) => sum + x, 0) / seconds.length).toBeLessThan(12);
  });

  it('fails when the coil is too small: two sections left at 1.8 MHz', () => {
    const end = search(1.8, aerial(1.8, 2, 10), { coil: 0, loading: 0, side: 'sender' });
    expect(end.phase).toBe('failed');
    expect(servoStep(end, 0.9)).toBe(end);
  });

  it('fails on an open lead, where all comes back everywhere', () => {
    let s = startSearch(5, { coil: 100, loading: 100, side: 'sender' });
    for (let tick = 0; tick < 1000; tick++) s = servoStep(s, 1);
    expect(s.phase).toBe('failed');
  });

  it('is plain data: a search saved and restored at any tick ends in the same place', () => {
    const load = aerial(12, 4, 10);
    const whole = search(12, load, { coil: 900, loading: 10, side: 'sender' });
    let s = startSearch(12, { coil: 900, loading: 10, side: 'sender' });
    while (s.phase !== 'found') s = servoStep(JSON.parse(JSON.stringify(s)), backAt(12, load, s.at));
    while (!arrived(s.at, s.goal)) s = servoStep(s, backAt(12, load, s.at));
    expect(s).toEqual(whole);
  });

  it('refuses a meter that reads outside 0 to 1', () => {
    const s = startSearch(5, { coil: 0, loading: 0, side: 'sender' });
    expect(() => servoStep(s, 1.1)).toThrow(RangeError);
    expect(() => servoStep(s, Number.NaN)).toThrow(RangeError);
    expect(() => startSearch(0, { coil: 0, loading: 0, side: 'sender' })).toThrow(RangeError);
  });
});
