import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inForce, prune } from '../../../src/core/kernel/history.ts';

const rows = fc
  .array(fc.integer({ min: 0, max: 40 }), { maxLength: 30 })
  .map((times) => times.sort((a, b) => a - b).map((t_us, n) => ({ t_us, n })));

describe('a history', () => {
  it('has in force what came last by then', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: -1, max: 41 }), (all, t) => {
        expect(inForce(all, t)).toBe(all.findLast((one) => one.t_us <= t));
      }),
      { seed: 1 },
    );
  });
  it('that is pruned says the same from then on, and keeps no more than one of before', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 0, max: 40 }), (all, before) => {
        const kept = all.slice();
        prune(kept, before);
        for (let t = before; t <= 41; t++) expect(inForce(kept, t)).toBe(inForce(all, t));
        expect(kept.filter((one) => one.t_us <= before).length).toBeLessThanOrEqual(1);
      }),
      { seed: 2 },
    );
  });
});
