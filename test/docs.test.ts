/** README and DEVELOPERS.md say what is so. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BOXES } from '../src/core/catalogue.ts';

const readme = readFileSync('README.md', 'utf8');
const developers = readFileSync('DEVELOPERS.md', 'utf8');
const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };

const MARK = /<!-- sampled quantities[^>]*-->\n([\s\S]*?)<!-- end -->/;
const table = [
  '',
  '| quantity | unit | step |',
  '|---|---|---|',
  ...BOXES.flatMap((b) => b.sampled.map((q) => `| \`${b.id}.${q.id}\` | ${q.unit || '–'} | ${q.step} |`)),
  '',
  '',
].join('\n');

describe('the documents', () => {
  it('list every sampled quantity, its unit and step', () => {
    if (process.env['KEYDOWN_WRITE'])
      writeFileSync(
        'DEVELOPERS.md',
        developers.replace(MARK, (all, old: string) => all.replace(old, table)),
      );
    else expect(MARK.exec(developers)?.[1]).toBe(table);
  });

  it('name only commands that exist', () => {
    for (const text of [readme, developers]) {
      for (const [, name] of text.matchAll(/npm run (?:-s )?(\w+)/g)) expect(scripts).toHaveProperty(name as string);
      for (const [, name] of text.matchAll(/npm (start|test)\b/g)) expect(scripts).toHaveProperty(name as string);
    }
  });

  it('name only files that exist', () => {
    for (const text of [readme, developers]) {
      for (const [, path] of text.matchAll(
        /`((?:core|panel|pages|sound|store|cli|src|test|scenarios|assets)\/[\w./-]+)`/g,
      )) {
        const found = [path as string, `src/${path}`].some((p) => existsSync(p));
        expect([path, found]).toEqual([path, true]);
      }
    }
  });

  it('open with the job and the two commands', () => {
    expect(readme.indexOf('npm ci && npm start')).toBeGreaterThan(0);
    expect(readme.indexOf('npm ci && npm test')).toBeGreaterThan(readme.indexOf('npm ci && npm start'));
    expect(readme.split('\n\n')[1]).toContain('trains the operator');
  });
});
