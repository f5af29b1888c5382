/** Message form: order of parts as in ACP 126 (from memory), date-time group as in ACP 121 and Radio Regulations 2.5 (UTC), both from memory. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  breakLines,
  countGroups,
  dateTimeGroup,
  isDateTimeGroup,
  LINE_CHARS,
  type MessageParts,
  readMessage,
  writeMessage,
} from '../../../src/core/procedure/message.ts';

const good = [
  'QV7K DE QV4M',
  'NR 14 PRIORITY 060930Z',
  'FM SAND QUAY',
  'TO TERN NESS',
  'GR 8',
  '=',
  'ROAD OPEN UNTIL 1600. BRING 40 BLANKETS TODAY',
  '=',
];
const codes = (lines: readonly string[]) => readMessage(lines).faults.map((f) => f.code);
const without = (i: number) => good.filter((_, j) => j !== i);
const instead = (i: number, line: string) => good.map((l, j) => (j === i ? line : l));

describe('a message', () => {
  it('is read', () => {
    const { parts, faults } = readMessage(good);
    expect(faults).toEqual([]);
    expect(parts).toEqual({
      called: 'QV7K',
      calling: 'QV4M',
      number: 14,
      precedence: 'PRIORITY',
      time: '060930Z',
      from: 'SAND QUAY',
      to: ['TERN NESS'],
      info: [],
      groups: 8,
      text: ['ROAD OPEN UNTIL 1600. BRING 40 BLANKETS TODAY'],
    });
  });

  it.each([
    ['without stations', without(0), ['bad-stations']],
    ['without a number', without(1), ['bad-number']],
    ['without an originator', without(2), ['no-originator']],
    ['without an addressee', without(3), ['no-addressee']],
    ['without a count', without(4), ['bad-groups']],
    ['without the first separation', without(5), ['no-separation']],
    ['without the last separation', without(7), ['no-separation']],
    ['without a text', without(6), ['no-text', 'wrong-count']],
    ['with a wrong count', instead(4, 'GR 9'), ['wrong-count']],
    ['with the thirty-second', instead(1, 'NR 14 PRIORITY 320930Z'), ['bad-time']],
    ['with a line too long', instead(6, `${'A'.repeat(LINE_CHARS + 1)} B C D E F G H`), ['line-too-long']],
    [
      'with a character that no machine has',
      instead(6, 'ROAD OPEN UNTIL 1600! BRING 40 BLANKETS TODAY'),
      ['not-in-alphabet'],
    ],
  ])('%s', (_, lines, faults) => {
    expect(codes(lines)).toEqual(faults);
  });

  it('may leave its groups uncounted', () => {
    expect(readMessage(instead(4, 'GRNC'))).toMatchObject({ faults: [], parts: { groups: null } });
  });

  it('written is read back the same', () => {
    const name = fc.constantFrom('SAND QUAY', 'TERN NESS', 'KELP ISLE', 'GREY SKERRY');
    const words = fc.array(fc.stringMatching(/^[A-Z0-9]{1,9}$/), { minLength: 1, maxLength: 60 });
    const parts = fc.record({
      number: fc.integer({ min: 1, max: 9999 }),
      precedence: fc.constantFrom('FLASH' as const, 'IMMEDIATE' as const, 'PRIORITY' as const, 'ROUTINE' as const),
      from: name,
      to: fc.array(name, { minLength: 1, maxLength: 3 }),
      info: fc.array(name, { maxLength: 2 }),
      words,
    });
    fc.assert(
      fc.property(parts, ({ words: said, ...rest }) => {
        const text = breakLines(said.join(' '));
        const message: MessageParts = {
          ...rest,
          called: 'QV7K',
          calling: 'QV4M',
          time: '060930Z',
          groups: said.length,
          text,
        };
        expect(readMessage(writeMessage(message))).toEqual({ parts: message, faults: [] });
      }),
      { seed: 23, numRuns: 100 },
    );
  });
});

describe('groups', () => {
  it('are counted between the separations', () => {
    // Worked example in the order of ACP 126 (ours): UNCLAS TEST OF LINE ONE is five groups.
    expect(countGroups(['UNCLAS', 'TEST OF LINE ONE'])).toBe(5);
    expect(countGroups([])).toBe(0);
  });
});

describe('date-time groups', () => {
  it('are day, hour, minute and Z', () => {
    expect(dateTimeGroup(6, 9, 30)).toBe('060930Z');
    for (const bad of ['000930Z', '062400Z', '060960Z', '060930', '60930Z', '060930A'])
      expect(isDateTimeGroup(bad)).toBe(false);
    expect(() => dateTimeGroup(32, 0, 0)).toThrow(RangeError);
  });
});

describe('lines', () => {
  it('hold at most 69 characters and lose no word', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[A-Z]{1,20}$/), { maxLength: 80 }), (words) => {
        const lines = breakLines(words.join(' '));
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(LINE_CHARS);
        expect(lines.join(' ').split(' ').filter(Boolean)).toEqual(words);
      }),
      { seed: 24, numRuns: 100 },
    );
    expect(() => breakLines('A'.repeat(70))).toThrow(RangeError);
  });
});
