/** What an indicator or a sampled quantity can show, so that a test of it which can never hold is a fault. */
import type { Json } from '../signals.ts';

/** True or false; a number, or null while there is none; free text; a list or map, which only a person reads; or one of these words. */
export type Shows = 'flag' | 'number' | 'text' | 'list' | readonly string[];

const SAYS = { flag: 'true or false', number: 'a number', text: 'a text', list: 'nothing that can be compared' };

/** What can be shown, in words. */
export const showsText = (shows: Shows): string =>
  typeof shows === 'string' ? SAYS[shows] : `one of ${shows.map((w) => JSON.stringify(w)).join(', ')}`;

/** Whether a value can ever be shown. */
export function canShow(shows: Shows, value: Json): boolean {
  if (shows === 'flag') return typeof value === 'boolean';
  if (shows === 'number') return typeof value === 'number' || value === null;
  if (shows === 'text') return typeof value === 'string';
  if (shows === 'list') return typeof value === 'object' && value !== null;
  return typeof value === 'string' && shows.includes(value);
}
