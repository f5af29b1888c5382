/** What a schema cannot see: names that must exist, values that must fit their control, characters a printer lacks. */
import type { GenericSchema } from 'valibot';
import { isHeardName, wordFault } from '../procedure/heard-pattern.ts';
import { meant } from '../record/places.ts';
import { faults } from '../record/shape.ts';
import type { Json } from '../signals.ts';
import { encode } from '../telegraphy/ita2.ts';
import { drawsIn } from './draws.ts';
import type { Action, Condition, Draw, Kinds, Scenario, Tune } from './scenario.ts';
import { LINE_CHARS } from './schema.ts';
import { misfitOf } from './settings.ts';

type Path = readonly (string | number)[];
/** A fault: `key` points at the key instead of the value; `index` at one character of a text. */
export type Finding = { path: Path; code: string; expected: string; key?: boolean; index?: number };

/** Words that every step may use without having heard them. */
const ALWAYS = ['own'];

class Checker {
  readonly found: Finding[] = [];
  private readonly calls: string[];
  private readonly messages: string[];
  private readonly remembered = new Set<string>(ALWAYS);
  constructor(
    private readonly s: Scenario,
    private readonly kinds: Kinds,
  ) {
    this.calls = [s.own.call, ...s.stations.map((x) => x.call)];
    this.messages = s.papers.messages.map((m) => m.id);
  }

  private say(code: string, path: Path, expected: string, more: Partial<Finding> = {}): void {
    this.found.push({ code, path, expected, ...more });
  }

  private known(code: string, path: Path, word: string, all: Iterable<string>, what: string, key = false): boolean {
    const list = Array.from(all);
    if (list.includes(word)) return true;
    this.say(code, path, `${what}${meant(word, list)}`, { key });
    return false;
  }

  private once(path: Path, field: string, items: readonly { [key: string]: unknown }[]): void {
    const seen = new Set<unknown>();
    for (const [i, item] of items.entries()) {
      if (seen.has(item[field])) this.say('duplicate-id', [...path, i, field], `another ${field} than those above`);
      seen.add(item[field]);
    }
  }

  private setting(path: Path, full: string, value: Json): void {
    if (!this.known('unknown-control', path, full, this.kinds.controls.keys(), 'a control of the station', true))
      return;
    const range = this.kinds.controls.get(full);
    const wrong = range && misfitOf(range, value);
    if (wrong) this.say('does-not-fit', path, wrong);
  }

  private inner(path: Path, things: Record<string, Json>, isRunning: boolean): void {
    const all = this.kinds.inner;
    for (const [full, value] of Object.entries(things)) {
      const at = [...path, full];
      if (!this.known('unknown-inner', at, full, all.keys(), 'an inner thing of a box', true)) continue;
      const thing = all.get(full);
      if (isRunning && thing?.fixed)
        this.say('cannot-change', at, 'an inner thing that can change while the drill runs', { key: true });
      else if (thing) this.shape(at, thing.schema, value);
    }
  }

  private shape(path: Path, schema: GenericSchema, value: Json): void {
    for (const f of faults(schema, value)) {
      // A missing key has no place of its own: its parent's key shows where it belongs.
      const inside = f.missing ? f.path.slice(0, -1) : f.path;
      this.say(f.code, [...path, ...inside], f.expected, { key: f.missing || f.key });
    }
  }

  private indicator(path: Path, full: string): void {
    this.known('unknown-indicator', path, full, this.kinds.indicators, 'an indicator of the station');
  }

  private letters(path: Path, text: string, ends = false): void {
    const bad = encode(text).errors[0] ?? badControl(text, ends);
    if (bad)
      this.say('not-in-alphabet', path, `only characters of ITA2 (ITU-T S.1), not ${JSON.stringify(bad.char)}`, {
        index: bad.at,
      });
  }

  private papers(): void {
    const { papers, stations } = this.s;
    this.once(['papers', 'frequencies'], 'name', papers.frequencies);
    this.once(['papers', 'messages'], 'id', papers.messages);
    const known = [...stations.map((x) => x.call), ...papers.calls.map((c) => c.call)];
    for (const [i, message] of papers.messages.entries()) {
      const path = ['papers', 'messages', i] as const;
      this.known(
        'unknown-station',
        [...path, 'to'],
        message.to,
        known,
        'a station of this scenario or its call-sign card',
      );
      for (const [j, line] of message.lines.entries()) {
        const at = [...path, 'lines', j];
        if (line.length > LINE_CHARS)
          this.say('line-too-long', at, `at most ${LINE_CHARS} characters, got ${line.length}`, { index: LINE_CHARS });
        this.letters(at, line);
      }
    }
  }

  private happenings(): void {
    this.once(['happenings'], 'id', this.s.happenings);
    const far = this.s.stations.map((x) => x.call);
    for (const [i, h] of this.s.happenings.entries()) {
      const path = ['happenings', i];
      if (!('station' in h.do)) this.inner([...path, 'do', 'inner'], h.do.inner, true);
      else if (
        this.known('unknown-station', [...path, 'do', 'station'], h.do.station, far, 'a station of this scenario')
      )
        this.tell([...path, 'do', 'tell'], h.do.station, h.do.tell);
      if ('at_s' in h && h.at_s > this.s.time_limit_min * 60)
        this.say('too-late', [...path, 'at_s'], 'a time before the time limit');
      if ('when' in h) this.names([...path, 'when'], h.when as Json);
    }
  }

  private tell(path: Path, call: string, what: Json): void {
    const kind = this.s.stations.find((x) => x.call === call)?.kind ?? '';
    const told = this.kinds.correspondents.get(kind)?.told;
    if (told) this.shape(path, told, what);
  }

  // Measures and patterns come from elsewhere; the names in them are known by their keys.
  private names(path: Path, data: Json): void {
    if (typeof data !== 'object' || data === null) return;
    const tests: Readonly<Record<string, (at: Path, word: string) => void>> = {
      q: (at, word) =>
        void this.known('unknown-quantity', at, word, this.kinds.sampled, 'a sampled quantity of the station'),
      control: (at, word) =>
        void this.known('unknown-control', at, word, this.kinds.controls.keys(), 'a control of the station'),
      station: (at, word) =>
        void this.known('unknown-station', at, word, [...this.calls, 'own'], 'a station of this scenario'),
      at: (at, word) =>
        void this.known('unknown-station', at, word, ['own', ...this.calls], 'own or a station of this scenario'),
      message: (at, word) => void this.known('unknown-message', at, word, this.messages, 'a message of the papers'),
    };
    for (const [key, value] of Object.entries(data)) {
      const at = [...path, Array.isArray(data) ? Number(key) : key];
      if (typeof value === 'string' && Object.hasOwn(tests, key)) tests[key]?.(at, value);
      else this.names(at, value);
    }
    const { k, control, value } = data as { [key: string]: Json };
    if (k === 'do' && typeof control === 'string' && value !== undefined && typeof value !== 'object') {
      if (this.kinds.controls.has(control)) this.setting([...path, 'value'], control, value);
    }
  }

  private words(path: Path, text: string): void {
    for (const m of text.matchAll(/\{(\w[\w-]*)\}/g)) {
      if (!this.remembered.has(m[1] as string)) {
        this.say(
          'unknown-word',
          path,
          `a word remembered by an earlier step${meant(m[1] as string, this.remembered)}`,
          { index: m.index },
        );
      }
    }
  }

  private recall(path: Path, names: readonly string[]): void {
    for (const name of names)
      this.known('unknown-word', path, name, this.remembered, 'a word remembered by an earlier step');
  }

  private condition(path: Path, c: Condition): void {
    if ('see' in c) this.indicator([...path, 'see'], c.see);
    else if ('standing' in c)
      this.known(
        'unknown-control',
        [...path, 'standing'],
        c.standing,
        this.kinds.controls.keys(),
        'a control of the station',
      );
    else if ('did' in c)
      this.known('unknown-control', [...path, 'did'], c.did, this.kinds.controls.keys(), 'a control of the station');
    else if ('heard' in c) this.hearing([...path, 'heard'], c.heard);
    else if ('printed' in c) this.words([...path, 'printed'], c.printed);
    else if ('remembered' in c)
      this.known(
        'unknown-word',
        [...path, 'remembered'],
        c.remembered,
        this.remembered,
        'a word remembered by an earlier step',
      );
    else if ('all' in c) for (const [i, one] of c.all.entries()) this.condition([...path, 'all', i], one);
    else if ('any' in c) for (const [i, one] of c.any.entries()) this.condition([...path, 'any', i], one);
    else if ('not' in c) this.condition([...path, 'not'], c.not as Condition);
  }

  private hearing(path: Path, pattern: string): void {
    this.words(path, pattern);
    for (const { 0: word, index } of pattern.matchAll(/\S+/g)) {
      const wrong = wordFault(word);
      if (wrong) this.say('bad-pattern', path, wrong, { index });
      else if (isHeardName(word)) this.remembered.add(word.slice(1, -1));
    }
  }

  private press(path: Path, full: string): void {
    if (!this.known('unknown-control', path, full, this.kinds.controls.keys(), 'a control of the station')) return;
    if (this.kinds.controls.get(full)?.kind !== 'press') this.say('does-not-fit', path, 'a control that is pressed');
  }

  private number(path: Path, full: string): boolean {
    if (!this.known('unknown-control', path, full, this.kinds.controls.keys(), 'a control of the station'))
      return false;
    const fits = this.kinds.controls.get(full)?.kind === 'number';
    if (!fits) this.say('does-not-fit', path, 'a control that is turned to a number');
    return fits;
  }

  private tune(path: Path, a: Tune): void {
    // A sweep around where the control stands is cut to its range while it runs.
    if (this.number([...path, 'control'], a.control) && !a.around) {
      this.setting([...path, 'from'], a.control, a.from);
      this.setting([...path, 'to'], a.control, a.to);
    }
    if ((a.least === undefined) === (a.most === undefined)) this.say('missing-key', path, 'either least or most');
    if (a.least !== undefined) this.indicator([...path, 'least'], a.least);
    if (a.most !== undefined) this.indicator([...path, 'most'], a.most);
  }

  private actions(path: Path, list: readonly Action[]): void {
    for (const [i, a] of list.entries()) this.action([...path, i], a);
  }

  private action(path: Path, a: Action): void {
    if ('set' in a) {
      for (const [full, value] of Object.entries(a.set)) this.setting([...path, 'set', full], full, value);
    } else if ('press' in a) {
      for (const [i, full] of a.press.entries()) this.press([...path, 'press', i], full);
    } else if ('hold' in a) {
      this.press([...path, 'hold', 'control'], a.hold.control);
      this.actions([...path, 'hold', 'do'], a.hold.do);
    } else if ('turn' in a) {
      this.number([...path, 'turn', 'control'], a.turn.control);
      this.indicator([...path, 'turn', 'see'], a.turn.see);
    } else if ('say' in a) this.words([...path, 'say'], a.say);
    else if ('hear' in a) this.hearing([...path, 'hear'], a.hear);
    else if ('lookup' in a) {
      this.recall([...path, 'lookup'], [a.lookup.row, a.lookup.column]);
      this.remembered.add(a.lookup.as);
    } else if ('choose' in a) {
      this.remembered.add(a.choose.row).add(a.choose.column);
    } else if ('check' in a) {
      this.recall([...path, 'check'], [a.check.row, a.check.column, ...a.check.heard]);
      this.remembered.add(a.check.as);
    } else if ('type' in a) {
      this.words([...path, 'type'], a.type);
      this.letters(
        [...path, 'type'],
        a.type.replace(/\{[\w-]+\}/g, (m) => 'A'.repeat(m.length)),
        true,
      );
    } else if ('punch' in a)
      this.known('unknown-message', [...path, 'punch'], a.punch, this.messages, 'a message of the papers');
    else if ('log' in a) this.words([...path, 'log'], a.log);
    else if ('tune' in a) this.tune([...path, 'tune'], a.tune);
    else if ('when' in a) {
      this.condition([...path, 'when'], a.when);
      this.actions([...path, 'do'], a.do);
      this.actions([...path, 'else'], a.else);
    } else if ('until' in a) {
      if ('do' in a) this.actions([...path, 'do'], a.do);
      this.condition([...path, 'until'], a.until);
    }
  }

  private steps(): void {
    this.once(['steps'], 'id', this.s.steps);
    for (const [i, step] of this.s.steps.entries()) {
      this.actions(['steps', i, 'do'], step.do);
      if (step.done) this.condition(['steps', i, 'done'], step.done);
    }
  }

  private own(): void {
    const { own, stations } = this.s;
    for (const [full, value] of Object.entries(own.controls)) this.setting(['own', 'controls', full], full, value);
    this.inner(['own', 'inner'], own.inner, false);
    this.once(['stations'], 'call', stations);
    for (const [i, far] of stations.entries()) {
      if (far.call === own.call)
        this.say('duplicate-id', ['stations', i, 'call'], 'another call sign than the own one');
      if (this.s.papers.card === null && this.kinds.correspondents.get(far.kind)?.needsCard?.(far.with))
        this.say('no-card', ['stations', i, 'with'], 'papers.card, or a station that does not challenge', {
          key: true,
        });
    }
  }

  all(): Finding[] {
    this.own();
    this.papers();
    this.happenings();
    this.once(['measures'], 'id', this.s.measures);
    for (const [i, measure] of this.s.measures.entries()) this.names(['measures', i], measure as Json);
    if (!this.s.measures.some((m) => m.weight > 0))
      this.say('no-weight', ['measures'], 'a weight above 0 for at least one measure');
    this.steps();
    return this.found;
  }
}

// Bell and "who are you" are in the alphabet but not in a text that people write; line ends only where lines are typed.
function badControl(text: string, ends: boolean): { at: number; char: string } | undefined {
  const at = Array.from(text).findIndex((c) => c < ' ' && !(ends && c === '\n'));
  return at < 0 ? undefined : { at, char: text[at] as string };
}

/** Draws that nothing in the scenario's body (draws still open) and no other draw refers to: a slip of the pen, or forgotten. */
export function unusedDraws(draws: Record<string, Draw>, body: Json): Finding[] {
  const used = new Set(drawsIn(JSON.stringify(body)));
  for (const draw of Object.values(draws)) if ('with' in draw) used.add(draw.with);
  return Object.keys(draws)
    .filter((name) => !used.has(name))
    .map((name) => ({ path: ['draws', name], code: 'unused-draw', expected: 'a draw that something uses', key: true }));
}

/** Everything in a scenario that names what does not exist or does not fit. */
export const checkScenario = (s: Scenario, kinds: Kinds): Finding[] => new Checker(s, kinds).all();
