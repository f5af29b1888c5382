/**
 * What engine 0.1.0 left behind, made by its own code (commit 3d39c7a): the record of `keydown drill
 * scenarios/first-call.yaml --seed 1 --hand model`, and the journal of a run of the first 389 acts of it, not finished.
 * Its drill has a kind of measure and a control that later engines do not.
 */
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';

const told = (name: string): string => gunzipSync(readFileSync(new URL(name, import.meta.url))).toString('utf8');

export const OLD = 'keydown 0.1.0';
export const oldRecord = told('keydown-0.1.0.jsonl.gz');
/** As `Runs.raw` gives it: keys of the shelf with what they hold. */
export const oldJournal = told('keydown-0.1.0-journal.txt.gz');
export const oldKeys = oldJournal.split('\n').map((line) => line.split('\t') as [key: string, value: string]);
export const OLD_RUN = 'mieacjk0';
