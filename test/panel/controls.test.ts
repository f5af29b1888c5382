/** Controls in words: what the explain-card says of keys and ranges, and how values read. */
import { describe, expect, it } from 'vitest';
import type { Control } from '../../src/core/station/box.ts';
import { BOXES } from '../../src/core/station/boxes/list.ts';
import { keysOf, rangeText } from '../../src/panel/cards.ts';
import type { Sight } from '../../src/panel/host.ts';
import { LAYOUTS } from '../../src/panel/layout/all.ts';
import { valueText } from '../../src/panel/words.ts';

const made = (more: Pick<Control, 'range'> & Partial<Control>): Control => ({
  id: 'it',
  name: 'it',
  face: 'limpet',
  inside: '',
  ...more,
});
const number = (min: number, max: number, step: number, unit: string) =>
  made({ range: { kind: 'number', min, max, step, unit } });

describe('the explain-card', () => {
  const says = (c: Control) => keysOf(c).map((k) => k.join(' '));

  it('names the words of a switch, not in and out', () => {
    expect(says(made({ range: { kind: 'switch', words: ['off', 'on'] } }))).toEqual(['Space off, on']);
  });

  it('offers pages of ten steps only where there are more', () => {
    expect(says(number(0, 4, 1, 'sections'))).toEqual(['← → turn', 'Enter type it']);
    expect(says(number(0, 100, 1, '%'))).toContain('Page 10 steps');
  });

  it('tells the keys that drums and keyboard really take', () => {
    expect(says({ ...number(0, 9, 0.1, 'kHz'), face: 'drums' })).toEqual(['0–9 type it', '↑ ↓ turn', '← → next drum']);
  });

  it('says a range without holes and with the sign of print', () => {
    expect(rangeText(number(0, 10, 0.1, ''))).toBe('From 0 to 10 in steps of 0.1.');
    expect(rangeText(number(-5, 5, 0.005, 'kHz'))).toBe('From −5 to 5 kHz in steps of 0.005.');
    expect(rangeText(number(0, 150, 0.05, 'uH'))).toBe('From 0 to 150 µH in steps of 0.05.');
  });
});

describe('values in words', () => {
  it('count one of a thing without the s', () => {
    const wires = number(0, 4, 1, 'wires');
    expect([0, 1, 2].map((n) => valueText(wires, n))).toEqual(['0 wires', '1 wire', '2 wires']);
    expect(valueText(number(0, 9, 1, 'pF'), 1)).toBe('1 pF');
  });

  it('are never empty, save of what is written or only pressed', () => {
    for (const { id, controls } of BOXES as readonly { id: string; controls: readonly Control[] }[])
      for (const c of controls) {
        if (c.range.kind === 'press' || c.range.kind === 'text') continue;
        const rest = c.range.kind === 'words' ? c.range.words[0] : c.range.kind === 'number' ? c.range.min : false;
        expect([`${id}.${c.id}`, valueText(c, rest)]).not.toEqual([`${id}.${c.id}`, '']);
      }
  });
});

describe('the tape under the punch', () => {
  it('goes back with it: what lies past the punch is not seen', () => {
    const seen: Record<string, unknown> = { 'tape.punched': [31, 1, 2, 3, 4], 'tape.count': 3 };
    const sight = { see: (name: string) => seen[name] } as unknown as Sight;
    const piece = LAYOUTS['tape']!.under!.find((p) => p.id === 'tape.punched')!;
    expect(piece.look(sight)).toMatchObject({ codes: [31, 1, 2] });
  });
});
