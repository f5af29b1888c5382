/** Golden records: the model operator's drill for a few seeds, as hashes. For noticing change, not for judging it. */
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { workThrough } from '../../src/core/hand/model.ts';
import { mark } from '../../src/core/marking/marking.ts';
import { readRecord, writeRecord } from '../../src/core/record/format.ts';
import { begin } from '../laws/first-call.ts';

const GOLDEN = 'test/golden/first-call.json';
const SEEDS = [1, 2, 3, 4, 5, 6];

type Summary = { seed: number; seconds: number; lines: number; verdict: string; score: number; sha256: string };

function summary(seed: number): Summary {
  const d = begin(seed);
  workThrough(d.scenario, d, seed);
  const text = writeRecord(d.record);
  const again = readRecord(text, 'golden');
  if (!again.ok) throw new Error(JSON.stringify(again.errors));
  expect(writeRecord(again.record)).toBe(text);
  const { verdict, score } = mark(again.record, d.scenario);
  // The header carries the scenario's text; the lines alone say whether the world moved as before.
  const lines = text.slice(text.indexOf('\n') + 1);
  return { seed, seconds: Math.round(d.now_us / 1e6), lines: d.record.lines.length, verdict, score, sha256: createHash('sha256').update(lines).digest('hex') };
}

describe('golden records of first-call', () => {
  it('are GO by the model operator for every seed, and have not changed unnoticed', () => {
    const now = SEEDS.map(summary);
    for (const s of now) expect(s).toMatchObject({ verdict: 'GO' });
    // `KEYDOWN_WRITE=1 npx vitest run test/golden` accepts a change; say in the commit why it came.
    if (process.env['KEYDOWN_WRITE']) writeFileSync(GOLDEN, `${JSON.stringify(now, null, 2)}\n`);
    expect(now).toEqual(JSON.parse(readFileSync(GOLDEN, 'utf8')));
  });
});
