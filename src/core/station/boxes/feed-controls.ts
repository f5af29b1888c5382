/** The feed's controls as data. */
import type { Control } from '../box.ts';

const ENGINE_CAUTION =
  'Exhaust gas kills without warning. Run the engine only with the vent fan on and the outlet clear of people; local codes decide.';
const BANK_CAUTION =
  'Lead-acid batteries give off explosive gas and hold acid. No flame, no spark, eyes covered; the maker’s instructions decide.';

const breaker = (id: string, name: string, what: string): Control => ({
  id,
  name,
  face: 'plunger',
  range: { kind: 'switch', words: ['out', 'in'] },
  inside: `Feeds ${what}. It trips by itself on overload, the sooner the heavier. Find the cause before you push it in again.`,
});

const fuse = (which: 'A' | 'B'): Control => ({
  id: `fuse${which}`,
  name: `fuse of inverter ${which}`,
  face: 'push',
  range: { kind: 'press' },
  inside: `Puts a spare into the holder of inverter ${which}; the inverter’s lever must be off. If the new one blows as well, the set is faulty: take the other.`,
  caution: 'Never mend a fuse with wire or fit a larger one: fire.',
});

/** In the order of the panel. */
export const FEED_CONTROLS: readonly Control[] = [
  {
    id: 'isolator',
    name: 'battery isolator',
    face: 'tiller',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside: 'Joins the battery to the bus. First on, last off.',
    caution: BANK_CAUTION,
  },
  {
    id: 'engine',
    name: 'engine',
    face: 'tiller',
    range: { kind: 'words', words: ['stop', 'run'] },
    inside:
      'The starter takes 600 A from the battery for 2 seconds and the bus sags; then the alternator carries the bus at 28.5 V with up to 90 A and charges the battery.',
    caution: ENGINE_CAUTION,
  },
  {
    id: 'vent',
    name: 'vent fan',
    face: 'plunger',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside: 'Draws exhaust gas out of the shelter. Needs the bus.',
    caution: ENGINE_CAUTION,
  },
  breaker('inverter', 'breaker inverter', 'the inverter pair'),
  breaker('sender', 'breaker sender', 'the sender'),
  breaker('receiver', 'breaker receiver', 'the receiver'),
  breaker('terminal', 'breaker terminal', 'the keyer and terminal unit with the line boxes'),
  fuse('A'),
  fuse('B'),
  {
    id: 'master',
    name: 'master',
    face: 'tiller',
    range: { kind: 'switch', words: ['off', 'on'] },
    inside:
      'Joins the bus to the breakers. It trips by itself when all loads together are too much, as when the inverter starts while the sender’s cold heaters come on.',
  },
];
