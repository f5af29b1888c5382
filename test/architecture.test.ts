/** The import rule, the fences and the forbidden clocks and dice (DEVELOPERS.md, "Import rule"). */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../src');

function filesBelow(dir: string): string[] {
  return readdirSync(dir).flatMap((name) => {
    const path = join(dir, name);
    return statSync(path).isDirectory() ? filesBelow(path) : /\.ts$/.test(name) ? [path] : [];
  });
}

/** Rows of the house, lowest first: a row may import from the rows before it, never from a neighbour in its own. */
const ROWS: readonly (readonly string[])[] = [
  ['core/numeric'],
  ['core/quantity'],
  ['core/signals.ts'],
  ['core/kernel', 'core/record', 'core/telegraphy', 'core/physics'],
  ['core/procedure', 'core/samples'],
  ['core/station', 'core/ether', 'core/distant', 'core/scenario', 'core/marking'],
  ['core/guide', 'core/inside', 'core/debrief', 'core/learning'],
  ['core/catalogue.ts'],
  ['core/drill.ts'],
  ['core/hand', 'core/proof'],
  ['panel', 'sound', 'pages', 'store', 'cli'],
  ['main.ts'],
];

/** Shells see this much of core (and of each other nothing); `cli` sees all of it. */
const SHELL_SEES: Readonly<Record<string, readonly string[]>> = {
  panel: ['core/drill.ts', 'core/signals.ts', 'core/quantity', 'core/station/box.ts', 'core/telegraphy'],
  sound: ['core/drill.ts', 'core/signals.ts', 'core/samples'],
  pages: [
    'core/drill.ts',
    'core/signals.ts',
    'core/quantity',
    'core/scenario/scenario.ts',
    'core/debrief',
    'core/guide',
    'core/learning',
    'core/record/record.ts',
    'core/telegraphy',
  ],
  store: ['core/record'],
  cli: ['core'],
};

/** Type-only exceptions, each with its reason. */
const ALLOWED: readonly (readonly [from: string, to: string, why: string])[] = [
  ['core/marking', 'core/scenario/scenario.ts', 'a measure is told its scenario by type only'],
  ['core/distant', 'core/scenario/scenario.ts', 'a correspondent is told its papers by type only'],
];

type Import = { from: string; to: string; line: string };
const name = (path: string) => relative(root, path).replaceAll('\\', '/');
const imports: Import[] = filesBelow(root).flatMap((path) =>
  [
    ...readFileSync(path, 'utf8').matchAll(
      /^(?:import|export)\b[^;]*?from\s+'([^']+)'|import\('([^']+)'\)|^import '([^']+)'/gms,
    ),
  ].map((m) => {
    const spec = (m[1] ?? m[2] ?? m[3]) as string;
    return { from: name(path), to: spec.startsWith('.') ? name(resolve(dirname(path), spec)) : spec, line: m[0] };
  }),
);

const within = (file: string, place: string) => file === place || file.startsWith(`${place}/`);
const rowOf = (file: string) => ROWS.findIndex((row) => row.some((place) => within(file, place)));
const placeOf = (file: string) => ROWS[rowOf(file)]?.find((place) => within(file, place));
const inside = imports.filter(
  (i) => !i.to.includes('node_modules') && /\.(ts|json)$/.test(i.to) && !i.to.startsWith('..'),
);

describe('import rule', () => {
  it('knows the row of every file', () => {
    expect(
      filesBelow(root)
        .map(name)
        .filter((f) => rowOf(f) < 0),
    ).toEqual([]);
  });

  it('lets a file import only its own room and rows below', () => {
    const wrong = inside.filter((i) => {
      if (placeOf(i.from) === placeOf(i.to)) return false;
      const excused = ALLOWED.some(
        ([from, to]) => within(i.from, from) && within(i.to, to) && i.line.startsWith('import type'),
      );
      return !excused && rowOf(i.to) >= rowOf(i.from);
    });
    expect(wrong.map((i) => `${i.from} -> ${i.to}`)).toEqual([]);
  });

  it('lets shells see only what they are allowed of core', () => {
    const wrong = inside.filter((i) => {
      const shell = placeOf(i.from);
      const sees = shell === undefined ? undefined : SHELL_SEES[shell];
      return sees !== undefined && i.to.startsWith('core/') && !sees.some((place) => within(i.to, place));
    });
    expect(wrong.map((i) => `${i.from} -> ${i.to}`)).toEqual([]);
  });
});

describe('fences', () => {
  const outside = imports.filter((i) => !/^\.|\.ts$|\.json$/.test(i.to));
  const users = (test: RegExp) => outside.filter((i) => test.test(i.to));

  it('keeps Phaser in the panel, Howler in sound, node in the command line', () => {
    expect(users(/^phaser/).filter((i) => !within(i.from, 'panel'))).toEqual([]);
    expect(users(/^howler/).filter((i) => !within(i.from, 'sound'))).toEqual([]);
    expect(users(/^node:/).filter((i) => !within(i.from, 'cli'))).toEqual([]);
  });

  it('runs XState in the kernel only: elsewhere `setup` and types', () => {
    const wrong = users(/^xstate/).filter(
      (i) =>
        i.from !== 'core/kernel/machine.ts' && !i.line.startsWith('import type') && !/^import \{ setup \}/.test(i.line),
    );
    expect(wrong).toEqual([]);
  });
});

describe('core is deterministic', () => {
  const banned =
    /\b(Date\.now|new Date|Math\.random|performance\.now|setTimeout|setInterval|requestAnimationFrame|Math\.(?:sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh|asinh|acosh|atanh|exp|expm1|log|log10|log2|log1p|pow|hypot|cbrt))\b|\*\*/;
  it('uses no clock or dice but its own and no engine-dependent function', () => {
    const wrong = filesBelow(join(root, 'core')).flatMap((path) =>
      readFileSync(path, 'utf8')
        .split('\n')
        .map((text, i) => ({ at: `${name(path)}:${i + 1}`, text: text.replace(/\/\/.*$|^\s*\/?\*.*$/, '') }))
        .filter(({ text }) => banned.test(text) && !/^\s*\/?\*/.test(text)),
    );
    expect(wrong).toEqual([]);
  });
});
