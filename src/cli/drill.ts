/** `drill`: one whole drill without a browser, by a script or by the model operator. */
import { KINDS } from '../core/catalogue.ts';
import { Drill } from '../core/drill.ts';
import { Stuck, workThrough } from '../core/hand/model.ts';
import { playScript, readScript } from '../core/hand/script.ts';
import { writeRecord } from '../core/record/format.ts';
import { showErrors } from '../core/record/places.ts';
import { MANNERS, type Manner } from '../core/record/record.ts';
import { castScenario, readScenario } from '../core/scenario/scenario.ts';
import { readRecordings } from './recordings.ts';
import { FAULTY, OK, Plain, readArgs, readText, USAGE, type Verb, wholeNumber, writeText } from './verb.ts';

/** Runs the drill to its end (or the script's) and writes the record. */
export const drill: Verb = {
  help: [
    'keydown drill SCENARIO --hand FILE|model [--seed N] [--manner M] [--stretch X] --out RECORD',
    '',
    '  --hand     a hand script (see DEVELOPERS.md), or `model`: the operator who follows the scenario’s own steps',
    '  --seed     what the scenario’s draws are thrown with, 0 to 2147483647 (default 1)',
    `  --manner   ${MANNERS.join(', ')} (default unaided)`,
    '  --stretch  how many times longer the operator’s time limits are, 1 to 4 (default 1)',
    '  --out      where the record goes',
    '',
    'Exit 0 when the hand came to its end, 1 when a file is faulty or the model operator got stuck (the record is written all the same), 2 for a wrong call.',
  ].join('\n'),
  run(args) {
    const { values, positionals } = readArgs(args, {
      hand: { type: 'string' },
      seed: { type: 'string', default: '1' },
      manner: { type: 'string', default: 'unaided' },
      stretch: { type: 'string', default: '1' },
      out: { type: 'string' },
    });
    const [path] = positionals;
    if (path === undefined || positionals.length > 1 || !values.hand || !values.out)
      throw new Plain(`drill wants SCENARIO, --hand and --out\n\n${drill.help}`, USAGE);
    const seed = wholeNumber('seed', values.seed, 0, 0x7fffffff);
    const manner = MANNERS.find((m): m is Manner => m === values.manner);
    if (!manner) throw new Plain(`--manner takes one of ${MANNERS.join(', ')}, got ${values.manner}`, USAGE);
    const stretch = Number(values.stretch);
    if (!(stretch >= 1 && stretch <= 4))
      throw new Plain(`--stretch takes a number from 1 to 4, got ${values.stretch}`, USAGE);
    const text = readText(path);
    const read = readScenario(text, KINDS, path);
    if (!read.ok) throw new Plain(showErrors(read.errors));
    const scenario = castScenario(read.source, seed);
    const { recordings, errors } = readRecordings(scenario, text, path);
    if (errors.length > 0) throw new Plain(showErrors(errors));
    const setting = { name: scenario.id, scenario: text, seed, manner, stretch };
    const work = new Drill(scenario, setting, undefined, recordings);
    const code = values.hand === 'model' ? byModel(work, seed) : byScript(work, values.hand);
    writeText(values.out, writeRecord(work.record));
    return code;
  },
};

function byModel(work: Drill, seed: number): number {
  try {
    workThrough(work.scenario, work, seed);
    return OK;
  } catch (e) {
    if (!(e instanceof Stuck)) throw e;
    process.stderr.write(`keydown: the model operator got stuck: ${e.message}\n`);
    return FAULTY;
  }
}

function byScript(work: Drill, path: string): number {
  const script = readScript(readText(path), path, (name) => work.control(name));
  if (!script.ok) throw new Plain(showErrors(script.errors));
  playScript(script.acts, work);
  return OK;
}
