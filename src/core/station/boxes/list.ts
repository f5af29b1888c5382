/** Every box of the station, in the order in which their wires are brought up to now (power first, desk last). */
import type { Box } from '../box.ts';

/** The boxes of the Marram 4. One line a box. */
export const BOXES: readonly Box[] = [];
