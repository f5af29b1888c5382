import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cancel, newQueue, schedule, takeDue } from '../../../src/core/kernel/queue.ts';
import { micros } from '../../../src/core/quantity/quantity.ts';

describe('queue', () => {
  it('gives what is due in order of time, then in the order it was set', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { maxLength: 60 }), (delays) => {
        const q = newQueue();
        for (const [i, d] of delays.entries()) schedule(q, d, 'x', i);
        const got: number[] = [];
        for (let due = takeDue(q, micros(100)); due; due = takeDue(q, micros(100))) got.push(due.event as number);
        const want = delays.map((d, i) => [d, i] as const).sort(([a, i], [b, j]) => a - b || i - j);
        expect(got).toEqual(want.map(([, i]) => i));
      }),
      { seed: 2 },
    );
  });

  it('moves the clock to the due instant, then to the end of the wait, never back', () => {
    const q = newQueue();
    schedule(q, 50, 'x', null);
    expect(takeDue(q, micros(40))).toBeUndefined();
    expect(q.now_us).toBe(40);
    expect(takeDue(q, micros(90))?.due_us).toBe(50);
    expect(q.now_us).toBe(50);
    expect(takeDue(q, micros(20))).toBeUndefined();
    expect(q.now_us).toBe(50);
  });

  it('forgets only what was named', () => {
    const q = newQueue();
    schedule(q, 1, 'a', 1);
    schedule(q, 1, 'a', 2);
    schedule(q, 1, 'b', 1);
    cancel(q, 'a', (e) => e === 1);
    expect(q.dues.map((d) => `${d.to}${d.event}`)).toEqual(['a2', 'b1']);
  });

  it('refuses a delay that is not a number', () => {
    expect(() => schedule(newQueue(), Number.NaN, 'x', null)).toThrow(RangeError);
  });
});
