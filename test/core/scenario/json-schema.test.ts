import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../../src/core/catalogue.ts';
import { jsonSchemaText } from './json-schema.ts';

const FILE = new URL('../../../scenarios/scenario.schema.json', import.meta.url);

describe('scenarios/scenario.schema.json', () => {
  it('is what the program reads by; KEYDOWN_WRITE=1 writes it anew', () => {
    const text = jsonSchemaText(KINDS);
    if (process.env['KEYDOWN_WRITE']) writeFileSync(FILE, text);
    expect(readFileSync(FILE, 'utf8')).toBe(text);
  });
});
