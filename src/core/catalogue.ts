/** The kinds that this program knows: joins the lists of boxes, correspondents and measures for those who need all three. */
import { CORRESPONDENTS } from './distant/correspondents/list.ts';
import { MEASURES } from './marking/measures/list.ts';
import { BOXES } from './station/boxes/list.ts';

/** Name and version of the engine, as in a record's header. */
export const ENGINE = 'keydown 0.1.0';

export { BOXES, CORRESPONDENTS, MEASURES };
