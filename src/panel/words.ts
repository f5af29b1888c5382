/** Names and values as the panel prints and speaks them. */
import type { ControlValue } from '../core/signals.ts';
import type { Control } from '../core/station/box.ts';

/** Sentence case. */
export const capital = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);

const UNITS: Readonly<Record<string, string>> = { uH: 'µH' };
export const unitText = (unit: string): string => UNITS[unit] ?? unit;

/** 4718.5 as 4 718.5, with a thin gap. */
export function figures(value: number, decimals: number): string {
  const [whole = '0', part] = Math.abs(value).toFixed(decimals).split('.');
  const gapped = whole.length > 3 ? `${whole.slice(0, -3)}\u2009${whole.slice(-3)}` : whole;
  const minus = value < 0 && Number(value.toFixed(decimals)) !== 0 ? '−' : '';
  return `${minus}${gapped}${part ? `.${part}` : ''}`;
}

/** Printed figures for the ear: without the gap that would make two numbers of one. */
export const spoken = (text: string): string => text.replaceAll('\u2009', '');

/** Decimals that a step needs. */
export const decimalsOf = (step: number): number => (String(step).split('.')[1] ?? '').length;

/** One wire, two wires; what is measured keeps its unit. */
const countedUnit = (unit: string, value: number): string =>
  value === 1 && /^[a-z]{3,}s$/.test(unit) ? unit.slice(0, -1) : unitText(unit);

/** What a control stands at, in words. */
export function valueText(control: Control, value: ControlValue | undefined): string {
  const r = control.range;
  switch (r.kind) {
    case 'words':
      return r.unit ? `${value} ${r.unit}` : String(value);
    case 'number': {
      const text = figures(Number(value), decimalsOf(r.step));
      return r.unit ? `${text} ${countedUnit(r.unit, Number(value))}` : text;
    }
    case 'switch':
      return r.words[value === true ? 1 : 0];
    case 'press':
      return value === true ? 'pressed' : '';
    default:
      return '';
  }
}
