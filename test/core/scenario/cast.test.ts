import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faceAt, facesOf, fill, throwAll } from '../../../src/core/scenario/draws.ts';
import { castScenario, type Draw, readScenario } from '../../../src/core/scenario/scenario.ts';
import { kinds, SAMPLE, sample } from './sample.ts';

const seed = fc.nat(0x7fffffff);

function source() {
  const read = readScenario(SAMPLE, kinds, 'sample.yaml');
  if (!read.ok) throw new RangeError('the sample does not read');
  return read.source;
}

describe('draws', () => {
  const open = source();
  it('the same seed gives the same scenario', () => {
    fc.assert(
      fc.property(seed, (n) => {
        expect(castScenario(open, n)).toEqual(castScenario(open, n));
      }),
      { seed: 41, numRuns: 50 },
    );
  });
  it('the papers agree: a pick stands where its owner fell', () => {
    fc.assert(
      fc.property(seed, (n) => {
        const s = castScenario(open, n);
        const red = s.drawn['colour'] === 'red';
        expect(s.drawn['word']).toBe(red ? 'ROT' : 'GRUEN');
        expect(s.papers.messages[0]?.lines[0]).toBe(`LAMP IS ${red ? 'ROT' : 'GRUEN'} NOW`);
        expect(s.steps[0]?.do[0]).toMatchObject({ set: { 'lamp.colour': s.drawn['colour'] } });
        expect(s.own.inner['lamp.error_V']).toBe(s.drawn['error']);
      }),
      { seed: 42, numRuns: 100 },
    );
  });
  it('a range gives its steps as people write them, both ends included', () => {
    const draw: Draw = { from: -0.8, to: 0.8, step: 0.1 };
    const all = Array.from({ length: facesOf(draw) }, (_, i) => faceAt(draw, i));
    expect(all).toEqual([-0.8, -0.7, -0.6, -0.5, -0.4, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8]);
  });
  it('one that nothing uses is a fault, at its name', () => {
    const text = SAMPLE.replace('draws:\n', 'draws:\n  spare: { of: [1, 2] }\n');
    expect(readScenario(text, kinds, 'sample.yaml')).toMatchObject({
      ok: false,
      errors: [{ code: 'unused-draw', line: 11, col: 3 }],
    });
  });
  it('every value comes, about as often as any other', () => {
    // 4000 throws of a fair die with 4 faces: chi-squared with 3 degrees of freedom is below 16.3 in 999 of 1000 cases (common table).
    const draws: Record<string, Draw> = { x: { of: ['a', 'b', 'c', 'd'] } };
    const counts = [0, 0, 0, 0];
    for (let n = 0; n < 4000; n++) counts[throwAll(draws, n)['x'] as number]!++;
    expect(counts.reduce((sum, c) => sum + (c - 1000) ** 2 / 1000, 0)).toBeLessThan(16.3);
  });
  it('a lone reference keeps the type, one within a text becomes text', () => {
    const values = { n: 1.5, flag: true, list: [1, 2] };
    // biome-ignore-start lint/suspicious/noTemplateCurlyInString: this is the notation under test
    expect(fill({ a: '${n}', b: '${flag}', c: '${list}', d: 'at ${n} V', e: ['${x}', '$n'] }, values)).toEqual({
      a: 1.5,
      b: true,
      c: [1, 2],
      d: 'at 1.5 V',
      e: ['${x}', '$n'],
    });
    // biome-ignore-end lint/suspicious/noTemplateCurlyInString: as above
  });
  it('the card has two letters in every cell, another card for another seed', () => {
    const cells = sample(1).papers.card?.cells as string[][];
    expect(cells.map((row) => row.length)).toEqual([4, 4, 4]);
    for (const cell of cells.flat()) expect(cell).toMatch(/^[A-Z]{2}$/);
    expect(sample(2).papers.card?.cells).not.toEqual(cells);
  });
  it.each([-1, 0.5, 2 ** 31, Number.NaN])('no seed %s', (n) => {
    expect(() => castScenario(open, n)).toThrow(RangeError);
  });
});
