import { expect, test } from 'vitest';
import { sinc } from '../../../src/core/numeric/special.ts';
import { fadeInPlace, fadingAtRest } from '../../../src/core/samples/fading.ts';
import { fskAtRest, fskRun } from '../../../src/core/samples/fsk.ts';
import { addRealNoise, noisePower } from '../../../src/core/samples/noise.ts';
import { shiftBy } from '../../../src/core/samples/oscillator.ts';
import { GRID, toneGrid } from '../../../src/core/samples/tone-evidence.ts';
import { dice, uniform } from './dice.ts';

// 75 Bd at 2400 samples a second; tones 300 and 900 Hz are eight elements' worth apart, so they are orthogonal.
const RATE = 2400;
const BAUD = 75;
const TONES = { shift: 600, sense: 'mark low', centre: 600 } as const;

interface Run {
  readonly bits: number;
  readonly ebN0_dB: number;
  readonly offset?: number;
  readonly faded?: boolean;
}

/** Share of elements wrong with matched filters and known timing. */
function errorRate({ bits, ebN0_dB, offset = 0, faded = false }: Run): number {
  const data = Array.from({ length: bits }, (_, i) => uniform(11, i) < 0.5);
  const edges = data.flatMap((mark, i) =>
    mark === (data[i - 1] ?? true) ? [] : [{ t_us: Math.round((i * 1e6) / BAUD), mark }],
  );
  const s = fskRun(fskAtRest(), edges, Math.round((bits * RATE) / BAUD), RATE, { ...TONES, centre: 0 });
  if (faded) fadeInPlace(fadingAtRest(), s.re, s.im, RATE, { delay_s: 0, spread_Hz: 2 }, dice(21));
  shiftBy(s.re, s.im, TONES.centre + offset, RATE);
  addRealNoise(s.re, noisePower(ebN0_dB, 1 / BAUD, RATE), dice(31 + Math.round(ebN0_dB * 10)));
  const { mark, space } = toneGrid(s.re, RATE, BAUD, TONES);
  let wrong = 0;
  for (let i = 0; i < bits - 1; i++) if (mark[i * GRID]! > space[i * GRID]! !== data[i]) wrong += 1;
  return wrong / (bits - 1);
}

/** Eb/N0 in dB at which p = exp(-Eb/2N0)/2. */
const equivalent_dB = (p: number) => 10 * Math.log10(-2 * Math.log(2 * p));

// Non-coherent orthogonal FSK, any text on detection theory: p = exp(-Eb/2N0)/2.
test.each([
  [4, 20_000],
  [6, 30_000],
  [8, 60_000],
  [10, 120_000],
  [12, 400_000],
])('known timing at %d dB is within 0.3 dB of the theory of non-coherent FSK', (ebN0_dB, bits) => {
  expect(Math.abs(equivalent_dB(errorRate({ bits, ebN0_dB })) - ebN0_dB)).toBeLessThan(0.3);
});

test('both tones off by df: loss 20 log sinc(df T)', () => {
  // A third of an element's frequency off; the other tone's leakage adds a little, so the tolerance is 0.6 dB.
  const offset = BAUD / 3;
  const loss = -20 * Math.log10(sinc(1 / 3));
  const seen = 12 - equivalent_dB(errorRate({ bits: 60_000, ebN0_dB: 12, offset }));
  expect(loss).toBeCloseTo(1.65, 2);
  expect(Math.abs(seen - loss)).toBeLessThan(0.6);
});

test.each([
  [10, 0.0833],
  [20, 0.0098],
])('slow flat Rayleigh fading, mean %d dB: p = 1/(2 + g)', (ebN0_dB, p) => {
  expect(1 / (2 + 10 ** (ebN0_dB / 10))).toBeCloseTo(p, 4);
  const seen = errorRate({ bits: 100_000, ebN0_dB, faded: true });
  expect(seen / p).toBeGreaterThan(0.8);
  expect(seen / p).toBeLessThan(1.25);
});
