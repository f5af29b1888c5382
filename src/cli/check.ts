/** `check`: are these scenario files right? */
import { basename } from 'node:path';
import { KINDS } from '../core/catalogue.ts';
import type { Located } from '../core/record/places.ts';
import { castScenario, readScenario } from '../core/scenario/scenario.ts';
import { readRecordings } from './recordings.ts';
import { FAULTY, OK, Plain, readArgs, readText, USAGE, type Verb } from './verb.ts';

/** What is wrong with a scenario file, and with the recordings that it has on the air with the first seed. */
function faultsOf(path: string): Located[] {
  const text = readText(path);
  const read = readScenario(text, KINDS, path);
  return read.ok ? readRecordings(castScenario(read.source, 1), text, path).errors : read.errors;
}

/** What is wrong, as `path:line:col: CODE what was expected`, with the line and a caret below. */
export const check: Verb = {
  help: [
    'keydown check SCENARIO...',
    '',
    'Checks each file: schema, names of controls, indicators and quantities, draws, papers, recordings.',
    'Prints path:line:col: CODE what was expected. Exit 0 when all are right, 1 when one is not, 2 for a wrong call.',
  ].join('\n'),
  run(args) {
    const { positionals } = readArgs(args, {});
    if (positionals.length === 0) throw new Plain('check wants at least one scenario file', USAGE);
    const faulty = positionals.filter((path) => {
      const errors = faultsOf(path);
      if (errors.length === 0) process.stdout.write(`${path}: right (${basename(path, '.yaml')})\n`);
      for (const e of errors)
        process.stdout.write(
          `${e.file}:${e.line}:${e.col}: ${e.code} ${e.expected}\n    ${e.source}\n    ${e.caret}\n`,
        );
      return errors.length > 0;
    });
    return faulty.length > 0 ? FAULTY : OK;
  },
};
