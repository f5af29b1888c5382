/**
 * The band that an emission needs, and its full designator. Method: Radio Regulations, Appendix 1, and ITU-R SM.1138
 * (formulas and worked examples from memory; 47 CFR 2.202 has the same).
 */
import type { Emission } from '../signals.ts';
import { BAUD } from './window.ts';

/** Morse at up to 25 words a minute is 20 Bd; 5 is the factor for a path that fades. */
const MORSE_BD = 20;
const K_MORSE = 5;
/** Lowest and highest tone of speech. */
const SPEECH_HZ = [300, 3000] as const;
const K_PRINT = 1.2;

/** 2M + 2DK: M half the bauds, D half the shift. */
const print_Hz = (shift_Hz: number): number => BAUD + shift_Hz * K_PRINT;

/** Necessary bandwidth, Hz; null for a bare carrier, which needs none. `shift_Hz` counts in print only. */
export function necessary_Hz(emission: Emission, shift_Hz: number): number | null {
  switch (emission) {
    case 'N0N':
      return null;
    case 'A1A':
      return MORSE_BD * K_MORSE;
    case 'A3E':
      return 2 * SPEECH_HZ[1];
    case 'J3E':
      return SPEECH_HZ[1] - SPEECH_HZ[0];
    case 'F1B':
      return print_Hz(shift_Hz);
    case 'A3E+F1B':
      // No example in the standard: both sidebands of a carrier that itself moves by the shift.
      return 2 * SPEECH_HZ[1] + shift_Hz;
  }
}

/** A bandwidth as three figures with H, K or M in place of the decimal point; `Hz` from 10 to 999 million. */
export function bandwidthCode(Hz: number): string {
  const [unit, letter] = Hz < 999.5 ? [1, 'H'] : Hz < 999_500 ? [1e3, 'K'] : [1e6, 'M'];
  const v = Hz / unit;
  const places = v >= 99.95 ? 0 : v >= 9.995 ? 1 : 2;
  const text = v.toFixed(places);
  return places === 0 ? text + letter : text.replace('.', letter);
}

/** 530HF1B, 6K00A3E, and so on; what the Regulations have no band for keeps its class alone. */
export function designatorOf(emission: Emission, shift_Hz: number): string {
  const Hz = necessary_Hz(emission, shift_Hz);
  return Hz === null || emission.includes('+') ? emission : bandwidthCode(Hz) + emission;
}
