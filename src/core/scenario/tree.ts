/**
 * YAML text to plain data with the place of everything. What could exhaust memory or stack is refused before the text is
 * composed: size, depth and aliases are counted on the parser's flat token stream.
 */
import { Composer, type CST, isAlias, isMap, isScalar, isSeq, Lexer, type Node, type Pair, Parser } from 'yaml';
import { type Located, Places } from '../record/places.ts';
import type { Json } from '../signals.ts';

/** Longest text taken, characters. */
export const MAX_CHARS = 1_048_576;
/** Deepest nesting of maps and lists. */
export const MAX_DEPTH = 24;
/** Most aliases. */
export const MAX_ALIASES = 32;
/** Most values once aliases are followed. */
export const MAX_VALUES = 50_000;
/** Most pieces of YAML: words, marks and gaps between them. */
export const MAX_PIECES = 100_000;
/** Most errors reported at once. */
export const MAX_ERRORS = 50;

/** Steps from the root to a value. */
export type Path = readonly (string | number)[];
const keyed = (path: Path): string => JSON.stringify(path);

/** Plain data, with places. */
export class Tree {
  readonly values = new Map<string, number>();
  readonly keys = new Map<string, number>();
  /** Places of values that stand unquoted on one line, or quoted without escapes: there an index in the text is an index in the source. */
  readonly literal = new Map<string, number>();
  root: Json = null;
  constructor(readonly places: Places) {}

  /** Offset of a value, or of the nearest parent that is in the text. */
  at(path: Path): number {
    for (let n = path.length; n > 0; n--) {
      const found = this.values.get(keyed(path.slice(0, n)));
      if (found !== undefined) return found;
    }
    return 0;
  }
  /** Offset of a value's key; of the value where it has none (in a list, the root). */
  keyAt(path: Path): number {
    return this.keys.get(keyed(path)) ?? this.at(path);
  }
  /** Offset of character `index` of a string value. */
  charAt(path: Path, index: number): number {
    const start = this.literal.get(keyed(path));
    return start === undefined ? this.at(path) : start + index;
  }
}

// Words for what the parser found, by its code. Its own words speak of its insides.
const SAYS: Readonly<Record<string, string>> = {
  MISSING_CHAR: 'a closing quote or bracket, or a colon after a key',
  BAD_INDENT: 'the same indentation as the lines beside it, and every bracket closed',
  TAB_AS_INDENT: 'spaces, not tabs, before a line',
  MULTIPLE_DOCS: 'one document only (a single scenario a file)',
  TAG_RESOLVE_FAILED: 'plain values without a tag (!...)',
  BAD_DIRECTIVE: 'no % directive, or %YAML 1.2',
  BAD_ALIAS: 'an alias of an anchor that stands before it',
  UNEXPECTED_TOKEN: 'a key, a value or a list item',
};

/** The text's concrete syntax, token by token, unless it is beyond the caps. */
function scan(text: string, places: Places): CST.Token[] | Located {
  const tokens: CST.Token[] = [];
  const parser = new Parser();
  let aliases = 0;
  let pieces = 0;
  let offset = 0;
  for (const lexeme of new Lexer().lex(text)) {
    tokens.push(...parser.next(lexeme));
    // The lexer's own marks (document, flow end, scalar) are not in the text.
    if (lexeme === '\x02' || lexeme === '\x18' || lexeme === '\x1f') continue;
    if (++pieces > MAX_PIECES) return places.error('too-many-values', offset, `at most ${MAX_PIECES} words and marks`);
    if (lexeme.startsWith('*') && ++aliases > MAX_ALIASES) {
      return places.error('too-many-aliases', offset, `at most ${MAX_ALIASES} aliases`);
    }
    if (
      parser.stack.length > MAX_DEPTH &&
      parser.stack.filter((t) => /^(block|flow)-/.test(t.type)).length > MAX_DEPTH
    ) {
      return places.error('too-deep', offset, `nesting at most ${MAX_DEPTH} deep`);
    }
    offset += lexeme.length;
  }
  tokens.push(...parser.end());
  return tokens;
}

/** Turns composed nodes into plain data. */
class Walk {
  private readonly open = new Set<Node>();
  private count = 0;
  readonly errors: Located[] = [];
  constructor(
    private readonly tree: Tree,
    private readonly anchors: ReadonlyMap<string, Node>,
  ) {}

  private fail(code: string, node: { range?: readonly number[] | null } | null, expected: string): null {
    if (this.errors.length < MAX_ERRORS)
      this.errors.push(this.tree.places.error(code, node?.range?.[0] ?? 0, expected));
    return null;
  }

  value(node: Node | null, path: Path): Json {
    if (++this.count > MAX_VALUES) {
      return this.count === MAX_VALUES + 1
        ? this.fail('too-many-values', node, `at most ${MAX_VALUES} values, aliases followed`)
        : null;
    }
    if (node === null) return null;
    const place = node.range?.[0] ?? 0;
    if (!this.tree.values.has(keyed(path))) this.tree.values.set(keyed(path), place);
    if (isAlias(node)) return this.alias(node.source, node, path);
    if (node.tag !== undefined && /^!(?!!?(map|seq|str|int|float|bool|null)$)/.test(node.tag)) {
      return this.fail('bad-yaml', node, SAYS['TAG_RESOLVE_FAILED'] as string);
    }
    this.open.add(node);
    const out = isMap(node)
      ? this.map(node.items, path)
      : isSeq(node)
        ? this.list(node.items as Node[], path)
        : this.scalar(node, path);
    this.open.delete(node);
    return out;
  }

  private alias(name: string, node: Node, path: Path): Json {
    const target = this.anchors.get(name);
    if (!target) return this.fail('bad-yaml', node, SAYS['BAD_ALIAS'] as string);
    if (this.open.has(target)) return this.fail('cyclic-alias', node, 'an alias that does not contain itself');
    return this.value(target, path);
  }

  private list(items: readonly Node[], path: Path): Json {
    return items.map((item, i) => this.value(item, [...path, i]));
  }

  private map(items: readonly Pair[], path: Path): Json {
    const entries = new Map<string, Json>();
    for (const { key, value } of items) {
      if (
        !isScalar(key) ||
        (typeof key.value !== 'string' && typeof key.value !== 'number') ||
        key.value === '__proto__'
      ) {
        this.fail('bad-key', key as Node | null, 'a plain word as key');
        continue;
      }
      // A key like 007 is kept as it is written, not as the number 7.
      const name = typeof key.value === 'number' ? (key.source ?? String(key.value)) : key.value;
      if (entries.has(name)) this.fail('duplicate-key', key, `key "${name}" once`);
      this.tree.keys.set(keyed([...path, name]), key.range?.[0] ?? 0);
      entries.set(name, this.value(value as Node | null, [...path, name]));
    }
    return Object.fromEntries(entries);
  }

  private scalar(node: Node, path: Path): Json {
    const { value, type, range } = node as { value?: unknown; type?: string; range?: readonly number[] };
    if (typeof value === 'number') {
      return Number.isFinite(value) ? value : this.fail('bad-number', node, 'a finite number');
    }
    if (typeof value === 'boolean' || value === null) return value;
    if (typeof value !== 'string') return this.fail('bad-yaml', node, 'a text, a number, true, false or null');
    const quote = type === 'PLAIN' ? 0 : 1;
    if (
      /^(PLAIN|QUOTE_DOUBLE|QUOTE_SINGLE)$/.test(type ?? '') &&
      range &&
      (range[1] as number) - (range[0] as number) === value.length + 2 * quote
    ) {
      this.tree.literal.set(keyed(path), (range[0] as number) + quote);
    }
    return value;
  }
}

/** Read YAML text. Everything that is wrong with it as YAML comes back located; nothing throws. */
export function readTree(text: string, file: string): { ok: true; tree: Tree } | { ok: false; errors: Located[] } {
  if (text.length > MAX_CHARS) {
    return {
      ok: false,
      errors: [new Places('', file).error('too-large', 0, `at most ${MAX_CHARS} characters, got ${text.length}`)],
    };
  }
  const places = new Places(text, file);
  const tokens = scan(text, places);
  if (!Array.isArray(tokens)) return { ok: false, errors: [tokens] };
  const [doc, second] = new Composer({ uniqueKeys: false }).compose(tokens, true, text.length);
  if (!doc) return { ok: false, errors: [places.error('bad-yaml', 0, 'a document')] };
  if (second)
    return { ok: false, errors: [places.error('bad-yaml', second.range?.[0] ?? 0, SAYS['MULTIPLE_DOCS'] as string)] };
  if (doc.directives?.yaml.explicit) return { ok: false, errors: [places.error('bad-yaml', 0, 'no %YAML directive')] };
  const wrong = [...doc.errors, ...doc.warnings].slice(0, MAX_ERRORS);
  if (wrong.length > 0) {
    return {
      ok: false,
      errors: wrong.map((e) => places.error('bad-yaml', e.pos[0], SAYS[e.code] ?? 'well-formed YAML')),
    };
  }
  const tree = new Tree(places);
  const walk = new Walk(tree, anchorsOf(doc.contents));
  tree.root = walk.value(doc.contents, []);
  return walk.errors.length > 0 ? { ok: false, errors: walk.errors } : { ok: true, tree };
}

function anchorsOf(root: Node | null): Map<string, Node> {
  const found = new Map<string, Node>();
  const todo: unknown[] = [root];
  while (todo.length > 0) {
    const node = todo.pop() as Node | null;
    if (isMap(node)) for (const pair of node.items) todo.push(pair.key, pair.value);
    else if (isSeq(node)) todo.push(...node.items);
    const anchor = (node as { anchor?: string } | null)?.anchor;
    if (anchor && node) found.set(anchor, node);
  }
  return found;
}
