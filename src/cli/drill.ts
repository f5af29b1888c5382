/** `drill`: one whole drill without a browser, by a script or by the model operator. */
import { resolve } from 'node:path';
import { KINDS } from '../core/catalogue.ts';
import { Drill } from '../core/drill.ts';
import { Stuck, workThrough } from '../core/hand/model.ts';
import { playScript, readScript } from '../core/hand/script.ts';
import { lasting } from '../core/quantity/time-text.ts';
import { writeRecord } from '../core/record/format.ts';
import { showErrors } from '../core/record/places.ts';
import { MANNERS } from '../core/record/record.ts';
import { castScenario, readScenario } from '../core/scenario/scenario.ts';
import { readText, writeOut } from './files.ts';
import { readRecordings } from './recordings.ts';
import {
  type Bounds,
  boundsText,
  FAULTY,
  numberOf,
  OK,
  oneWord,
  Plain,
  readArgs,
  SEED,
  USAGE,
  type Verb,
  wordOf,
  wrongCall,
} from './verb.ts';

/** How many times longer the operator's time limits may be, as in a record's header. */
const STRETCH: Bounds = { min: 1, max: 4 };

/** Runs the drill to its end (or the script's) and writes the record. */
export const drill: Verb = {
  help: [
    'keydown drill SCENARIO --hand FILE|model [--seed N] [--manner M] [--stretch X] --out RECORD',
    '',
    '  --hand     a hand script, or `model`: the operator who follows the scenario’s own steps',
    `  --seed     what the scenario’s draws are thrown with: ${boundsText(SEED)} (usually 1)`,
    `  --manner   one of ${MANNERS.join(', ')} (usually unaided)`,
    `  --stretch  how many times longer the operator’s time limits are: ${boundsText(STRETCH)} (usually 1)`,
    '  --out      where the record goes',
    '',
    'A hand script is text, an act a line: a time, and what is done then.',
    '',
    '  12.5  feed.isolator = on             at 12.5 s since the drill began',
    '  +0.8  inverter.lever = A             0.8 s after the line before',
    '  +1    hand.talk press 2.5            held for 2.5 s',
    '  +0.5  printer.key type "RY 12"       key after key with case shifts',
    '  +3    wait                           only moves the clock; # begins a comment',
    '',
    '`keydown station` lists the controls and what they take.',
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
    const { hand, out } = values;
    if (!hand || !out) throw wrongCall('drill wants SCENARIO, --hand and --out', drill.help);
    const path = oneWord(positionals, 'drill wants one scenario', drill.help);
    if ([path, hand].some((input) => resolve(input) === resolve(out)))
      throw new Plain(`--out ${out} would be written over what the drill is made from`, USAGE);
    const seed = numberOf('seed', values.seed, SEED);
    const manner = wordOf('manner', values.manner, MANNERS);
    const stretch = numberOf('stretch', values.stretch, STRETCH);
    const text = readText(path);
    const read = readScenario(text, KINDS, path);
    if (!read.ok) throw new Plain(showErrors(read.errors));
    const scenario = castScenario(read.source, seed);
    const { recordings, errors } = readRecordings(scenario, text, path);
    if (errors.length > 0) throw new Plain(showErrors(errors));
    const setting = { name: scenario.id, scenario: text, seed, manner, stretch };
    const work = new Drill(scenario, setting, undefined, recordings);
    const code = hand === 'model' ? byModel(work, seed) : byScript(work, hand);
    const { lines } = work.record;
    const last = lines.at(-1);
    const end = last?.k === 'end' ? `ended, ${last.why}` : 'not ended';
    writeOut(out, writeRecord(work.record), `${lines.length} lines, ${lasting(work.now_us)} of drill, ${end}`);
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
  const script = readScript(readText(path), path, KINDS.controls);
  if (!script.ok) throw new Plain(showErrors(script.errors));
  playScript(script.acts, work);
  return OK;
}
