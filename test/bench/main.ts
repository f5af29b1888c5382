/**
 * `npm run bench`: speeds, errors and bytes as ratios and percentiles, beside their bars, on standard output and in
 * test/bench/numbers.json. With words, only the tables so named: `npm run bench -- drill speed accuracy errors page`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { buildTrainer } from '../browser/open.ts';
import { accuracyTable } from './accuracy.ts';
import { bytesTable } from './bytes.ts';
import { drillTable } from './drill.ts';
import { bitCurve, characterCurve, errorsTable, type Point } from './errors.ts';
import { pageTable } from './page.ts';
import { speedTable } from './speed.ts';
import { isMet, type Table, tableText } from './table.ts';

const FILE = new URL('numbers.json', import.meta.url);

/** What the bench found last time: tables by name, and the curves for the plot. */
export type Numbers = {
  machine: string;
  tables: Record<string, Table[]>;
  curves?: { bits: Point[]; characters: Point[] };
};

function before(): Numbers {
  try {
    return JSON.parse(readFileSync(FILE, 'utf8')) as Numbers;
  } catch {
    return { machine: '', tables: {} };
  }
}

const numbers = before();

const TABLES: Record<string, () => Table[] | Promise<Table[]>> = {
  drill: () => [drillTable()],
  speed: () => [speedTable()],
  accuracy: () => [accuracyTable()],
  errors() {
    const curves = { bits: bitCurve(), characters: characterCurve() };
    numbers.curves = curves;
    return [errorsTable(curves.bits, curves.characters)];
  },
  async page() {
    const files = await buildTrainer();
    return [bytesTable(files), await pageTable(files)];
  },
};

const asked = process.argv.slice(2);
const unknown = asked.find((name) => !(name in TABLES));
if (unknown !== undefined) {
  console.error(`no table ${unknown}; there are ${Object.keys(TABLES).join(', ')}`);
  process.exit(2);
}

numbers.machine = `${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.version}`;
for (const [name, make] of Object.entries(TABLES)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  numbers.tables[name] = await make();
  for (const table of numbers.tables[name]) console.log(tableText(table));
  writeFileSync(FILE, `${JSON.stringify(numbers, null, 1)}\n`);
}
const short = Object.values(numbers.tables)
  .flat()
  .flatMap(({ rows }) => rows.filter((row) => isMet(row) === false));
console.log(short.length === 0 ? 'every bar is met' : `not met: ${short.map((r) => r.what).join('; ')}`);
