/** One line of the bench: what was measured, beside its bar, and where the bar or the reference comes from. */

/** A number beside its bar. */
export type Row = {
  what: string;
  value: number;
  unit: string;
  /** `value` must be at most, or at least, this; left out where there is no bar. */
  bar?: { most: number } | { least: number };
  /** What it was compared with. */
  source?: string;
};

/** A named table. */
export type Table = { title: string; rows: Row[] };

/** Whether the bar is met; undefined without one. */
export function isMet({ value, bar }: Row): boolean | undefined {
  if (!bar) return undefined;
  return 'most' in bar ? value <= bar.most : value >= bar.least;
}

const figures = (x: number): string => {
  const size = Math.abs(x);
  if (size !== 0 && size < 1e-3) return x.toExponential(1);
  return size >= 100 ? Math.round(x).toLocaleString('en-GB') : String(Number(x.toPrecision(3)));
};

function barWords({ bar, unit }: Row): string {
  if (!bar) return '';
  return 'most' in bar ? `at most ${figures(bar.most)} ${unit}` : `at least ${figures(bar.least)} ${unit}`;
}

/** The table as text, one row a line. */
export function tableText({ title, rows }: Table): string {
  const lines = rows.map((row) => {
    const met = isMet(row);
    return [
      row.what.padEnd(66),
      `${figures(row.value)} ${row.unit}`.padStart(20),
      barWords(row).padStart(28),
      met === undefined ? '    ' : met ? ' met' : ' NOT',
      row.source ? `   ${row.source}` : '',
    ].join(' ');
  });
  return [title, ...lines.map((l) => `  ${l.trimEnd()}`), ''].join('\n');
}

/** The value below which the share `p` of `xs` lies. */
export function percentile(xs: readonly number[], p: number): number {
  const sorted = [...xs].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))] ?? Number.NaN;
}

/** Milliseconds of one core that `work` takes: what the process was given, not what the clock on the wall says of a busy machine. */
export function cpu_ms(work: () => unknown): number {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}
