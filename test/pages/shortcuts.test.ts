import { describe, expect, it } from 'vitest';
import { meant, rekeyed, SHORTCUTS } from '../../src/pages/shortcuts.ts';

describe('shortcuts', () => {
  it('are the usual ones until changed', () => {
    for (const [usual] of SHORTCUTS) expect(meant(usual, {})).toBe(usual);
    expect(meant('KeyQ', {})).toBeUndefined();
  });

  it('move to another key, and leave the old one', () => {
    const own = rekeyed({}, 'KeyE', 'KeyX');
    expect(meant('KeyX', own)).toBe('KeyE');
    expect(meant('KeyE', own)).toBeUndefined();
  });

  it('change places with one that has the key already, so that every one can be reached', () => {
    let own: Record<string, string> = {};
    for (const [usual, code] of [
      ['KeyE', 'KeyR'],
      ['Digit1', 'KeyE'],
      ['KeyR', 'KeyW'],
      ['KeyE', 'KeyE'],
    ] as const)
      own = rekeyed(own, usual, code);
    const keys = SHORTCUTS.map(([usual]) => own[usual] ?? usual);
    expect(new Set(keys).size).toBe(SHORTCUTS.length);
    expect(meant('KeyE', own)).toBe('KeyE');
  });

  it('forget a change that was taken back', () => {
    expect(rekeyed(rekeyed({}, 'KeyE', 'KeyX'), 'KeyE', 'KeyE')).toEqual({});
  });
});
