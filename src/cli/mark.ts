/** `mark`: a record's mark, from the record alone. */
import { MEASURES } from '../core/catalogue.ts';
import { type DrillRecord, ENGINE } from '../core/record/record.ts';
import { markRecord } from './marked.ts';
import { harmless, OK, oneWord, readArgs, type Verb } from './verb.ts';

/** What else one must know of a mark: that the drill was not over, that another engine recorded it. */
function asides({ header, lines }: DrillRecord): string {
  const said = [
    ...(lines.some((l) => l.k === 'end') ? [] : ['The record has no end: the drill was not over.']),
    ...(header.engine === ENGINE ? [] : [`Recorded by ${header.engine}, marked by ${ENGINE}.`]),
  ];
  return said.map((line) => `${line}\n`).join('');
}

/** Text for people, or JSON with the verdict first. */
export const mark: Verb = {
  help: [
    'keydown mark RECORD [--json]',
    '',
    'Marks the drill from its record alone, by the scenario that the record carries. With --json: {"verdict": "GO"|"NO-GO", "score", "pass", "measures": [{id, go, exercised, points, of, value, because: [line numbers]}]}.',
    `Kinds of measures: ${MEASURES.map((m) => m.id).join(', ')}.`,
    'A record of another version is marked as long as this one takes the drill in it, and the mark says so; otherwise mark it with the version that wrote it.',
    'Exit 0 whatever the verdict, 1 for a record that is faulty or not taken, 2 for a wrong call.',
  ].join('\n'),
  run(args) {
    const { values, positionals } = readArgs(args, { json: { type: 'boolean', default: false } });
    const { record, marked } = markRecord(oneWord(positionals, 'mark wants one record', mark.help));
    if (values.json) {
      process.stdout.write(`${JSON.stringify(marked, null, 2)}\n`);
      return OK;
    }
    const rows = marked.measures.map((m) => {
      const state = m.exercised ? (m.go ? 'GO   ' : 'NO-GO') : 'never';
      return `${state}  ${String(m.points).padStart(3)} of ${String(m.of).padStart(2)}  ${m.critical ? '*' : ' '} ${m.title}: ${m.value}  [${m.because.join(' ')}]`;
    });
    process.stdout.write(
      harmless(
        `${marked.verdict}  ${marked.score.toFixed(1)} of 100, pass ${marked.pass}\n\n${rows.join('\n')}\n\n* must be met. never: not exercised, earns nothing. Numbers in brackets are lines of the record.\n${asides(record)}`,
      ),
    );
    return OK;
  },
};
