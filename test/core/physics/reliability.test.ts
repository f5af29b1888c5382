import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { grounds } from '../../../src/core/physics/ground-wave/ground.ts';
import { groundWave } from '../../../src/core/physics/ground-wave/ground-wave.ts';
import { externalNoise, galacticNoise, manMadeNoise } from '../../../src/core/physics/noise/noise.ts';
import {
  type CircuitQuestion,
  reliability,
  STEADY,
  signalToNoise,
  skySignalDeciles,
} from '../../../src/core/physics/reliability.ts';

const noise = externalNoise([manMadeNoise(5, 'rural'), galacticNoise(5)]);
const circuit: CircuitQuestion = {
  E_dBuV_per_m: 20,
  signal: { Du_dB: 8, Dl_dB: 12 },
  noise,
  f_MHz: 5,
  b_Hz: 50,
  required_SNR_dB: 12,
};

/** P.842's basic circuit reliability in percent, from memory. */
const p842 = (margin: number, Du: number, Dl: number): number =>
  margin >= 0 ? Math.min(100, 130 - 80 / (1 + margin / Dl)) : Math.max(0, 80 / (1 - margin / Du) - 30);

describe('reliability of a circuit', () => {
  const { SNR_dB, Du_dB, Dl_dB } = signalToNoise(circuit);
  const at = (margin_dB: number) => reliability({ ...circuit, required_SNR_dB: SNR_dB - margin_dB });
  it('is 50 % at the median, 90 % a lower decile above it, 10 % an upper decile below', () => {
    expect(at(0)).toBeCloseTo(0.5, 9);
    expect(at(Dl_dB)).toBeCloseTo(0.9, 6);
    expect(at(-Du_dB)).toBeCloseTo(0.1, 6);
  });
  it("keeps within 7 percentage points of P.842's rational curve", () => {
    for (let margin = -60; margin <= 60; margin++)
      expect(Math.abs(100 * at(margin) - p842(margin, Du_dB, Dl_dB))).toBeLessThan(7);
  });
  it('grows with the signal, from 0 to 1', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -80, max: 80, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (m, up) => {
          expect(at(m + up)).toBeGreaterThanOrEqual(at(m));
          expect(at(m)).toBeGreaterThanOrEqual(0);
          expect(at(m)).toBeLessThanOrEqual(1);
        },
      ),
      { seed: 842 },
    );
  });
  it('is a step where nothing varies', () => {
    const still = { ...circuit, signal: STEADY, noise: { Fam_dB: 50, Du_dB: 0, Dl_dB: 0 } };
    const { SNR_dB: snr } = signalToNoise(still);
    expect(reliability({ ...still, required_SNR_dB: snr - 0.1 })).toBe(1);
    expect(reliability({ ...still, required_SNR_dB: snr + 0.1 })).toBe(0);
  });
  // Worked chain: 5.59 W radiated at 3 MHz, 20 km of average ground, rural and galactic noise: C/N0 61.82 dBHz (P.368-10 and P.372 references).
  it('agrees with the worked ground-wave budget', () => {
    const E = groundWave({ f_MHz: 3, d_km: 20, ground: grounds.average, power_W: 5.59 });
    // The worked sum adds medians as powers.
    const plain = { Fam_dB: 54.198, Du_dB: 0, Dl_dB: 0 };
    const { SNR_dB: c_n0 } = signalToNoise({ ...E, signal: STEADY, noise: plain, f_MHz: 3, b_Hz: 1 });
    expect(c_n0).toBeCloseTo(61.82, 1);
  });
  it('refuses what is not a number', () => {
    expect(() => reliability({ ...circuit, E_dBuV_per_m: Number.NaN })).toThrow(RangeError);
  });
});

describe('spread of a sky-wave signal', () => {
  it('takes the table at its ratios, a line between, and holds its ends', () => {
    const within = (day: number, hour: number) => Math.sqrt(day * day + hour * hour);
    expect(skySignalDeciles(10, 10, 50).Dl_dB).toBeCloseTo(within(12, 8), 9);
    expect(skySignalDeciles(10, 10, 65).Du_dB).toBeCloseTo(within(11, 5), 9);
    expect(skySignalDeciles(11, 10, 50).Dl_dB).toBeCloseTo(within(12.5, 8), 9);
    expect(skySignalDeciles(1, 10, 50).Du_dB).toBeCloseTo(within(6, 5), 9);
    expect(skySignalDeciles(30, 3, 50).Dl_dB).toBeCloseTo(within(5, 8), 9);
    expect(() => skySignalDeciles(0, 10, 50)).toThrow(RangeError);
  });
});
