/** Necessary bandwidths and designators against the Radio Regulations, Appendix 1, and ITU-R SM.1138. */
import { describe, expect, it } from 'vitest';
import { bandwidthCode, designatorOf, necessary_Hz } from '../../../src/core/inside/bandwidth.ts';

describe('a bandwidth is written', () => {
  // Radio Regulations, Appendix 1, section I, 2.2: its own examples.
  it.each([
    [25.3, '25H3'],
    [400, '400H'],
    [2400, '2K40'],
    [6000, '6K00'],
    [12_500, '12K5'],
    [180_400, '180K'],
    [180_500, '181K'],
    [180_600, '181K'],
    [1_250_000, '1M25'],
  ])('%d Hz as %s', (Hz, code) => expect(bandwidthCode(Hz)).toBe(code));
});

describe('an emission needs', () => {
  // ITU-R SM.1138, worked examples (from memory): Morse at 25 words a minute, double and single sideband speech.
  it.each([
    ['A1A', '100HA1A'],
    ['A3E', '6K00A3E'],
    ['J3E', '2K70J3E'],
  ] as const)('%s: %s', (emission, designator) => expect(designatorOf(emission, 400)).toBe(designator));

  // The same formula, 2M + 2DK with K = 1.2, for 50 Bd; 50 Bd and 70 Hz is a worked example (134 Hz).
  it.each([
    [70, '134HF1B'],
    [200, '290HF1B'],
    [400, '530HF1B'],
    [850, '1K07F1B'],
  ])('print of shift %d Hz: %s', (shift_Hz, designator) => expect(designatorOf('F1B', shift_Hz)).toBe(designator));

  it('no band for a bare carrier', () => {
    expect(necessary_Hz('N0N', 400)).toBeNull();
    expect(designatorOf('N0N', 400)).toBe('N0N');
  });

  it('voice and print on one carrier the band of both', () => {
    expect(necessary_Hz('A3E+F1B', 400)).toBe(6400);
    expect(designatorOf('A3E+F1B', 400)).toBe('A3E+F1B');
  });
});
