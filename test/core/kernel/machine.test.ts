import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { initialTransition, setup, transition } from 'xstate';
import { firstMode, move } from '../../../src/core/kernel/machine.ts';
import { BOXES } from '../../../src/core/station/boxes/list.ts';

const lamp = setup({ types: { events: {} as { type: 'ON' | 'OFF' | 'HIT' } } }).createMachine({
  id: 'lamp',
  initial: 'off',
  states: {
    off: { on: { ON: 'warming' } },
    warming: { after: { 200: 'lit' }, on: { OFF: 'off' } },
    lit: { after: { 5000: 'off' }, on: { OFF: 'off', HIT: 'warming' } },
  },
});

describe('machine', () => {
  it('turns delays into data and names the ones that end', () => {
    expect(firstMode(lamp)).toEqual({ mode: 'off', started: [], ended: [] });
    const on = move(lamp, 'off', 'ON');
    expect(on.mode).toBe('warming');
    expect(on.started).toMatchObject([{ delay_us: 200_000 }]);
    const id = on.started[0]?.id;
    expect(move(lamp, 'warming', 'OFF')).toEqual({ mode: 'off', started: [], ended: [id] });
    expect(move(lamp, 'warming', on.started[0]?.event ?? '').mode).toBe('lit');
  });

  it('stays where it is on an event that the mode does not know', () => {
    expect(move(lamp, 'off', 'HIT')).toEqual({ mode: 'off', started: [], ended: [] });
  });

  it('throws on a mode that the machine does not have', () => {
    expect(() => move(lamp, 'green', 'ON')).toThrow(RangeError);
  });

  it('equals transition() of XState over random events', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('ON', 'OFF', 'HIT'), { maxLength: 40 }), (events) => {
        let [snapshot] = initialTransition(lamp);
        let { mode } = firstMode(lamp);
        for (const type of events) {
          [snapshot] = transition(lamp, snapshot, { type: type as 'ON' });
          mode = move(lamp, mode, type).mode;
          expect(mode).toBe(snapshot.value);
        }
      }),
      { seed: 1, numRuns: 100 },
    );
  });

  it('takes every box machine: flat, and every target exists', () => {
    for (const { machine } of BOXES) {
      expect(firstMode(machine).mode).not.toBe('');
      for (const mode of Object.keys(machine.states))
        for (const event of machine.events)
          expect(Object.keys(machine.states)).toContain(move(machine, mode, event).mode);
    }
  });
});
