/**
 * Makes src/core/physics/sky-wave/theatre-map.ts from test/vectors/fof2-table.csv: npx tsx test/core/physics/theatre-map.generate.ts
 * The table is the ITU-R P.1239 maps evaluated at the nodes. Their hour dependence is a finite Fourier series (6 harmonics of
 * foF2, 4 of M(3000)F2), so 13 and 9 coefficients hold 24 hours. Coefficients are rounded to a step, differenced twice along
 * both axes of place, and written as base64 variable-length integers.
 */
import { writeFileSync } from 'node:fs';
import { num, rowsOf } from './csv.ts';

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const LATITUDES = 9;
const LONGITUDES = 9;

interface Quantity {
  readonly name: string;
  readonly harmonics: number;
  readonly step: number;
  readonly columns: readonly [string, string];
  readonly doc: string;
}

const quantities: readonly Quantity[] = [
  { name: 'FOF2', harmonics: 6, step: 0.0002, columns: ['foF2_R0', 'foF2_R100'], doc: 'foF2 in steps of 0.0002 MHz' },
  {
    name: 'M3000',
    harmonics: 4,
    step: 0.00005,
    columns: ['M3000_R0', 'M3000_R100'],
    doc: 'M(3000)F2 in steps of 0.00005',
  },
];

/** [1, cos kT, sin kT, ...] coefficients of 24 hourly values. */
function fourier(hours: readonly number[], harmonics: number): number[] {
  const mean = hours.reduce((a, b) => a + b) / 24;
  const coefficients = [mean];
  for (let k = 1; k <= harmonics; k++) {
    for (const wave of [Math.cos, Math.sin]) {
      coefficients.push(hours.reduce((sum, y, h) => sum + y * wave((2 * Math.PI * k * h) / 24), 0) / 12);
    }
  }
  return coefficients;
}

function differences(values: number[], stride: number, length: number): void {
  for (let i = values.length - 1; i >= 0; i--) {
    if (Math.floor(i / stride) % length > 0) values[i]! -= values[i - stride]!;
  }
}

function digits(value: number): string {
  let rest = value < 0 ? -value * 2 + 1 : value * 2;
  let text = '';
  do {
    const low = rest % 32;
    rest = Math.floor(rest / 32);
    text += DIGITS[rest > 0 ? low + 32 : low];
  } while (rest > 0);
  return text;
}

function monthText(quantity: Quantity, nodes: Record<string, string>[][]): string {
  const series = nodes.map((hours) => {
    const at = (column: string) =>
      fourier(
        hours.map((row) => num(row, column)),
        quantity.harmonics,
      );
    const low = at(quantity.columns[0]);
    return [low, at(quantity.columns[1]).map((high, i) => high - low[i]!)];
  });
  let text = '';
  for (const r of [0, 1]) {
    for (let c = 0; c <= 2 * quantity.harmonics; c++) {
      const plane = series.map((one) => Math.round(one[r]![c]! / quantity.step));
      for (let twice = 0; twice < 2; twice++) {
        differences(plane, LONGITUDES, LATITUDES);
        differences(plane, 1, LONGITUDES);
      }
      text += plane.map(digits).join('');
    }
  }
  return text;
}

/** The text of theatre-map.ts. */
export function theatreMapText(): string {
  const byNode = new Map<string, Record<string, string>[]>();
  for (const row of rowsOf('fof2-table.csv')) {
    const key = `${row['month']} ${row['lat']} ${row['lng']}`;
    const hours = byNode.get(key) ?? [];
    hours[num(row, 'hour_UTC')] = row;
    byNode.set(key, hours);
  }
  const months = Array.from({ length: 12 }, (_, m) =>
    Array.from({ length: LATITUDES * LONGITUDES }, (_, i) => {
      const lat = 36 + 4 * Math.floor(i / LONGITUDES);
      return byNode.get(`${m + 1} ${lat} ${-10 + 5 * (i % LONGITUDES)}`)!;
    }),
  );
  const parts = quantities.map((quantity) => {
    const lines = months.map((nodes) => `  '${monthText(quantity, nodes)}',\n`).join('');
    return `\n/** ${quantity.doc}, one text a month. */\nexport const ${quantity.name}_BY_MONTH: readonly string[] = [\n${lines}];\n`;
  });
  return `/**
 * foF2 and M(3000)F2 of the theatre, 36..68 N by 4, 10 W..30 E by 5: ITU-R P.1239 maps evaluated at the nodes for R12 = 0
 * and the change to R12 = 100. Each text: R12 (0, change) x Fourier coefficient (mean, cos, sin, ...) x latitude x longitude,
 * rounded, differenced twice along both axes, as base64 variable-length integers. Made by test/core/physics/theatre-map.generate.ts.
 */
${parts.join('')}`;
}

if (process.argv[1]?.endsWith('theatre-map.generate.ts')) {
  writeFileSync(new URL('../../../src/core/physics/sky-wave/theatre-map.ts', import.meta.url), theatreMapText());
}
