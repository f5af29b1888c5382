/** Words and figures that the views share. */
import type { Inside } from '../../core/drill.ts';

type Any = Pick<Inside, 'who' | 'isOwn' | 'on' | 'designator' | 'shift_Hz' | 'markLow' | 'window'>;

const lineSpeed = (l: Any): string[] => ['50 Bd', `shift ${l.shift_Hz} Hz`, `mark ${l.markLow ? 'low' : 'high'}`];

/** Of a link of the line: speed, shift and sense of the teleprinter, or what goes past it. */
export const lineFacts = (l: Any): string[] => (l.on === 'print' || l.on === 'nothing' ? lineSpeed(l) : [l.designator]);

/** Of a link of the air: the emission in full, and for print its speed, shift and sense. */
export const airFacts = (l: Any): string[] =>
  l.on === 'nothing' ? ['no carrier'] : l.on === 'print' ? [l.designator, ...lineSpeed(l)] : [l.designator];

/** What is there, as a subject. */
export const WHAT: Readonly<Record<Inside['on'], string>> = {
  nothing: 'nothing',
  carrier: 'a bare carrier',
  Morse: 'Morse',
  voice: 'a voice',
  print: 'print',
  sound: 'a recording',
};

/** The band that an emission needs. */
export const needsText = ({ needs_Hz }: { needs_Hz: number | null }): string =>
  needs_Hz === null ? 'none' : `${thousands(needs_Hz)} Hz`;

/** Whose it is. */
export const whose = (l: Any): string => (l.isOwn ? 'your own' : `${l.who}’s`);

/** The letter on its way in words, or what is there in place of one. */
export function letterWords({ on, window: { letter } }: Any): string {
  if (on === 'nothing') return 'Nothing is on its way.';
  if (on !== 'print') return `${capital(WHAT[on])} is on its way, no letter of five units.`;
  if (!letter) return 'No letter is on its way: the line rests.';
  return `Letter ${letter.name}: units ${[0, 1, 2, 3, 4].map((k) => ((letter.code >> k) & 1 ? 'mark' : 'space')).join(', ')}.`;
}

/** With a capital at its head. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A number with so many places, minus as typesetters have it. */
export const num = (v: number, places = 0): string => v.toFixed(places).replace('-', '−');

/** With its sign. */
export const signed = (v: number): string => `${v > 0 ? '+' : ''}${num(v)}`;

/** 4718.0 as 4 718.0. */
export const kHzText = (kHz: number): string => num(kHz, 1).replace(/^(\d+)(\d{3})\./, '$1 $2.');

/** Thousands with a thin gap. */
export const thousands = (v: number): string =>
  Math.round(v)
    .toString()
    .replace(/(\d)(\d{3})$/, '$1 $2');
