/** Records made by hand for tests. */
import type { DrillRecord, LineBody } from '../../../src/core/record/record.ts';
import { append } from '../../../src/core/record/record.ts';
import { encode, FIGS, faceOf, LTRS } from '../../../src/core/telegraphy/ita2.ts';

export function newRecord(over: Partial<DrillRecord['header']> = {}): DrillRecord {
  const header = {
    'keydown-record': 1,
    engine: 'test',
    name: 'sample',
    scenario: '',
    seed: 1,
    manner: 'unaided' as const,
    stretch: 1,
    ...over,
  };
  return { header, lines: [] };
}

/** A record of `[seconds, line]`. */
export function recordOf(
  lines: readonly (readonly [number, LineBody])[],
  over: Partial<DrillRecord['header']> = {},
): DrillRecord {
  const record = newRecord(over);
  for (const [s, body] of lines) append(record, Math.round(s * 1e6), body);
  return record;
}

/** Shorthands for lines. */
export const did = (control: string, value: string | number | boolean): LineBody => ({ k: 'do', n: 1, control, value });
export const was = (q: string, v: string | number | boolean): LineBody => ({ k: 'value', q, v });
export const air = (power_W: number, station = 'QV4M'): LineBody => ({
  k: 'air',
  station,
  emission: 'A3E',
  f_Hz: 4_718_000,
  power_W,
});
export const far = (what: string, station = 'QV7K'): LineBody => ({ k: 'far', station, what, detail: {} });
export const wrote = (text: string): LineBody => ({ k: 'log', utc: '09 40 00', text });

/** What a printer would print of a text from `from_s` on at 50 Bd (150 ms a character, ITU-T S.1 with stop 1.5). */
export function prints(text: string, at: string, from_s: number): (readonly [number, LineBody])[] {
  let figures = false;
  return encode(text).codes.map((code, n) => {
    if (code === LTRS || code === FIGS) figures = code === FIGS;
    const c = faceOf(code, figures ? 'figures' : 'letters') ?? '';
    return [from_s + n * 0.15, { k: 'print', at, code, c }] as const;
  });
}
