/** The kinds of measures this program knows. */
import type { Measure } from '../measure.ts';
import { airtime } from './airtime.ts';
import { copied } from './copied.ts';
import { lasted } from './lasted.ts';
import { logged } from './logged.ts';
import { never } from './never.ts';
import { order } from './order.ts';
import { printed } from './printed.ts';
import { state } from './state.ts';
import { within } from './within.ts';

/** All kinds, one file each. */
export const MEASURES: readonly Measure[] = [order, state, within, never, lasted, copied, printed, logged, airtime];
