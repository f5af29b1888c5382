/** `check`: are these scenario files right? */
import { KINDS } from '../core/catalogue.ts';
import { type Located, showErrors } from '../core/record/places.ts';
import { castScenario, readScenario } from '../core/scenario/scenario.ts';
import { readText } from './files.ts';
import { readRecordings } from './recordings.ts';
import { FAULTY, harmless, OK, Plain, readArgs, type Verb, wrongCall } from './verb.ts';

/** What is wrong with a scenario file, and with the recordings that it has on the air with the first seed. */
function faultsOf(path: string): Located[] {
  const text = readText(path);
  const read = readScenario(text, KINDS, path);
  return read.ok ? readRecordings(castScenario(read.source, 1), text, path).errors : read.errors;
}

/** Whether a file is right; says so, or says what is wrong, on standard output. A file that cannot be read hides no other. */
function isRight(path: string): boolean {
  try {
    const errors = faultsOf(path);
    process.stdout.write(harmless(`${errors.length === 0 ? `${path}: right` : showErrors(errors)}\n`));
    return errors.length === 0;
  } catch (e) {
    if (!(e instanceof Plain)) throw e;
    process.stdout.write(harmless(`${e.message}\n`));
    return false;
  }
}

/** What is wrong, as `path:line:col: CODE what was expected`, with the line and a caret below. */
export const check: Verb = {
  help: [
    'keydown check SCENARIO...',
    '',
    'Checks each file: schema, names, values that a control can take or an indicator show, draws, papers, recordings.',
    'Prints path:line:col: CODE what was expected. Exit 0 when all are right, 1 when one is not, 2 for a wrong call.',
  ].join('\n'),
  run(args) {
    const { positionals } = readArgs(args, {});
    if (positionals.length === 0) throw wrongCall('check wants at least one scenario', check.help);
    const right = positionals.filter(isRight);
    return right.length < positionals.length ? FAULTY : OK;
  },
};
