/** Pages and panel share one document, and the panel's styles arrive late: what both style would look otherwise afterwards. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const root = new URL('../../src/', import.meta.url).pathname;

/** Mono type, and words for screen readers only: they are meant the same in both shells. */
const SHARED = ['mono', 'unseen'];

const sheetsOf = (shell: string): string =>
  readdirSync(root + shell, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.css'))
    .map((file) => readFileSync(`${root}${shell}/${file}`, 'utf8').replace(/\/\*[\s\S]*?\*\//g, ''))
    .join('\n');

/** Every rule of a shell's style sheets: its selector and what it declares. */
const rulesOf = (shell: string) =>
  [...sheetsOf(shell).matchAll(/(?:^|[{};])\s*([^{};@]+)\{([^{}]*)/g)].map(([, selector, declared]) => ({
    selector: (selector as string).trim(),
    declared: (declared as string).replace(/\s+/g, ' ').trim(),
  }));
const selectorsOf = (shell: string): string[] => rulesOf(shell).map(({ selector }) => selector);

const classesIn = (selector: string): string[] => [...selector.matchAll(/\.([a-zA-Z][\w-]*)/g)].map(([, c]) => c!);

it('no class is styled by the pages and by the panel', () => {
  const pages = new Set(selectorsOf('pages').flatMap(classesIn));
  const panel = new Set(selectorsOf('panel').flatMap(classesIn));
  expect(pages.size).toBeGreaterThan(50);
  expect(panel.size).toBeGreaterThan(50);
  expect([...pages].filter((c) => panel.has(c)).sort()).toEqual(SHARED);
});

it.each(SHARED)('.%s is the same in both', (c) => {
  const [pages, panel] = ['pages', 'panel'].map((shell) =>
    rulesOf(shell).find(({ selector }) => new RegExp(`(^|,\\s*)\\.${c}$|^\\.${c},`).test(selector)),
  );
  expect(panel?.declared).toBe(pages?.declared);
});

it('the panel styles nothing without a class or a theme of its own', () => {
  const bare = selectorsOf('panel').filter((s) => classesIn(s).length === 0 && !/^(from|to|[\d.]+%)/.test(s.trim()));
  expect(bare).toEqual([]);
});
