/** A distant station's terminal unit and printer: samples to characters, only while a carrier is there. */
import { type ConverterState, converterAtRest, converterRate, converterRun } from '../samples/converter.ts';
import type { Ear, Edge } from '../signals.ts';
import { printCode } from '../telegraphy/ita2.ts';
import { type SelectorState, selectorAtRest, selectorRun } from '../telegraphy/selector.ts';

/** Memory of the chain: plain data. */
export type PrintReader = {
  converter: ConverterState;
  selector: SelectorState;
  edges: Edge[];
  upTo_us: number;
  case: 'letters' | 'figures' | null;
};
/** One operation of the printer. */
export type Printed = { code: number; c: string };

const BAUD = 50;
const KEPT_US = 1_500_000;
/** An edge between two blocks is dated into the first when the second is read: the selector stays this far behind. */
const BEHIND_US = 20_000;

export const newPrintReader = (now_us: number): PrintReader => ({
  converter: converterAtRest(),
  selector: selectorAtRest(Math.max(0, now_us - BEHIND_US)),
  edges: [],
  upTo_us: now_us,
  case: null,
});

/** Read up to now; gives what was printed. */
export function readPrint(p: PrintReader, ear: Ear, tuned_Hz: number, shift_Hz: number, now_us: number): Printed[] {
  const rate = converterRate(shift_Hz);
  const first = Math.ceil((p.upTo_us * rate) / 1e6);
  if (p.converter.sample !== first) p.converter = { ...p.converter, sample: first };
  const { re, im } = ear.samples(p.upTo_us, now_us, tuned_Hz, rate);
  const run = converterRun(p.converter, re, im, rate, { shift: shift_Hz, sense: 'mark low', hold: true });
  p.converter = run.state;
  p.edges = [...p.edges.filter((e) => e.t_us > now_us - KEPT_US), ...run.edges];
  const { state, chars } = selectorRun(p.selector, p.edges, Math.max(p.selector.t_us, now_us - BEHIND_US), {
    baud: BAUD,
  });
  p.selector = state;
  p.upTo_us = now_us;
  return chars.map(({ code }) => {
    const { char, state: next } = printCode(code, { case: p.case });
    p.case = next.case;
    return { code, c: char ?? '' };
  });
}
