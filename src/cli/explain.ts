/** `explain`: the debrief of a record as text. */
import { NAMES } from '../core/catalogue.ts';
import { debrief } from '../core/debrief/debrief.ts';
import { explain as asText } from '../core/debrief/explain.ts';
import { markRecord } from './marked.ts';
import { harmless, OK, oneWord, readArgs, type Verb } from './verb.ts';

/** What was expected, what happened, why it matters, what to do next time. */
export const explain: Verb = {
  help: 'keydown explain RECORD\n\nPrints the debrief: expected and happened, each measure not met with its moment, why it matters, what to do next time.\nExit 0 whatever the verdict, 1 for a faulty record, 2 for a wrong call.',
  run(args) {
    const { positionals } = readArgs(args, {});
    const { record, scenario, marked } = markRecord(oneWord(positionals, 'explain wants one record', explain.help));
    process.stdout.write(harmless(asText(debrief(record, marked, scenario, NAMES))));
    return OK;
  },
};
