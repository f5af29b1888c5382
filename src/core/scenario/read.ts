/** Scenario text to a checked source, or to errors that say where. Nothing is half-loaded and nothing throws. */
import { type Located, meant } from '../record/places.ts';
import { type Fault, faults } from '../record/shape.ts';
import type { Json } from '../signals.ts';
import { castScenario, cellsOf } from './cast.ts';
import { checkScenario, type Finding, unusedDraws } from './check.ts';
import { drawsIn, facesOf, fill, MAX_FACES, probes, valuesAt } from './draws.ts';
import { normal } from './normal.ts';
import type { Draw, Kinds, Scenario, ScenarioSource } from './scenario.ts';
import { drawsShape, scenarioShape } from './schema.ts';
import { settleWords } from './settings.ts';
import { MAX_ERRORS, type Path, readTree, type Tree } from './tree.ts';

type Bag = { [key: string]: Json };
const isBag = (x: Json | undefined): x is Bag => typeof x === 'object' && x !== null && !Array.isArray(x);

/** Gathers located errors, each place and code once. */
class Errors {
  private readonly seen = new Map<string, Located>();
  constructor(private readonly tree: Tree) {}
  add(f: Finding): void {
    const offset = f.key
      ? this.tree.keyAt(f.path)
      : f.index === undefined
        ? this.tree.at(f.path)
        : this.tree.charAt(f.path, f.index);
    const error = this.tree.places.error(f.code, offset, f.expected);
    const id = `${error.line}:${error.col}:${error.code}`;
    if (this.seen.size < MAX_ERRORS && !this.seen.has(id)) this.seen.set(id, error);
  }
  addFault(f: Fault): void {
    // A missing key has no place of its own: its parent's key shows where it belongs.
    if (f.missing) this.add({ ...f, path: f.path.slice(0, -1), key: true });
    else this.add(f);
  }
  get list(): Located[] {
    return Array.from(this.seen.values()).sort((a, b) => a.line - b.line || a.col - b.col);
  }
}

function checkDraws(draws: Record<string, Draw>, errors: Errors): void {
  for (const [name, draw] of Object.entries(draws)) {
    const path: Path = ['draws', name];
    if ('from' in draw && draw.to < draw.from)
      errors.add({ path: [...path, 'to'], code: 'out-of-range', expected: 'a number from `from` up' });
    else if ('from' in draw && facesOf(draw) > MAX_FACES) {
      errors.add({
        path: [...path, 'step'],
        code: 'out-of-range',
        expected: `a step that gives at most ${MAX_FACES} values`,
      });
    }
    if (!('with' in draw)) continue;
    const other = Object.hasOwn(draws, draw.with) ? draws[draw.with] : undefined;
    if (!other || 'with' in other) {
      const owners = Object.keys(draws).filter((n) => !('with' in (draws[n] as Draw)));
      errors.add({
        path: [...path, 'with'],
        code: 'unknown-draw',
        expected: `the name of a draw that is not itself a pick${meant(draw.with, owners)}`,
      });
    } else if (facesOf(other) !== draw.pick.length) {
      errors.add({
        path: [...path, 'pick'],
        code: 'too-few',
        expected: `${facesOf(other)} values, as ${draw.with} has`,
      });
    }
  }
}

function checkReferences(data: Json, path: Path, known: readonly string[], errors: Errors): void {
  if (typeof data === 'string') {
    for (const name of drawsIn(data)) {
      if (known.includes(name)) continue;
      errors.add({
        path,
        code: 'unknown-draw',
        expected: `a name under draws${meant(name, known)}`,
        index: data.indexOf(`\${${name}}`),
      });
    }
  } else if (typeof data === 'object' && data !== null) {
    for (const [key, value] of Object.entries(data)) {
      checkReferences(value, [...path, Array.isArray(data) ? Number(key) : key], known, errors);
    }
  }
}

function readDraws(root: Json, errors: Errors): Record<string, Draw> {
  if (!isBag(root) || root['draws'] === undefined) return {};
  const wrong = faults(drawsShape, root['draws']);
  for (const f of wrong) errors.addFault({ ...f, path: ['draws', ...f.path] });
  if (wrong.length > 0) return {};
  const draws = root['draws'] as Record<string, Draw>;
  checkDraws(draws, errors);
  checkReferences(root['draws'], ['draws'], [], errors);
  return draws;
}

function checkName(id: Json | undefined, file: string, errors: Errors): void {
  const base = /([^/\\]*?)(\.ya?ml)?$/.exec(file)?.[1];
  if (base && typeof id === 'string' && /\.ya?ml$/.test(file) && id !== base) {
    errors.add({ path: ['id'], code: 'bad-id', expected: `${base}, as the file is named` });
  }
}

/**
 * Check a scenario's text against the kinds. Draws stay open, but every value that a list can give, and both ends and
 * the middle of every range, is tried, so that casting cannot fail later.
 */
export function readScenario(
  text: string,
  kinds: Kinds,
  file: string,
): { ok: true; source: ScenarioSource } | { ok: false; errors: Located[] } {
  const read = readTree(text, file);
  if (!read.ok) return read;
  const errors = new Errors(read.tree);
  const root = settleWords(read.tree.root, kinds.controls);
  if (!isBag(root))
    errors.add({ path: [], code: 'wrong-type', expected: 'a scenario: a map with id, title and the rest' });
  const draws = readDraws(root, errors);
  if (errors.list.length > 0) return { ok: false, errors: errors.list };
  const { draws: _, ...body } = isBag(root) ? root : ({} as Bag);
  checkReferences(body, [], Object.keys(draws), errors);
  for (const f of unusedDraws(draws, body)) errors.add(f);
  const shape = scenarioShape(kinds);
  for (const probe of probes(draws)) {
    const values = valuesAt(draws, probe);
    const filled = isBag(root)
      ? ({ ...(fill(body, values) as Bag), ...('draws' in root ? { draws: root['draws'] as Json } : {}) } as Bag)
      : root;
    const wrong = faults(shape, filled);
    for (const f of wrong) errors.addFault(f);
    if (wrong.length === 0)
      for (const f of checkScenario(
        normal(filled as Bag, values, (card) => cellsOf(card, 0)),
        kinds,
      ))
        errors.add(f);
  }
  if (isBag(root)) checkName(root['id'], file, errors);
  if (errors.list.length > 0) return { ok: false, errors: errors.list };
  return { ok: true, source: { file, text, draws, tree: body } };
}

/** Read and cast at once. */
export function parseScenario(
  text: string,
  kinds: Kinds,
  options: { file: string; seed: number },
): { ok: true; scenario: Scenario } | { ok: false; errors: Located[] } {
  const read = readScenario(text, kinds, options.file);
  return read.ok ? { ok: true, scenario: castScenario(read.source, options.seed) } : read;
}
