/** Bits and characters wrong against Eb/N0, beside the theory of non-coherent orthogonal FSK: p = exp(-Eb/2N0)/2. */
import { fskAtRest, fskRun } from '../../src/core/samples/fsk.ts';
import { makeFskWav, readFsk } from '../../src/core/samples/listening.ts';
import { addRealNoise, noisePower } from '../../src/core/samples/noise.ts';
import { shiftBy } from '../../src/core/samples/oscillator.ts';
import { GRID, toneGrid } from '../../src/core/samples/tone-evidence.ts';
import { dice, editDistance, groups, uniform } from '../core/samples/dice.ts';
import type { Table } from './table.ts';

/** One point of a curve: share wrong, and the theory's. */
export type Point = { ebN0_dB: number; share: number; theory: number };

// 75 Bd at 2400 samples a second: tones 600 Hz apart are eight elements' worth, so they are orthogonal.
const RATE = 2400;
const BAUD = 75;
const TONES = { shift: 600, sense: 'mark low', centre: 600 } as const;

const bitTheory = (ebN0_dB: number): number => 0.5 * Math.exp(-(10 ** (ebN0_dB / 10)) / 2);
/** A character is right when its five elements are, its timing known. */
const characterTheory = (ebN0_dB: number): number => 1 - (1 - bitTheory(ebN0_dB)) ** 5;
const equivalent_dB = (p: number): number => 10 * Math.log10(-2 * Math.log(2 * p));

/** Share of elements wrong with matched filters and known timing. */
function bitsWrong(bits: number, ebN0_dB: number): number {
  const data = Array.from({ length: bits }, (_, i) => uniform(11, i) < 0.5);
  const edges = data.flatMap((mark, i) =>
    mark === (data[i - 1] ?? true) ? [] : [{ t_us: Math.round((i * 1e6) / BAUD), mark }],
  );
  const s = fskRun(fskAtRest(), edges, Math.round((bits * RATE) / BAUD), RATE, { ...TONES, centre: 0 });
  shiftBy(s.re, s.im, TONES.centre, RATE);
  addRealNoise(s.re, noisePower(ebN0_dB, 1 / BAUD, RATE), dice(31 + Math.round(ebN0_dB * 10)));
  const { mark, space } = toneGrid(s.re, RATE, BAUD, TONES);
  let wrong = 0;
  for (let i = 0; i < bits - 1; i++) if (mark[i * GRID]! > space[i * GRID]! !== data[i]) wrong += 1;
  return wrong / (bits - 1);
}

/** About a hundred and fifty errors a point, and at most 400,000 bits. */
const enough = (p: number): number => Math.min(400_000, Math.max(20_000, Math.round(150 / p)));

/** Bit errors, 4 to 12 dB. */
export function bitCurve(): Point[] {
  return Array.from({ length: 9 }, (_, i) => {
    const ebN0_dB = 4 + i;
    const theory = bitTheory(ebN0_dB);
    return { ebN0_dB, share: bitsWrong(enough(theory), ebN0_dB), theory };
  });
}

const GROUPS = 1700;

/** Character errors of `wav read`, free-running: 50 Bd, 850 Hz, letters in groups of five, edit distance over length. */
export function characterCurve(): Point[] {
  const text = groups(1, GROUPS);
  return Array.from({ length: 11 }, (_, i) => {
    const ebN0_dB = 7 + i / 2;
    const sound = makeFskWav({ text, unshiftOnSpace: true, added: { ebN0_dB, noise: dice(1000 + i) } });
    const share = editDistance(readFsk(sound, 8000, { unshiftOnSpace: true }), text) / text.length;
    return { ebN0_dB, share, theory: characterTheory(ebN0_dB) };
  });
}

/** Where a falling curve passes `share`, dB, straight between points in the logarithm. */
function passes(curve: readonly Point[], share: number): number {
  const i = curve.findIndex((p) => p.share <= share);
  const [a, b] = [curve[i - 1], curve[i]];
  if (!a || !b) return Number.NaN;
  const [la, lb, l] = [a.share, b.share, share].map((x) => Math.log(Math.max(x, 1e-9))) as [number, number, number];
  return a.ebN0_dB + ((b.ebN0_dB - a.ebN0_dB) * (l - la)) / (lb - la);
}

/** Both curves as rows. */
export function errorsTable(bits: readonly Point[], characters: readonly Point[]): Table {
  const off = bits.map((p) => Math.abs(equivalent_dB(p.share) - p.ebN0_dB));
  const source = 'minimodem 0.24 (Debian): 12.1, squelch off 11.9';
  return {
    title: 'Errors against Eb/N0, white noise',
    rows: [
      {
        what: 'bits, known timing, 4 to 12 dB: farthest from exp(-Eb/2N0)/2',
        value: Math.max(...off),
        unit: 'dB',
        bar: { most: 0.3 },
        source: 'theory of non-coherent FSK',
      },
      {
        what: 'characters of `wav read`, 50 Bd, 850 Hz: 10 % wrong at',
        value: passes(characters, 0.1),
        unit: 'dB',
        bar: { most: 9.3 },
      },
      {
        what: 'characters of `wav read`: 1 % wrong at',
        value: passes(characters, 0.01),
        unit: 'dB',
        bar: { most: 11.6 },
        source,
      },
      ...bits.map((p) => ({
        what: `bits wrong at ${p.ebN0_dB} dB`,
        value: p.share,
        unit: '',
        source: `theory ${p.theory.toExponential(2)}`,
      })),
      ...characters.map((p) => ({
        what: `characters wrong at ${p.ebN0_dB} dB`,
        value: p.share,
        unit: '',
        source: `theory, timing known, ${p.theory.toExponential(2)}`,
      })),
    ],
  };
}
