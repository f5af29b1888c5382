/** The JSON Schema of scenario files for editors, made from the schema that reads them. */
import { type JsonSchema, toJsonSchema } from '@valibot/to-json-schema';
import type { Kinds } from '../../../src/core/scenario/scenario.ts';
import { scenarioShape } from '../../../src/core/scenario/schema.ts';

/** Where a number, a flag or a word of a list may stand, `${name}` may stand for a draw. */
const DRAWN: JsonSchema = { type: 'string', pattern: '^\\$\\{[A-Za-z][A-Za-z0-9_-]*\\}$' };
const OPEN = new Set(['number', 'integer', 'boolean']);

function withDraws(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(withDraws);
  if (typeof schema !== 'object' || schema === null) return schema;
  const inner = Object.fromEntries(
    Object.entries(schema).map(([key, x]) => [key, key === 'const' || key === 'enum' ? x : withDraws(x)]),
  );
  const isOpen = 'enum' in inner || (typeof inner['type'] === 'string' && OPEN.has(inner['type']));
  if (isOpen) return { anyOf: [inner, DRAWN] };
  return inner;
}

/** The schema as text, ended by a line feed. */
export function jsonSchemaText(kinds: Kinds): string {
  const schema = withDraws(toJsonSchema(scenarioShape(kinds), { errorMode: 'ignore' })) as JsonSchema;
  return `${JSON.stringify({ title: 'Keydown scenario', ...schema }, null, 1)}\n`;
}
