/** A record from a file, with the scenario that it carries and its mark. */
import { KINDS, MEASURES, NAMES } from '../core/catalogue.ts';
import { mark } from '../core/marking/marking.ts';
import { readRecord } from '../core/record/format.ts';
import { showErrors } from '../core/record/places.ts';
import { parseScenario } from '../core/scenario/scenario.ts';
import { readText } from './files.ts';
import { Plain } from './verb.ts';

/** Read, cast and mark. A plain error with places when record or scenario is faulty. */
export function markRecord(path: string) {
  const read = readRecord(readText(path), path);
  if (!read.ok) throw new Plain(showErrors(read.errors));
  const { record } = read;
  const { scenario: text, seed, name } = record.header;
  const parsed = parseScenario(text, KINDS, { file: `${path} (scenario ${name})`, seed });
  if (!parsed.ok) throw new Plain(showErrors(parsed.errors));
  return { record, scenario: parsed.scenario, marked: mark(record, parsed.scenario, MEASURES, NAMES) };
}
