import { expect, test } from 'vitest';
import { foundOf } from '../../../src/core/scenario/found.ts';

test('names are sorted to their boxes; the order lies on the desk', () => {
  const own = { call: 'QV4M', controls: { 'lamp.power': true, 'desk.log': '' }, inner: { 'lamp.error_V': -0.4 } };
  const order = { task: 'Light the lamp.', conditions: [], standards: [] };
  expect(foundOf({ own, order } as unknown as Parameters<typeof foundOf>[0], ['lamp', 'desk', 'fuse'])).toEqual({
    lamp: { controls: { power: true }, inner: { error_V: -0.4 } },
    desk: { controls: { log: '' }, inner: { order: 'Light the lamp.' } },
    fuse: { controls: {}, inner: {} },
  });
});
