/** A record from a file, with the scenario that it carries and its mark. */
import { KINDS, MEASURES, NAMES } from '../core/catalogue.ts';
import { mark } from '../core/marking/marking.ts';
import { readRecord } from '../core/record/format.ts';
import { type Located, showErrors } from '../core/record/places.ts';
import { type Header, notTaken, writerOf } from '../core/record/record.ts';
import { parseScenario } from '../core/scenario/scenario.ts';
import { readText } from './files.ts';
import { Plain } from './verb.ts';

/** Read, cast and mark. A plain error with places when record or scenario is faulty, in one sentence when the scenario is another engine's. */
export function markRecord(path: string) {
  const read = readRecord(readText(path), path);
  if (!read.ok) throw new Plain(showErrors(read.errors));
  const { record } = read;
  const { scenario: text, seed, name } = record.header;
  const parsed = parseScenario(text, KINDS, { file: `${path} (scenario ${name})`, seed });
  if (!parsed.ok) throw new Plain(refusal(path, record.header, parsed.errors));
  return { record, scenario: parsed.scenario, marked: mark(record, parsed.scenario, MEASURES, NAMES) };
}

function refusal(path: string, header: Header, errors: Located[]): string {
  const why = notTaken(header, 'record');
  if (why === undefined) return showErrors(errors);
  const at = errors[0] ? ` (first at ${errors[0].line}:${errors[0].col} of its scenario)` : '';
  return `${path}: ${why}${at}: mark it with ${writerOf(header)}.`;
}
