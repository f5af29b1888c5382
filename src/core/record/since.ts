/** What a person at the station would remember of the last while, from the record. Times are whole microseconds. */
import type { ControlValue } from '../signals.ts';
import type { DrillRecord, Line } from './record.ts';

/** Lines later than `since_us`. */
function linesSince({ lines }: DrillRecord, since_us: number): Line[] {
  let first = lines.length;
  while (first > 0 && (lines[first - 1] as Line).t > since_us) first--;
  return lines.slice(first);
}

/** What a control was set to, in order, without what was refused. */
export function didSince(record: DrillRecord, control: string, since_us: number): ControlValue[] {
  const values: ControlValue[] = [];
  let last: ControlValue | undefined;
  for (const line of linesSince(record, since_us)) {
    if (line.k !== 'do' && line.k !== 'refused') continue;
    if (last !== undefined && line.k === 'do') values.push(last);
    last = line.k === 'do' && line.control === control ? line.value : undefined;
  }
  return last === undefined ? values : [...values, last];
}

/** What the ear made out, utterances joined by ` | `. */
export const heardSince = (record: DrillRecord, since_us: number): string =>
  linesSince(record, since_us)
    .flatMap((l) => (l.k === 'heard' ? [l.words] : []))
    .join(' | ');

/** What the own printer printed, line ends as newlines. */
export const printedSince = (record: DrillRecord, since_us: number): string =>
  linesSince(record, since_us)
    .flatMap((l) => (l.k === 'print' && l.at === 'own' ? [l.c] : []))
    .join('')
    .replace(/\r/g, '');
