/**
 * Hand scripts: a drill's acts as plain text, one a line, for people to write and machines to replay.
 *
 *     # a comment
 *     12.5  feed.isolator = on             at 12.5 s since the drill began
 *     +0.8  inverter.lever = A             0.8 s after the line before
 *     +1    hand.talk press 2.5            true now, false 2.5 s later
 *     +0.5  printer.key type "RY 12"       key after key with case shifts, 180 ms apart
 *     +3    wait                           only moves the clock
 */

import { type Located, meant, Places } from '../record/places.ts';
import { misfit, type Range } from '../record/range.ts';
import type { ControlValue } from '../signals.ts';
import { KEY_GAP_MS, keysFor } from './keys.ts';

/** One act of a script: set `control` at `at_ms`. A null control only moves the clock. */
export type Act = { at_ms: number; control: string | null; value: ControlValue };

/** Longest script taken, characters, and longest drill it may describe, milliseconds. */
const MAX_CHARS = 2_000_000;
const MAX_MS = 86_400_000;
const MAX_ERRORS = 50;
const PRESS_S = 0.2;
/** Time, then what is done. */
const LINE = /^\s*(?<plus>\+?)(?<time>\d+(?:\.\d+)?)\s+(?<deed>\S.*)$/;
const SET = /^(?<name>[^\s=]+)\s*=\s*(?<value>\S.*)$/;
const PRESS = /^(?<name>\S+)\s+press(?:\s+(?<seconds>\d+(?:\.\d+)?))?$/;
const TYPE = /^(?<name>\S+)\s+type\s+(?<text>".*")$/;

/** What each control can be set to, by full name. */
type Controls = ReadonlyMap<string, Range>;
/** A fault of one line: its code, the words at fault, and what was expected. */
type Fault = { code: string; at: string; expected: string };

function readValue(range: Range, word: string): ControlValue {
  const text = word.startsWith('"') ? (JSON.parse(word) as string) : word;
  if (range.kind === 'number') return text.trim() === '' ? text : Number(text);
  if (range.kind === 'words' || range.kind === 'text') return text;
  if (range.kind === 'switch' && range.words.includes(text)) return text === range.words[1];
  return text === 'true' || text === 'false' ? text === 'true' : text;
}

function setting(name: string, range: Range, word: string, at_ms: number): Act[] | Fault {
  try {
    const value = readValue(range, word);
    const wrong = misfit(range, value);
    if (wrong === undefined) return [{ at_ms, control: name, value }];
    const expected = range.kind === 'switch' ? `one of ${range.words.join(', ')}, true, false` : wrong;
    return { code: 'does-not-fit', at: word, expected };
  } catch {
    return { code: 'bad-text', at: word, expected: 'a text in double quotes, as in JSON' };
  }
}

function typing(name: string, quoted: string, at_ms: number): Act[] | Fault {
  try {
    return keysFor(JSON.parse(quoted) as string).map((value, i) => ({
      at_ms: at_ms + i * KEY_GAP_MS,
      control: name,
      value,
    }));
  } catch {
    return {
      code: 'no-such-key',
      at: quoted,
      expected: 'characters of the five-unit alphabet (ITU-T S.1) in double quotes',
    };
  }
}

function pressing(name: string, range: Range, seconds: number, at_ms: number): Act[] | Fault {
  const wrong = misfit(range, true);
  if (wrong)
    return {
      code: 'does-not-fit',
      at: name,
      expected: `a control to press; this one takes ${wrong}`,
    };
  return [
    { at_ms, control: name, value: true },
    { at_ms: at_ms + Math.round(seconds * 1000), control: name, value: false },
  ];
}

function deed(words: string, at_ms: number, controls: Controls): Act[] | Fault {
  if (words === 'wait') return [{ at_ms, control: null, value: true }];
  const m = SET.exec(words) ?? PRESS.exec(words) ?? TYPE.exec(words);
  const { name = '', value, seconds, text } = m?.groups ?? {};
  if (!m)
    return {
      code: 'bad-line',
      at: words,
      expected: '`box.control = value`, `box.control press [seconds]`, `printer.key type "text"` or `wait`',
    };
  const range = controls.get(name);
  if (!range) {
    const expected = `a control of this station, as \`box.control\`${meant(name, controls.keys())}`;
    return { code: 'unknown-control', at: name, expected };
  }
  if (value !== undefined) return setting(name, range, value, at_ms);
  return text === undefined ? pressing(name, range, Number(seconds ?? PRESS_S), at_ms) : typing(name, text, at_ms);
}

/** Where a line's comment begins: at a # outside quotes that stands first or after a space; else at its end. */
function commentAt(line: string): number {
  let isQuoted = false;
  for (let i = 0; i < line.length; i++) {
    const char = line[i] as string;
    if (char === '"') isQuoted = !isQuoted;
    else if (isQuoted && char === '\\') i++;
    else if (!isQuoted && char === '#' && /^\s?$/.test(line[i - 1] ?? '')) return i;
  }
  return line.length;
}

/** A press or a typed text must end within the longest drill too. */
function withinDay(done: Act[] | Fault, words: string): Act[] | Fault {
  const end_ms = Array.isArray(done) ? (done[done.length - 1]?.at_ms ?? 0) : 0;
  if (end_ms <= MAX_MS) return done;
  return { code: 'bad-time', at: words, expected: `what is over by ${MAX_MS / 1000} s` };
}

/** Read a script for a station with these controls. Faulty lines are reported (the first 50); acts come only without any. */
export function readScript(
  text: string,
  file: string,
  controls: Controls,
): { ok: true; acts: Act[] } | { ok: false; errors: Located[] } {
  const places = new Places(text.slice(0, MAX_CHARS), file);
  if (text.length > MAX_CHARS)
    return { ok: false, errors: [places.error('too-large', 0, `at most ${MAX_CHARS} characters`)] };
  const errors: Located[] = [];
  const acts: Act[] = [];
  let now_ms = 0;
  let offset = 0;
  for (const source of text.split('\n')) {
    if (errors.length >= MAX_ERRORS) break;
    const code = source.slice(0, commentAt(source)).trimEnd();
    const start = offset;
    offset += source.length + 1;
    if (code === '') continue;
    const m = LINE.exec(code);
    if (!m) {
      errors.push(
        places.error(
          'bad-line',
          start + code.search(/\S/),
          'a time in seconds (or + and seconds after the line before), then what is done',
        ),
      );
      continue;
    }
    const { plus, time, deed: words = '' } = m.groups ?? {};
    const at_ms = Math.round(Number(time) * 1000) + (plus ? now_ms : 0);
    const off = at_ms < now_ms || at_ms > MAX_MS;
    const done = off
      ? { code: 'bad-time', at: String(time), expected: `a time from ${now_ms / 1000} to ${MAX_MS / 1000} s` }
      : withinDay(deed(words, at_ms, controls), words);
    if (Array.isArray(done)) {
      for (const act of done) acts.push(act);
      now_ms = Math.max(now_ms, done[done.length - 1]?.at_ms ?? at_ms);
    } else errors.push(places.error(done.code, start + code.indexOf(done.at), done.expected));
  }
  return errors.length > 0 ? { ok: false, errors } : { ok: true, acts };
}

/** What a script needs of a drill. */
export interface Stage {
  act(control: string, value: ControlValue): string | undefined;
  advance(to_us: number): void;
  readonly ended: boolean;
}

/** Play a script into a drill. Refusals are in the record; the hand goes on as a hand does. */
export function playScript(acts: readonly Act[], stage: Stage): void {
  for (const { at_ms, control, value } of acts) {
    if (stage.ended) return;
    stage.advance(at_ms * 1000);
    if (control !== null) stage.act(control, value);
  }
}
