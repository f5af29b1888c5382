/** The layouts we have by hand. A box without one flows along its track: flow.ts. */
import { aerial } from './aerial.ts';
import { cover } from './cover.ts';
import { desk } from './desk.ts';
import { feed } from './feed.ts';
import { hand } from './hand.ts';
import { inverter } from './inverter.ts';
import { keyer } from './keyer.ts';
import type { BoxLayout } from './layout.ts';
import { line } from './line.ts';
import { printer } from './printer.ts';
import { receiver } from './receiver.ts';
import { sender } from './sender.ts';
import { tape } from './tape.ts';

export const LAYOUTS: Readonly<Record<string, BoxLayout>> = {
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
};
