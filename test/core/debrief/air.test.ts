/** What was on the air, as the debrief tells it: emissions, and words with what the ear had of them. */
import { describe, expect, it } from 'vitest';
import { MEASURES, NAMES } from '../../../src/core/catalogue.ts';
import { speechEntries } from '../../../src/core/debrief/air.ts';
import { debrief } from '../../../src/core/debrief/debrief.ts';
import { explain } from '../../../src/core/debrief/explain.ts';
import { mark } from '../../../src/core/marking/marking.ts';
import type { DrillRecord, LineBody } from '../../../src/core/record/record.ts';
import { scenarioOf } from '../../laws/first-call.ts';
import { air, recordOf } from '../marking/record-maker.ts';

const scenario = scenarioOf(1);
const of = (record: DrillRecord) => debrief(record, mark(record, scenario, MEASURES, NAMES), scenario, NAMES);

describe('on the air', () => {
  it('one emission is of one kind, power and frequency, and lasts as long as its carrier was up', () => {
    const key = (s: number, W: number, over: Partial<Extract<LineBody, { k: 'air' }>> = {}) =>
      [s, { ...air(W), ...over } as LineBody] as const;
    const titles = (...lines: (readonly [number, LineBody])[]) =>
      of(recordOf(lines))
        .timeline.map((e) => e.title)
        .filter((title) => title.startsWith('On the air'));
    const pulses = [key(1, 20), key(2, 0), key(3, 20), key(5, 0)];
    expect(titles(...pulses)).toEqual(['On the air 3.0 s: A3E, 4 718 kHz, 20 W radiated']);
    expect(titles(key(1, 20), key(2, 0), key(3, 5), key(5, 0))).toEqual([
      'On the air 1.0 s: A3E, 4 718 kHz, 20 W radiated',
      'On the air 2.0 s: A3E, 4 718 kHz, 5 W radiated',
    ]);
    const night = { f_Hz: 2_846_000 };
    expect(titles(key(1, 20), key(2, 0), key(3, 20, night), key(5, 0, night))).toEqual([
      'On the air 1.0 s: A3E, 4 718 kHz, 20 W radiated',
      'On the air 2.0 s: A3E, 2 846 kHz, 20 W radiated',
    ]);
    expect(titles(key(1, 20), key(1.04, 0))).toEqual(['On the air for a blip: A3E, 4 718 kHz, 20 W radiated']);
    // Without a break, too; and power that moves while the carrier stands is told from least to most.
    const bare = { emission: 'N0N' as const };
    expect(titles(key(1, 5, bare), key(2, 20, bare), key(3, 20), key(5, 0))).toEqual([
      'On the air 2.0 s: N0N, 4 718 kHz, 5 to 20 W radiated',
      'On the air 2.0 s: A3E, 4 718 kHz, 20 W radiated',
    ]);
  });

  it('has one total of time on the air, whoever tells it', () => {
    const record = recordOf([
      [1, air(0.4)],
      [4.5, air(0)],
      [10, air(21)],
      [12, air(0)],
    ]);
    const d = of(record);
    expect(d.measures.find((m) => m.id === 'airtime')?.yours).toBe('5.5 s in all');
    expect(explain(d)).toContain('On the air 5.5 s in all.');
  });

  it('tells every piece that the ear had of an utterance', () => {
    const heard = (s: number, words: string): readonly [number, LineBody] => [
      s + 1,
      { k: 'heard', words, by: 'voice', from_us: s * 1e6 },
    ];
    const spoke: LineBody = { k: 'spoke', station: 'QV7K', words: 'A B C D', by: 'voice', from_us: 10e6 };
    const titles = (...lines: (readonly [number, LineBody])[]) => of(recordOf(lines)).timeline.map((e) => e.title);
    expect(titles(heard(10.1, 'A ...'), heard(13, '... D'), [15, spoke])).toEqual([
      'QV7K, by voice: A B C D - you made out: A ... / ... D',
    ]);
    expect(titles(heard(10.1, 'A B'), heard(13, 'C D'), [15, spoke])).toEqual(['QV7K, by voice: A B C D']);
  });

  it('looks at each utterance and each piece heard a few times only, however many there are', () => {
    const N = 2000;
    let looks = 0;
    const counted = (line: LineBody, from_us: number): LineBody =>
      Object.defineProperty(line, 'from_us', {
        enumerable: true,
        get: () => {
          looks++;
          return from_us;
        },
      });
    const { lines } = recordOf([]);
    for (let n = 0; n < N; n++)
      for (const k of ['heard', 'spoke'] as const) {
        const body = { t: n * 1e7 + 3e6, i: lines.length + 1, k, station: 'QV7K', words: 'A', by: 'voice' };
        lines.push(counted(body as unknown as LineBody, n * 1e7) as (typeof lines)[number]);
      }
    expect(speechEntries(lines, 'QV4M')).toHaveLength(N);
    // Sorting is N log N: 11 comparisons of each; a look at every pair would be millions.
    expect(looks).toBeLessThan(60 * N);
  });
});
