/** The right way, step by step: names that must exist, values that can be, words that were heard before they are used. */
import { isHeardName, wordFault } from '../procedure/heard-pattern.ts';
import { meant } from '../record/places.ts';
import type { ControlValue } from '../signals.ts';
import type { Findings, Path } from './findings.ts';
import type { Action, Condition, Tune } from './scenario.ts';
import { controlTakes, shownTakes } from './takes.ts';

/** Words that an earlier step remembered, and whether each is a word or true and false. */
type Remembered = Map<string, 'word' | 'flag'>;

class StepCheck {
  /** `own` may be said by every step without having been heard. */
  private readonly remembered: Remembered = new Map([['own', 'word']]);
  constructor(private readonly found: Findings) {}

  private words(path: Path, text: string): void {
    for (const m of text.matchAll(/\{(\w[\w-]*)\}/g)) {
      if (!this.remembered.has(m[1] as string)) {
        this.found.say(
          'unknown-word',
          path,
          `a word remembered by an earlier step${meant(m[1] as string, this.remembered.keys())}`,
          { index: m.index },
        );
      }
    }
  }

  private recall(path: Path, name: string): void {
    this.found.known('unknown-word', path, name, this.remembered.keys(), 'a word remembered by an earlier step');
  }

  private cell(path: Path, { row, column }: { row: string; column: string }): void {
    this.recall([...path, 'row'], row);
    this.recall([...path, 'column'], column);
  }

  private recalled(path: Path, { remembered: name, is }: { remembered: string; is: ControlValue }): void {
    this.recall([...path, 'remembered'], name);
    const kind = this.remembered.get(name);
    if (kind === 'flag' && typeof is !== 'boolean') this.found.say('does-not-fit', [...path, 'is'], 'true or false');
    if (kind === 'word' && typeof is !== 'string') this.found.say('does-not-fit', [...path, 'is'], 'a word in quotes');
  }

  private condition(path: Path, c: Condition): void {
    const { found } = this;
    if ('see' in c) {
      const shows = found.indicator([...path, 'see'], c.see);
      if (shows !== undefined) found.test(path, shownTakes(shows), c);
    } else if ('standing' in c || 'did' in c) {
      const [key, full] = 'standing' in c ? ['standing', c.standing] : ['did', c.did];
      const range = found.control([...path, key], full);
      if (range) found.test(path, controlTakes(range), c);
    } else if ('heard' in c) this.hearing([...path, 'heard'], c.heard);
    else if ('printed' in c) this.words([...path, 'printed'], c.printed);
    else if ('remembered' in c) this.recalled(path, c);
    else if ('all' in c) for (const [i, one] of c.all.entries()) this.condition([...path, 'all', i], one);
    else if ('any' in c) for (const [i, one] of c.any.entries()) this.condition([...path, 'any', i], one);
    else if ('not' in c) this.condition([...path, 'not'], c.not as Condition);
  }

  private hearing(path: Path, pattern: string): void {
    this.words(path, pattern);
    for (const { 0: word, index } of pattern.matchAll(/\S+/g)) {
      const wrong = wordFault(word);
      if (wrong) this.found.say('bad-pattern', path, wrong, { index });
      else if (isHeardName(word)) this.remembered.set(word.slice(1, -1), 'word');
    }
  }

  private press(path: Path, full: string): void {
    const range = this.found.control(path, full);
    if (range && range.kind !== 'press') this.found.say('does-not-fit', path, 'a control that is pressed');
  }

  private number(path: Path, full: string): boolean {
    const range = this.found.control(path, full);
    if (range && range.kind !== 'number') this.found.say('does-not-fit', path, 'a control that is turned to a number');
    return range?.kind === 'number';
  }

  private meter(path: Path, full: string): void {
    const shows = this.found.indicator(path, full);
    if (shows !== undefined && shows !== 'number')
      this.found.say('does-not-fit', path, 'an indicator that shows a number');
  }

  private tune(path: Path, a: Tune): void {
    // A sweep around where the control stands is cut to its range while it runs.
    if (this.number([...path, 'control'], a.control) && !a.around) {
      this.found.setting([...path, 'from'], a.control, a.from);
      this.found.setting([...path, 'to'], a.control, a.to);
    }
    if ((a.least === undefined) === (a.most === undefined)) this.found.say('missing-key', path, 'either least or most');
    if (a.least !== undefined) this.meter([...path, 'least'], a.least);
    if (a.most !== undefined) this.meter([...path, 'most'], a.most);
  }

  private actions(path: Path, list: readonly Action[]): void {
    for (const [i, a] of list.entries()) this.action([...path, i], a);
  }

  private action(path: Path, a: Action): void {
    if ('set' in a) {
      for (const [full, value] of Object.entries(a.set)) this.found.setting([...path, 'set', full], full, value);
    } else if ('press' in a) {
      for (const [i, full] of a.press.entries()) this.press([...path, 'press', i], full);
    } else if ('hold' in a) {
      this.press([...path, 'hold', 'control'], a.hold.control);
      this.actions([...path, 'hold', 'do'], a.hold.do);
    } else if ('turn' in a) {
      this.number([...path, 'turn', 'control'], a.turn.control);
      this.meter([...path, 'turn', 'see'], a.turn.see);
    } else if ('say' in a) this.words([...path, 'say'], a.say);
    else if ('hear' in a) this.hearing([...path, 'hear'], a.hear);
    else if ('lookup' in a) {
      this.cell([...path, 'lookup'], a.lookup);
      this.remembered.set(a.lookup.as, 'word');
    } else if ('choose' in a) {
      this.remembered.set(a.choose.row, 'word').set(a.choose.column, 'word');
    } else if ('check' in a) {
      this.cell([...path, 'check'], a.check);
      for (const [i, name] of a.check.heard.entries()) this.recall([...path, 'check', 'heard', i], name);
      this.remembered.set(a.check.as, 'flag');
    } else if ('type' in a) {
      this.words([...path, 'type'], a.type);
      this.found.letters(
        [...path, 'type'],
        a.type.replace(/\{[\w-]+\}/g, (m) => 'A'.repeat(m.length)),
        true,
      );
    } else if ('punch' in a) this.found.message([...path, 'punch'], a.punch);
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

  all(): void {
    const { found } = this;
    const { steps } = found.scenario;
    found.once(['steps'], 'id', steps);
    for (const [i, step] of steps.entries()) {
      if (step.form !== undefined) found.message(['steps', i, 'form'], step.form);
      this.actions(['steps', i, 'do'], step.do);
      if (step.done) this.condition(['steps', i, 'done'], step.done);
    }
  }
}

/** Checks the steps of the scenario. */
export const checkSteps = (found: Findings): void => new StepCheck(found).all();
