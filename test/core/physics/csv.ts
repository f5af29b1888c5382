import { readFileSync } from 'node:fs';

const cells = (line: string): string[] => [...line.matchAll(/("([^"]*)"|[^,]*)(,|$)/g)].map((m) => m[2] ?? m[1] ?? '');

/** The rows of a table in test/vectors, by column name. */
export function rowsOf(name: string): Record<string, string>[] {
  const lines = readFileSync(new URL(`../../vectors/${name}`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  const names = cells(lines[0] ?? '');
  return lines.slice(1).map((line) => {
    const values = cells(line);
    return Object.fromEntries(names.map((n, i) => [n, values[i] ?? '']));
  });
}

/** The number in a column. */
export function num(row: Record<string, string>, column: string): number {
  const x = Number(row[column]);
  if (row[column] === undefined || Number.isNaN(x)) throw new RangeError(`no number in ${column}: ${row[column]}`);
  return x;
}

/** The value below which the share `p` of `xs` lies. */
export function percentile(xs: readonly number[], p: number): number {
  const sorted = [...xs].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))] ?? Number.NaN;
}
