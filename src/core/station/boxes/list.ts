/** Every box of the station, in the order in which their wires are brought up to now (power first, desk last). */
import type { Box } from '../box.ts';
import { aerial } from './aerial.ts';
import { cover } from './cover.ts';
import { desk } from './desk.ts';
import { feed } from './feed.ts';
import { hand } from './hand.ts';
import { inverter } from './inverter.ts';
import { keyer } from './keyer.ts';
import { line } from './line.ts';
import { printer } from './printer.ts';
import { receiver } from './receiver.ts';
import { sender } from './sender.ts';
import { tape } from './tape.ts';

/** The boxes of the Marram 4. One line a box. */
export const BOXES: readonly Box[] = [
  feed,
  inverter,
  aerial,
  hand,
  tape,
  printer,
  line,
  cover,
  keyer,
  sender,
  receiver,
  desk,
];
