/** Words and figures that the views share. */
import type { Inside } from '../../core/drill.ts';

type Any = Pick<Inside, 'who' | 'isOwn' | 'emission' | 'shift_Hz' | 'markLow' | 'window'>;

/** 50 Bd, the emission, the shift and the sense. */
export const printFacts = (l: Any): string[] => [
  '50 Bd',
  l.emission === 'N0N' ? 'no carrier' : l.emission,
  `shift ${l.shift_Hz} Hz`,
  `mark ${l.markLow ? 'low' : 'high'}`,
];

/** Whose it is. */
export const whose = (l: Any): string => (l.isOwn ? 'your own' : `${l.who}’s`);

/** The letter on its way in words, or that there is none. */
export const letterWords = ({ window: { letter } }: Any): string =>
  letter
    ? `Letter ${letter.name}: units ${[0, 1, 2, 3, 4].map((k) => ((letter.code >> k) & 1 ? 'mark' : 'space')).join(', ')}.`
    : 'No letter is on its way.';

/** A number with so many places, minus as typesetters have it. */
export const num = (v: number, places = 0): string => v.toFixed(places).replace('-', '−');

/** 4718.0 as 4 718.0. */
export const kHzText = (kHz: number): string => num(kHz, 1).replace(/^(\d+)(\d{3})\./, '$1 $2.');

/** Thousands with a thin gap. */
export const thousands = (v: number): string =>
  Math.round(v)
    .toString()
    .replace(/(\d)(\d{3})$/, '$1 $2');
