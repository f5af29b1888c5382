/**
 * A message as it is written for teleprinter. The order of its parts is that of ACP 126 (from memory): stations, number with
 * precedence and time, originator, addressees, group count, separation, text, separation. The layout on the page is ours.
 */
import { encode } from '../telegraphy/ita2.ts';
import type { Precedence } from './transmission.ts';

/** A message in its parts. */
export type MessageParts = {
  called: string;
  calling: string;
  /** Serial number, from 1. */
  number: number;
  precedence: Precedence;
  /** Date and time of origin: DDHHMMZ. */
  time: string;
  from: string;
  to: string[];
  info: string[];
  /** Groups declared, or null when they are not counted (GRNC). */
  groups: number | null;
  text: string[];
};
/** What is wrong and on which line (from 0; the number of lines when it is missing at the end). */
export type MessageFault = { code: MessageFaultCode; line: number; expected: string };
export type MessageFaultCode =
  | 'bad-stations'
  | 'bad-number'
  | 'bad-time'
  | 'no-originator'
  | 'no-addressee'
  | 'bad-groups'
  | 'wrong-count'
  | 'no-separation'
  | 'no-text'
  | 'line-too-long'
  | 'not-in-alphabet';

/** Characters on a page line (common practice). */
export const LINE_CHARS = 69;
/** The line before and after the text: the sign that parts it in Morse and print (double hyphen, ITU-R M.1677-1). */
export const SEPARATION = '=';

const CALLS = /^([A-Z0-9]{3,8}) DE ([A-Z0-9]{3,8})$/;
const NUMBER = /^NR ([1-9]\d{0,3}) (FLASH|IMMEDIATE|PRIORITY|ROUTINE) (\S+)$/;
const GROUPS = /^GR(?:NC| ?(\d{1,4}))$/;

/** Is this a date-time group DDHHMMZ (day 01 to 31, UTC)? */
export const isDateTimeGroup = (text: string): boolean => /^(0[1-9]|[12]\d|3[01])([01]\d|2[0-3])[0-5]\dZ$/.test(text);

/** Date-time group of a day of the month and a time, UTC. Throws RangeError outside the calendar. */
export function dateTimeGroup(day: number, hour: number, minute: number): string {
  const two = (n: number) => String(n).padStart(2, '0');
  const group = `${two(day)}${two(hour)}${two(minute)}Z`;
  if (!isDateTimeGroup(group)) throw new RangeError(`no date-time group for day ${day}, ${hour} h ${minute} min`);
  return group;
}

/** Groups of a text: whatever stands between spaces or line ends; the separations are not counted. */
export const countGroups = (text: readonly string[]): number =>
  text
    .join(' ')
    .split(/\s+/)
    .filter((g) => g !== '').length;

class Reader {
  readonly faults: MessageFault[] = [];
  private at = 0;
  constructor(private readonly lines: readonly string[]) {}

  fault(code: MessageFaultCode, expected: string, line = this.at): void {
    this.faults.push({ code, line, expected });
  }

  /** The next line, if it has this form; otherwise a fault, and the line stays unless it stands for the missing one. */
  take(pattern: RegExp, code: MessageFaultCode, expected: string): RegExpExecArray | null {
    const found = pattern.exec(this.lines[this.at] ?? '');
    if (found) this.at++;
    else this.fault(code, expected);
    return found;
  }

  all(pattern: RegExp): string[] {
    const out: string[] = [];
    for (let found = pattern.exec(this.lines[this.at] ?? ''); found; found = pattern.exec(this.lines[this.at] ?? '')) {
      out.push(found[1] as string);
      this.at++;
    }
    return out;
  }

  text(): string[] {
    const from = this.at;
    while (this.at < this.lines.length && this.lines[this.at] !== SEPARATION) this.at++;
    return this.lines.slice(from, this.at);
  }
}

function checkLines(lines: readonly string[], read: Reader): void {
  for (const [i, line] of lines.entries()) {
    if (line.length > LINE_CHARS)
      read.fault('line-too-long', `at most ${LINE_CHARS} characters, got ${line.length}`, i);
    const bad = encode(line).errors[0];
    if (bad) read.fault('not-in-alphabet', `only characters of ITA2, not ${JSON.stringify(bad.char)}`, i);
  }
}

/** Take a message apart. What could not be read is left out of `parts`. Empty lines are passed over. */
export function readMessage(given: readonly string[]): { parts: Partial<MessageParts>; faults: MessageFault[] } {
  const lines = given.map((l) => l.trim()).filter((l) => l !== '');
  const read = new Reader(lines);
  checkLines(lines, read);
  const parts: Partial<MessageParts> = {};
  const calls = read.take(CALLS, 'bad-stations', 'called station, DE, calling station');
  if (calls) Object.assign(parts, { called: calls[1], calling: calls[2] });
  const number = read.take(NUMBER, 'bad-number', 'NR, a number, the precedence, the date-time group');
  if (number) {
    Object.assign(parts, { number: Number(number[1]), precedence: number[2], time: number[3] });
    if (!isDateTimeGroup(number[3] as string)) read.fault('bad-time', 'a date-time group DDHHMMZ', 1);
  }
  const from = read.take(/^FM (.+)$/, 'no-originator', 'FM and the originator');
  if (from) parts.from = from[1] as string;
  parts.to = read.all(/^TO (.+)$/);
  if (parts.to.length === 0) read.fault('no-addressee', 'TO and an addressee');
  parts.info = read.all(/^INFO (.+)$/);
  const groups = read.take(GROUPS, 'bad-groups', 'GR and the number of groups, or GRNC');
  if (groups) parts.groups = groups[1] === undefined ? null : Number(groups[1]);
  read.take(/^=$/, 'no-separation', `${SEPARATION} before the text`);
  parts.text = read.text();
  const counted = countGroups(parts.text);
  if (counted === 0) read.fault('no-text', 'a text');
  read.take(/^=$/, 'no-separation', `${SEPARATION} after the text`);
  if (parts.groups !== undefined && parts.groups !== null && parts.groups !== counted)
    read.fault('wrong-count', `${counted} groups as in the text, got ${parts.groups}`, 0);
  return { parts, faults: read.faults };
}

/** A text broken into lines of at most LINE_CHARS characters between words. Throws RangeError for a longer word. */
export function breakLines(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    if (word.length > LINE_CHARS) throw new RangeError(`a word of ${word.length} characters does not fit a line`);
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= LINE_CHARS) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A message as lines; `readMessage` gives its parts back. The group count is counted afresh unless it is null. */
export function writeMessage(m: MessageParts): string[] {
  return [
    `${m.called} DE ${m.calling}`,
    `NR ${m.number} ${m.precedence} ${m.time}`,
    `FM ${m.from}`,
    ...m.to.map((to) => `TO ${to}`),
    ...m.info.map((info) => `INFO ${info}`),
    m.groups === null ? 'GRNC' : `GR ${countGroups(m.text)}`,
    SEPARATION,
    ...m.text,
    SEPARATION,
  ];
}
