/** Every box of the station, in the order in which their wires are brought up to now (power first, desk last). */
import type { Box } from '../box.ts';
import { cover } from './cover.ts';
import { desk } from './desk.ts';
import { hand } from './hand.ts';
import { line } from './line.ts';
import { printer } from './printer.ts';
import { sender } from './sender.ts';
import { tape } from './tape.ts';

/** The boxes of the Marram 4. One line a box. */
export const BOXES: readonly Box[] = [hand, tape, printer, line, cover, sender, desk];
