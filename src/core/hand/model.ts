/**
 * The model operator: follows a scenario's steps as written, with a hand that takes its time. It knows papers, panel, ear
 * and print (a View) and nothing of the machine behind them, so a scenario it passes can be passed by a person.
 */
import { holds, type Memory } from '../guide/condition.ts';
import { findWords } from '../guide/heard.ts';
import type { View } from '../guide/view.ts';
import { die } from '../kernel/dice.ts';
import { challengeFrom, replyFor } from '../procedure/recognition.ts';
import type { Action, Condition, Scenario, Step } from '../scenario/scenario.ts';
import type { ControlValue } from '../signals.ts';
import { spell } from '../telegraphy/alphabet.ts';
import { spokenWords, WORD_US } from '../telegraphy/speaking.ts';
import { KEY_GAP_MS, keysFor } from './keys.ts';

/** What a hand needs of a drill. */
export interface Workplace extends View {
  act(control: string, value: ControlValue): string | undefined;
  advance(to_us: number): void;
  readonly ended: boolean;
}

/** A reach for a control and its setting, ms. */
const REACH_MS = 700;
/** A short press, ms. */
const PRESS_MS = 200;
/** How often the eye comes back to what it waits for, ms. */
const GLANCE_MS = 250;
/** A breath after the last word, ms. */
const BREATH_MS = 500;
/** How long a step's own end is waited for, s. */
const PATIENCE_S = 120;

/** Where and why the model operator had to stop. */
export class Stuck extends Error {
  constructor(
    readonly step: string,
    readonly at_us: number,
    readonly why: string,
  ) {
    super(`step ${step} at ${(at_us / 1e6).toFixed(1)} s: ${why}`);
  }
}

/** Work through all steps (or until the drill ends). Throws Stuck when what a step waits for does not come. */
export function workThrough(scenario: Scenario, at: Workplace, seed: number): void {
  const operator = new ModelOperator(scenario, at, seed);
  for (const step of scenario.steps) {
    if (at.ended) return;
    operator.take(step);
  }
}

class ModelOperator {
  private readonly memory: Memory;
  private step = '';
  private since_us = 0;
  private challenges = 0;

  constructor(
    private readonly scenario: Scenario,
    private readonly at: Workplace,
    private readonly seed: number,
  ) {
    this.memory = { own: spell(scenario.own.call).join(' ') };
  }

  take(step: Step): void {
    this.step = step.id;
    this.since_us = this.at.now_us;
    this.all(step.do);
    if (step.done) this.until(step.done, PATIENCE_S);
  }

  private all(actions: readonly Action[]): void {
    for (const action of actions) if (!this.at.ended) this.one(action);
  }

  private one(a: Action): void {
    if ('set' in a) for (const [control, value] of Object.entries(a.set)) this.set(control, value);
    else if ('press' in a) for (const control of a.press) this.press(control);
    else if ('hold' in a) this.hold(a.hold.control, () => this.all(a.hold.do));
    else if ('wait' in a) this.wait(a.wait * 1000);
    else if ('within' in a && 'until' in a) this.until(a.until, a.within);
    else if ('say' in a) this.say(this.fill(a.say));
    else if ('hear' in a) this.hear(this.fill(a.hear), a.within);
    else if ('lookup' in a) this.lookup(a.lookup);
    else if ('choose' in a) this.choose(a.choose);
    else if ('check' in a) this.check(a.check);
    else if ('type' in a) this.type(this.fill(a.type));
    else if ('punch' in a) this.punch(a.punch);
    else if ('log' in a) this.set('desk.log', this.fill(a.log));
    else if ('tune' in a) this.tune(a.tune);
    else if ('turn' in a) this.turnUntil(a.turn);
    else if ('when' in a) this.all(holds(a.when, this.at, this.since_us, this.memory) ? a.do : a.else);
    else this.again(a);
  }

  private stuck(why: string): never {
    throw new Stuck(this.step, this.at.now_us, why);
  }

  private wait(ms: number): void {
    this.at.advance(this.at.now_us + Math.round(ms) * 1000);
  }

  private put(control: string, value: ControlValue): void {
    const why = this.at.act(control, value);
    if (why) this.stuck(`${control} = ${value} refused: ${why}`);
  }

  private set(control: string, value: ControlValue): void {
    if (this.at.standing(control) === value && typeof value !== 'string') return;
    this.wait(REACH_MS);
    this.put(control, value);
  }

  private press(control: string): void {
    this.hold(control, () => this.wait(PRESS_MS));
  }

  private hold(control: string, meanwhile: () => void): void {
    this.wait(REACH_MS);
    this.put(control, true);
    meanwhile();
    if (!this.at.ended) this.put(control, false);
  }

  private until(condition: Condition, within_s: number): void {
    const limit = this.at.now_us + within_s * 1e6;
    while (!holds(condition, this.at, this.since_us, this.memory)) {
      if (this.at.now_us >= limit || this.at.ended) this.stuck(`waited ${within_s} s for ${JSON.stringify(condition)}`);
      this.wait(GLANCE_MS);
    }
  }

  private fill(text: string): string {
    return text.replace(/\{([\w-]+)\}/g, (_, name: string) =>
      String(this.memory[name] ?? this.stuck(`nothing remembered as ${name}`)),
    );
  }

  private say(words: string): void {
    this.since_us = this.at.now_us;
    this.hold('hand.talk', () => {
      this.wait(PRESS_MS);
      this.put('hand.say', words);
      this.wait((spokenWords(words).length * WORD_US) / 1000 + BREATH_MS);
    });
  }

  private hear(pattern: string, within_s: number): void {
    this.until({ heard: pattern }, within_s);
    Object.assign(this.memory, findWords(pattern, this.at.heard(this.since_us)));
  }

  private lookup({ row, column, as }: { row: string; column: string; as: string }): void {
    const reply = replyFor(this.scenario.papers.card, this.word(row), this.word(column));
    if (reply === null) this.stuck(`no cell ${this.word(row)} ${this.word(column)} on the card`);
    this.memory[as] = spell(reply).join(' ');
    this.wait(3000);
  }

  private choose({ row, column }: { row: string; column: string }): void {
    const taken = challengeFrom(this.scenario.papers.card, (n) =>
      die(this.seed, 'model-challenge', this.challenges++, n),
    );
    this.memory[row] = spell(taken.row).join(' ');
    this.memory[column] = spell(taken.column).join(' ');
  }

  private check({ row, column, heard, as }: { row: string; column: string; heard: string[]; as: string }): void {
    const reply = replyFor(this.scenario.papers.card, this.word(row), this.word(column));
    this.memory[as] = reply !== null && reply === heard.map((name) => this.word(name)).join('');
    this.wait(2000);
  }

  /** A remembered word as its letter or figure. */
  private word(name: string): string {
    const kept = String(this.memory[name] ?? this.stuck(`nothing remembered as ${name}`));
    return kept.length === 1 ? kept : (findWords('<x>', kept)?.['x'] ?? kept);
  }

  private type(text: string): void {
    for (const key of keysFor(text)) {
      this.put('printer.key', key);
      this.wait(KEY_GAP_MS);
    }
  }

  private punch(id: string): void {
    const message = this.scenario.papers.messages.find((m) => m.id === id);
    if (!message) this.stuck(`no message ${id} on the desk`);
    this.type(`${message.lines.join('\n')}\n`);
  }

  /** Sweep a control through its places and rest at the best: as an ear finds the lowest note or an eye the least reading. */
  private tune(t: Extract<Action, { tune: unknown }>['tune']): void {
    const standing = Number(this.at.standing(t.control));
    const start = t.around ? standing + t.from : t.from;
    const end = t.around ? standing + t.to : t.to;
    const name = t.least ?? t.most ?? '';
    let best: { value: number; score: number } | undefined;
    for (let i = 0; start + i * t.by <= end + t.by / 1e6; i++) {
      const value = Number((start + i * t.by).toFixed(6));
      if (this.at.act(t.control, value) !== undefined) continue;
      this.wait(t.every_s * 1000);
      const reading = this.at.see(name);
      if (typeof reading !== 'number') continue;
      const score = t.least === undefined ? -reading : reading;
      if (best === undefined || score < best.score) best = { value, score };
    }
    if (!best) this.stuck(`nothing to be seen at ${name} from ${start} to ${end}`);
    this.put(t.control, best.value);
    this.wait(REACH_MS);
  }

  /** Turn a control until an indicator reads what is wanted, by correcting what is left over, as a hand does. */
  private turnUntil({ control, see, is, by }: { control: string; see: string; is: number; by: number }): void {
    for (let i = 0; i < 4; i++) {
      const left = is - Number(this.at.see(see));
      if (Math.abs(left) < by / 2) return;
      const value = Number(this.at.standing(control)) + Math.round(left / by) * by;
      this.wait(REACH_MS);
      this.put(control, Number(value.toFixed(6)));
    }
  }

  private again({ again, until, do: actions }: { again: number; until: Condition; do: readonly Action[] }): void {
    for (let i = 0; i < again && !holds(until, this.at, this.since_us, this.memory); i++) this.all(actions);
  }
}
