/** `reach`: how far a station gets, asked of the same physics that the drill runs on. */
import { createInterface } from 'node:readline';
import { answer } from './questions.ts';
import { reachTable, TABLE_FLAGS, TABLE_HELP, type Values } from './reach-table.ts';
import { FAULTY, OK, Plain, readArgs, USAGE, type Verb, wrongCall } from './verb.ts';

/** Longest question taken, characters. */
const MAX_QUESTION = 100_000;

async function converse(): Promise<number> {
  let code = OK;
  let n = 0;
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    n++;
    if (line.trim() === '') continue;
    const said = ask(line);
    if ('error' in said) code = FAULTY;
    process.stdout.write(`${JSON.stringify('error' in said ? { error: `line ${n}: ${said['error']}` } : said)}\n`);
  }
  return code;
}

function ask(line: string) {
  if (line.length > MAX_QUESTION) return { error: `at most ${MAX_QUESTION} characters` };
  try {
    return answer(JSON.parse(line));
  } catch {
    return { error: 'expected one JSON object a line' };
  }
}

function tell(values: Values): number {
  try {
    process.stdout.write(`${reachTable(values)}\n`);
    return OK;
  } catch (e) {
    throw e instanceof RangeError ? new Plain(e.message, USAGE) : e;
  }
}

/** A table for people, or one JSON question a line on standard input, one answer a line on standard output. */
export const reach: Verb = {
  help: [
    'keydown reach --to PLACE | --km KM [options]    a table of hours against frequencies',
    'keydown reach --json                            one JSON question a line on standard input, one answer a line',
    '',
    ...TABLE_HELP,
    '',
    'Questions:',
    '',
    '  {"kind":"ground","f_MHz":5,"d_km":40,"ground":{"eps_r":15,"sigma_S_per_m":0.005},"h_tx_m":2,"h_rx_m":2,"power_W":1000}',
    '  {"kind":"noise","f_MHz":5,"environment":"rural","galactic":true}',
    '  {"kind":"whip","f_MHz":5,"h_m":4.57,"a_m":0.01}',
    '  {"kind":"iono","lat":50,"lng":10,"month":6,"hour_UT":12,"R12":50}',
    '  {"kind":"sky","tx":[50,10],"rx":[50.44,11.22],"R12":10,"month":1,"hour_UT":3,"f_MHz":2,"reference":false}',
    '',
    'What does not exist is null, with a reason. Exit 0, or 1 when a question was faulty (its answer holds `error`), 2 for a wrong call.',
  ].join('\n'),
  run(args) {
    const texts = Object.fromEntries(TABLE_FLAGS.map((name) => [name, { type: 'string' } as const]));
    const { values, positionals } = readArgs(args, { ...texts, json: { type: 'boolean' } });
    const { json, ...table } = values as Values & { json?: boolean };
    const ways = [table.to, table.km, json].filter((way) => way !== undefined).length;
    if (positionals.length > 0 || ways !== 1) throw wrongCall('reach wants one of --to, --km and --json', reach.help);
    if (!json) return tell(table);
    const [idle] = Object.keys(table);
    if (idle !== undefined)
      throw new Plain(`--${idle} is of the table; with --json the questions hold everything`, USAGE);
    return converse();
  },
};
