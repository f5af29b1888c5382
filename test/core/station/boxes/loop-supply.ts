/** A bench supply for the line loop, in the keyer's place. */
import { setup } from 'xstate';
import type { Box, BoxState, Found } from '../../../../src/core/station/box.ts';
import type { Wires } from '../../../../src/core/station/wires.ts';

/** 20 mA unless found otherwise. */
export const loopSupply = {
  id: 'holder',
  name: 'Loop supply',
  bay: 'power',
  about: '',
  source: '',
  controls: [
    {
      id: 'mA',
      name: 'Current',
      face: 'limpet',
      range: { kind: 'number', min: 0, max: 60, step: 1, unit: 'mA' },
      inside: '',
    },
  ],
  indicators: [],
  sampled: [],
  machine: setup({}).createMachine({ id: 'holder', initial: 'on', states: { on: {} } }),
  inner: {},
  start: (found: Found): BoxState => ({ mode: '', set: { mA: 20, ...found.controls } }),
  settle(s: BoxState, w: Wires) {
    w.supply_mA = Number(s.set['mA']);
  },
} satisfies Box;
