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
import type { ControlValue } from '../signals.ts';
import { type Control, misfit } from '../station/box.ts';
import { KEY_GAP_MS, keysFor } from './keys.ts';

/** One act of a script: set `control` at `at_ms`. A null control only moves the clock. */
export type Act = { at_ms: number; control: string | null; value: ControlValue };
/** Where and what is wrong with a script. */
export type ScriptError = { code: string; file: string; line: number; col: number; source: string; expected: string };

/** Longest script taken, characters. */
const MAX_CHARS = 2_000_000;
/** Longest drill a script may describe, seconds. */
const MAX_SECONDS = 86_400;
const LINE =
  /^(\s*)(\+?)(\d+(?:\.\d+)?)\s+(?:(wait)|(\S+)\s*(?:=\s*(.+?)|(press)(?:\s+(\d+(?:\.\d+)?))?|(type)\s+(".*")))\s*$/;

function readValue(control: Control, word: string): ControlValue {
  const text = word.startsWith('"') ? (JSON.parse(word) as string) : word;
  const { range } = control;
  if (range.kind === 'number') return Number(text);
  if (range.kind === 'words' || range.kind === 'text') return text;
  if (range.kind === 'switch' && range.words.includes(text)) return text === range.words[1];
  if (text === 'true' || text === 'false') return text === 'true';
  return text;
}

/** Read a script. `find` gives the control of a full name. Every faulty line is reported; acts come only without any. */
export function readScript(
  text: string,
  file: string,
  find: (name: string) => Control | undefined,
): { ok: true; acts: Act[] } | { ok: false; errors: ScriptError[] } {
  const errors: ScriptError[] = [];
  const acts: Act[] = [];
  if (text.length > MAX_CHARS) {
    return {
      ok: false,
      errors: [{ code: 'too-large', file, line: 1, col: 1, source: '', expected: `at most ${MAX_CHARS} characters` }],
    };
  }
  let now_ms = 0;
  for (const [i, source] of text.split(/\r?\n/).entries()) {
    const code = source.replace(/(^|\s)#.*$/, '');
    if (code.trim() === '') continue;
    const fail = (kind: string, at: number, expected: string) =>
      errors.push({ code: kind, file, line: i + 1, col: at + 1, source: source.slice(0, 200), expected });
    const m = LINE.exec(code);
    if (!m) {
      fail(
        'bad-line',
        code.search(/\S/),
        'a time, then `box.control = value`, `box.control press [seconds]`, `printer.key type "text"` or `wait`',
      );
      continue;
    }
    const [, , plus, seconds, wait, name = '', set, press, hold, type, typed] = m;
    const at_ms = Math.round(Number(seconds) * 1000) + (plus ? now_ms : 0);
    if (at_ms < now_ms) fail('time-goes-back', code.search(/\S/), `a time from ${now_ms / 1000} s on`);
    if (at_ms > MAX_SECONDS * 1000) fail('too-late', code.search(/\S/), `a time up to ${MAX_SECONDS} s`);
    now_ms = Math.max(now_ms, at_ms);
    if (wait) {
      acts.push({ at_ms: now_ms, control: null, value: true });
      continue;
    }
    const control = find(name);
    if (!control) {
      fail(
        'unknown-control',
        code.indexOf(name),
        'a control of this station, as `box.control` (`keydown check --controls` lists them)',
      );
      continue;
    }
    if (press) {
      acts.push({ at_ms: now_ms, control: name, value: true });
      now_ms += Math.round(Number(hold ?? 0.2) * 1000);
      acts.push({ at_ms: now_ms, control: name, value: false });
    } else if (type && typed) {
      try {
        for (const key of keysFor(JSON.parse(typed) as string)) {
          acts.push({ at_ms: now_ms, control: name, value: key });
          now_ms += KEY_GAP_MS;
        }
      } catch {
        fail('no-such-key', code.indexOf('"'), 'characters of the five-unit alphabet (ITU-T S.1) in quotes');
      }
    } else if (set !== undefined) {
      try {
        const value = readValue(control, set);
        const wrong = misfit(control, value);
        if (wrong) fail('does-not-fit', code.indexOf(set), wrong);
        acts.push({ at_ms: now_ms, control: name, value });
      } catch {
        fail('bad-text', code.indexOf(set), 'a text in double quotes, as in JSON');
      }
    }
  }
  return errors.length > 0 ? { ok: false, errors } : { ok: true, acts };
}
