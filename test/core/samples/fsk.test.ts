import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fskAtRest, fskRun, toneOf } from '../../../src/core/samples/fsk.ts';
import { shiftBy } from '../../../src/core/samples/oscillator.ts';
import { occupiedBandwidth, peakFrequency, powerSpectrum } from '../../../src/core/samples/spectrum.ts';
import { codesEdges } from '../../../src/core/telegraphy/startstop.ts';
import { uniform } from './dice.ts';

const codes = (n: number) => Array.from({ length: n }, (_, i) => Math.floor(32 * uniform(9, i)));

test('the phase of every sample is the integral of the frequency up to its instant', () => {
  const tones = { shift: 850, sense: 'mark low', centre: 100 } as const;
  const { edges } = codesEdges(codes(4), 12_345, 45.45, 1.42);
  const rate = 4000;
  const { re, im } = fskRun(fskAtRest(), edges, 3000, rate, tones);
  let turns = 0;
  let t = 0;
  let mark = true;
  let next = 0;
  for (let i = 0; i < 3000; i++) {
    const now = (i * 1e6) / rate;
    while (next < edges.length && edges[next]!.t_us <= now) {
      turns += ((edges[next]!.t_us - t) / 1e6) * toneOf(tones, mark);
      t = edges[next]!.t_us;
      mark = edges[next]!.mark;
      next += 1;
    }
    const phase = 2 * Math.PI * (turns + ((now - t) / 1e6) * toneOf(tones, mark));
    expect(re[i]).toBeCloseTo(Math.cos(phase), 8);
    expect(im[i]).toBeCloseTo(Math.sin(phase), 8);
  }
});

test('blocks join without a seam, from a state that went through JSON', () => {
  const tones = { shift: 170, sense: 'mark high' } as const;
  const { edges } = codesEdges(codes(6), 1000, 75, 1.5);
  const whole = fskRun(fskAtRest(), edges, 4800, 8000, tones);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 900 }), (block) => {
      let state = fskAtRest();
      for (let at = 0; at < 4800; at += block) {
        const n = Math.min(block, 4800 - at);
        const out = fskRun(JSON.parse(JSON.stringify(state)), edges, n, 8000, tones);
        state = out.state;
        for (let i = 0; i < n; i++) expect(Math.abs(out.re[i]! - whole.re[at + i]!)).toBeLessThan(1e-8);
      }
    }),
    { seed: 7, numRuns: 25 },
  );
});

test('mark low puts steady mark half the shift under the centre', () => {
  const low = fskRun(fskAtRest(), [], 8192, 8000, { shift: 400, sense: 'mark low' });
  expect(peakFrequency(powerSpectrum(low.re, low.im, 8000, 4096), -1000, 1000)).toBeCloseTo(-200, -0.5);
  const high = fskRun(fskAtRest(), [], 8192, 8000, { shift: 400, sense: 'mark high' });
  expect(peakFrequency(powerSpectrum(high.re, high.im, 8000, 4096), -1000, 1000)).toBeCloseTo(200, -0.5);
  expect(() => toneOf({ shift: 0, sense: 'mark low' }, true)).toThrow(RangeError);
});

// ITU-R SM.1138 (and 47 CFR 2.202): F1B necessary bandwidth 2M + 2DK, M half the bauds, D half the shift, K 1.2.
test.each([
  [50, 400, 530],
  [50, 850, 1070],
  [45.45, 170, 249],
  [75, 850, 1095],
  [100, 170, 304],
])(
  '%d Bd, %d Hz: 99 per cent of the power lies inside the %d Hz of SM.1138 (within 5 per cent), and outside the shift',
  (baud, shift, necessary) => {
    const rate = 8000;
    const count = Math.round((300 * 7.5 * rate) / baud);
    const { edges } = codesEdges(codes(300), 0, baud, 1.5);
    const { re, im } = fskRun(fskAtRest(), edges, count, rate, { shift, sense: 'mark low' });
    const occupied = occupiedBandwidth(powerSpectrum(re, im, rate, 8192));
    expect(occupied).toBeLessThan(necessary * 1.05);
    expect(occupied).toBeGreaterThan(shift);
  },
);

test('shifting up and down again gives the signal back, in blocks with the phase handed on', () => {
  const x = Float64Array.from({ length: 10_000 }, (_, i) => uniform(3, i) - 0.5);
  const y = Float64Array.from({ length: 10_000 }, (_, i) => uniform(4, i) - 0.5);
  const [re, im] = [x.slice(), y.slice()];
  shiftBy(re, im, 1234.5, 8000);
  let phase = 0;
  for (let at = 0; at < 10_000; at += 777)
    phase = shiftBy(re.subarray(at, at + 777), im.subarray(at, at + 777), -1234.5, 8000, phase);
  for (let i = 0; i < 10_000; i++) {
    expect(Math.abs(re[i]! - x[i]!)).toBeLessThan(1e-9);
    expect(Math.abs(im[i]! - y[i]!)).toBeLessThan(1e-9);
  }
});
