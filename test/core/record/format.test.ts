import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_RECORD_CHARS, readRecord, writeRecord } from '../../../src/core/record/format.ts';
import { type DrillRecord, ENGINE, type LineBody } from '../../../src/core/record/record.ts';
import { did, far, recordOf, was, wrote } from '../marking/record-maker.ts';

const record = recordOf([
  [0, was('a.b', 0.1)],
  [1, did('x.y', 'on')],
  [1, far('called')],
  [2.5, wrote('Ä "quoted"\n')],
  [3, { k: 'end', why: 'handed over' }],
]);
const text = writeRecord(record);
const lines = text.split('\n');

function fault(changed: string) {
  const read = readRecord(changed, 'r.jsonl');
  if (read.ok) throw new RangeError('was read');
  const { code, line, col } = read.errors[0] as (typeof read.errors)[0];
  return `${line}:${col} ${code}`;
}
const withLine = (n: number, from: string, to: string): string =>
  lines.map((l, i) => (i === n ? l.replace(from, () => to) : l)).join('\n');

describe('a record as text', () => {
  it('comes back the same', () => {
    const read = readRecord(text);
    expect(read).toEqual({ ok: true, record });
  });
  it('keys stand in one order, whatever order they were made in', () => {
    const other: DrillRecord = {
      header: record.header,
      lines: [{ k: 'far', detail: { b: 1, a: { d: 1, c: 2 } }, what: 'x', station: 'QV7K', i: 1, t: 0 }],
    };
    expect(writeRecord(other).split('\n')[1]).toBe(
      '{"t":0,"i":1,"k":"far","station":"QV7K","what":"x","detail":{"a":{"c":2,"d":1},"b":1}}',
    );
  });
  it('any lines come back the same, byte for byte', () => {
    const json = fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<never>;
    const body = fc.oneof(
      fc.tuple(fc.string({ unit: 'binary' }), json).map(([q, v]): LineBody => ({ k: 'value', q, v })),
      fc.dictionary(fc.string(), json).map((detail): LineBody => ({ k: 'far', station: 'QV7K', what: 'x', detail })),
      fc
        .double({ noNaN: true, noDefaultInfinity: true })
        .map((power_W): LineBody => ({ k: 'air', station: 's', emission: 'F1B', f_Hz: 1, power_W })),
    );
    fc.assert(
      fc.property(fc.array(body, { maxLength: 20 }), (bodies) => {
        const written = writeRecord(recordOf(bodies.map((b, t) => [t, b] as const)));
        const read = readRecord(written);
        expect(read.ok && writeRecord(read.record)).toBe(written);
      }),
      { seed: 61, numRuns: 300 },
    );
  });
});

describe('a faulty record is refused where it is faulty', () => {
  it.each([
    ['nothing', '', '1:1 not-a-record'],
    ['not JSON', `hello\n${text}`, '1:1 not-a-record'],
    ['another kind of JSON', '[1]\n', '1:1 not-a-record'],
    ['a header that is broken', withLine(0, '}', ''), '1:1 not-json'],
    ['a header that breaks off', text.slice(0, 60), '1:61 truncated'],
    ['another kind of JSON in a line', `${lines[0]}\n[1]\n`, '2:1 wrong-type'],
    ['not a record', '{"a":1}\n', '1:1 not-a-record'],
    ['a version that is not known', withLine(0, '"keydown-record":1', '"keydown-record":99'), '1:2 unknown-version'],
    ['a header without seed', withLine(0, '"seed":1,', ''), '1:1 missing-key'],
    [
      'a seed that is none',
      withLine(0, '"seed":1,', '"seed":-1,'),
      `1:${lines[0]!.indexOf('"seed"') + 1} out-of-range`,
    ],
    ['a manner that is none', withLine(0, 'unaided', 'aided'), `1:${lines[0]!.indexOf('"manner"') + 1} unknown-word`],
    [
      'a stretch of nothing',
      withLine(0, '"stretch":1', '"stretch":0'),
      `1:${lines[0]!.indexOf('"stretch"') + 1} out-of-range`,
    ],
    ['a kind of line that is not known', withLine(2, '"k":"do"', '"k":"undo"'), '3:20 unknown-kind'],
    ['the name of a method as kind', withLine(2, '"k":"do"', '"k":"toString"'), '3:20 unknown-kind'],
    ['a field too few', withLine(2, '"control":"x.y",', ''), '3:1 missing-key'],
    ['a field too many', withLine(2, '"n":1', '"n":1,"m":2'), '3:35 unknown-key'],
    ['a field of the wrong kind', withLine(2, '"control":"x.y"', '"control":7'), '3:35 wrong-type'],
    ['a prototype as field', withLine(2, '"n":1', '"n":1,"__proto__":{}'), '3:35 unknown-key'],
    ['a number without end', withLine(5, '"t":3000000', '"t":1e999'), '6:2 wrong-type'],
    ['time that goes back', withLine(5, '"t":3000000', '"t":1'), '6:2 out-of-order'],
    ['half a microsecond', withLine(5, '"t":3000000', '"t":3000000.5'), '6:2 out-of-order'],
    ['a line left out', lines.filter((_, i) => i !== 3).join('\n'), '4:14 out-of-order'],
    ['a line that breaks off', text.slice(0, -10), `6:${lines[5]!.length - 8} truncated`],
    ['a line in the middle that breaks off', withLine(3, '}', ''), '4:1 not-json'],
    ['an empty line', `${lines.slice(0, 3).join('\n')}\n\n`, '4:1 not-json'],
    ['values without bottom', withLine(1, '"v":0.1', `"v":${'['.repeat(20)}${']'.repeat(20)}`), '2:36 wrong-type'],
  ])('%s', (_, changed, where) => {
    expect(fault(changed)).toBe(where);
  });
  it('too large', () => {
    expect(fault('x'.repeat(MAX_RECORD_CHARS + 1))).toBe('1:1 too-large');
  });
  it('brackets without end', () => {
    expect(fault(`${lines[0]}\n${'['.repeat(5_000_000)}\n`)).toBe('2:1 not-json');
  });
  it('every truncation is refused or is whole lines, and never throws', () => {
    for (let n = 0; n < text.length; n++) {
      const read = readRecord(text.slice(0, n));
      const whole = n > 0 && (text[n] === '\n' || text[n - 1] === '\n');
      expect(read.ok).toBe(whole);
    }
  });
});

it('the engine’s version is that of the package', () => {
  for (const file of ['package.json', 'package-lock.json'])
    expect(`keydown ${JSON.parse(readFileSync(file, 'utf8')).version}`).toBe(ENGINE);
});
