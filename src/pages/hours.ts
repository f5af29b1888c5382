/** Times as pages say them. */

const two = (n: number): string => String(n).padStart(2, '0');

export { lasting, utcAt as utcText } from '../core/quantity/time-text.ts';

/** A length of wall time, roughly: `under a minute`, `3 min`, `2 h`, `4 days`. */
export function lengthText(ms: number): string {
  const min = Math.floor(ms / 60_000);
  if (min < 1) return 'under a minute';
  if (min < 60) return `${min} min`;
  if (min < 48 * 60) return `${Math.floor(min / 60)} h`;
  return `${Math.floor(min / 1440)} days`;
}

/** A text whose times and quantities (`10 20`, `20 s`, `NR 14`) do not break across lines. */
export const held = (text: string): string =>
  text
    .replace(/(\d) (?=(?:\d|s|ms|min|h|W|V|A|Hz|kHz|MHz|Bd|km|m|%|UTC)(?![a-z]))/g, '$1\u00a0')
    .replace(/\bNR (?=\d)/g, 'NR\u00a0');

/** How long ago, roughly. */
export function sinceText(wall_ms: number, now_ms = Date.now()): string {
  const ms = now_ms - wall_ms;
  return ms < 60_000 ? 'just now' : `${lengthText(ms)} ago`;
}

/** A day as people write it: `6 October 2031` of `2031-10-06`. */
export function dayText(date: string): string {
  const [y = '', m = '', d = ''] = date.split('-');
  const months = 'January February March April May June July August September October November December'.split(' ');
  return `${Number(d)} ${months[Number(m) - 1] ?? ''} ${y}`;
}

/** A wall date and time for the result sheet, local. */
export function wallText(ms: number): string {
  const d = new Date(ms);
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())} ${two(d.getHours())}:${two(d.getMinutes())}`;
}

/** A text with its first letter tall. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
