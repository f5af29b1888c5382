import { expect, it } from 'vitest';
import { heldKeys, heldText } from '../../src/panel/controls/held-keys.ts';

it('keys held are told in words and read again', () => {
  for (const held of [
    { down: [], waits: [] },
    { down: ['Q'], waits: ['W', 'LTRS'] },
    { down: [], waits: ['W'], refused: { key: 'SPACE', aside: -3 } },
    { down: ['CR'], waits: [], refused: { key: 'R', aside: 0 } },
  ])
    expect(heldKeys(heldText(held))).toEqual(held);
});
