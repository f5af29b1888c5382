/** `check`: are these scenario files right? */
import { basename } from 'node:path';
import { KINDS } from '../core/catalogue.ts';
import { readScenario } from '../core/scenario/scenario.ts';
import { FAULTY, OK, Plain, readArgs, readText, USAGE, type Verb } from './verb.ts';

/** What is wrong, as `path:line:col: CODE what was expected`, with the line and a caret below. */
export const check: Verb = {
  help: [
    'keydown check SCENARIO...',
    '',
    'Checks each file: schema, names of controls, indicators and quantities, draws, papers.',
    'Prints path:line:col: CODE what was expected. Exit 0 when all are right, 1 when one is not, 2 for a wrong call.',
  ].join('\n'),
  run(args) {
    const { positionals } = readArgs(args, {});
    if (positionals.length === 0) throw new Plain('check wants at least one scenario file', USAGE);
    const faulty = positionals.filter((path) => {
      const read = readScenario(readText(path), KINDS, path);
      if (read.ok) process.stdout.write(`${path}: right (${basename(path, '.yaml')})\n`);
      else
        for (const e of read.errors)
          process.stdout.write(
            `${e.file}:${e.line}:${e.col}: ${e.code} ${e.expected}\n    ${e.source}\n    ${e.caret}\n`,
          );
      return !read.ok;
    });
    return faulty.length > 0 ? FAULTY : OK;
  },
};
