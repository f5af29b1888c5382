/** What the trainer weighs on the wire. */
import { gzipSync } from 'node:zlib';
import type { Built } from '../browser/open.ts';
import type { Table } from './table.ts';

const zipped_kB = (bytes: Buffer): number => gzipSync(bytes, { level: 9 }).length / 1000;
const isSoundOrFont = (name: string): boolean => /\.(woff2?|ogg|mp3|webm|wav|m4a)$/.test(name);

/** The script of the first page and what it imports at once. */
function shell(files: Built): string[] {
  const page = String(files.get('index.html'));
  const found = new Set<string>();
  const follow = (name: string) => {
    if (found.has(name)) return;
    found.add(name);
    const code = String(files.get(name));
    for (const [, next = ''] of code.matchAll(/(?:\bfrom|\bimport)\s*["']\.\/([^"']+\.js)["']/g))
      follow(`assets/${next}`);
  };
  for (const [, name = ''] of page.matchAll(/(?:src|href)="\.\/([^"]+\.js)"/g)) follow(name);
  return [...found];
}

/** Bytes of a build. */
export function bytesTable(files: Built): Table {
  const sum = (names: Iterable<string>) =>
    [...names].reduce((kB, name) => kB + zipped_kB(files.get(name) as Buffer), 0);
  const all = [...files.keys()].filter((name) => !isSoundOrFont(name));
  return {
    title: 'Bytes, gzip',
    rows: [
      { what: 'script of the shell', value: sum(shell(files)), unit: 'kB', bar: { most: 60 } },
      { what: 'everything but sounds and fonts', value: sum(all), unit: 'kB', bar: { most: 700 } },
      { what: 'Phaser, of that', value: sum(all.filter((name) => name.includes('phaser'))), unit: 'kB' },
    ],
  };
}
