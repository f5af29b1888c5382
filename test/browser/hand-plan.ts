/**
 * What a hand does at the panel, thought out beforehand: the model operator works a headless drill, but every setting
 * goes through the positions in between that a keyboard or a mouse passes. So the plan says both what to do with the
 * page and what the page's journal must then hold, to the byte.
 */
import { KINDS } from '../../src/core/catalogue.ts';
import { Drill } from '../../src/core/drill.ts';
import { Stuck, type Workplace, workThrough } from '../../src/core/hand/model.ts';
import type { DrillRecord, Manner } from '../../src/core/record/record.ts';
import { castScenario, readScenario, type Scenario } from '../../src/core/scenario/scenario.ts';
import type { ControlValue } from '../../src/core/signals.ts';
import type { Box, Range } from '../../src/core/station/box.ts';
import { BOXES } from '../../src/core/station/boxes/list.ts';
import { type Positions, positionsOf } from '../../src/panel/controls/positions.ts';
import { LAYOUTS } from '../../src/panel/layout/all.ts';

/** What the hand holds: the keyboard or the mouse, and nothing else. */
export type Tool = 'keyboard' | 'mouse';
/** One thing that the page must have stored. */
export type Stored = { t: number; control: string; value: ControlValue };
/** How a hand moves. */
type Doing =
  | { do: 'flip' | 'down' | 'up' | 'let-go' | 'follows' }
  | { do: 'notch' | 'page'; by: number }
  | { do: 'point'; at: number }
  | { do: 'type' | 'say' | 'write'; text: string }
  | { do: 'drag'; px: number }
  | { do: 'key'; key: string };
/** One movement, at drill time `t` (us), and what it stores. */
export type Move = { t: number; control: string; stored: Stored[] } & Doing;
/** A whole drill as movements, and the record that they must make. */
export type Plan = {
  seed: number;
  manner: Manner;
  moves: Move[];
  record: DrillRecord;
  scenario: Scenario;
  text: string;
};

/** Drag for the whole sweep of a knob, and the least drag of a step, CSS px: as controls/turn.ts has them. */
const SWEEP_PX = 280;
const LEAST_PX = 0.5;
/** Shorter is a click. */
const CLICK_PX = 5;

type Numbers = Extract<Range, { kind: 'number' }>;
const decimals = (step: number): number => (String(step).split('.')[1] ?? '').length;

/** Positions that are drawn round a control close up; null when a mouse goes by steps. */
export function pointed(full: string): Positions | null {
  const [boxId = '', id = ''] = full.split('.');
  const box = (BOXES as readonly Box[]).find((b) => b.id === boxId);
  const control = box?.controls.find((c) => c.id === id);
  const spot = LAYOUTS[boxId]?.controls[id];
  return control && spot ? positionsOf(control, spot) : null;
}

/** The drill as a hand at the page would work it. */
class Planner implements Workplace {
  readonly moves: Move[] = [];
  private talking = false;

  constructor(
    private readonly drill: Drill,
    private readonly tool: Tool,
  ) {}

  get now_us(): number {
    return this.drill.now_us;
  }
  get ended(): boolean {
    return this.drill.ended;
  }
  see(indicator: string) {
    return this.drill.see(indicator);
  }
  standing(control: string) {
    return this.drill.standing(control);
  }
  did(control: string, since_us: number) {
    return this.drill.did(control, since_us);
  }
  heard(since_us: number) {
    return this.drill.heard(since_us);
  }
  printed(since_us: number) {
    return this.drill.printed(since_us);
  }
  advance(to_us: number): void {
    this.drill.advance(to_us);
  }

  act(control: string, value: ControlValue): string | undefined {
    const range = this.drill.control(control)?.range;
    if (!range) throw new Error(`no control ${control}`);
    if (control === 'hand.talk') return this.talk(value === true);
    if (control === 'hand.say') return this.say(String(value));
    if (control === 'desk.log') return this.one(control, value, { do: 'write', text: String(value) });
    if (control === 'printer.key') return this.key(String(value));
    if (range.kind === 'switch') return this.one(control, value, { do: 'flip' });
    if (range.kind === 'press') return this.one(control, value, { do: value ? 'down' : 'up' });
    if (range.kind === 'words' && this.tool === 'mouse' && pointed(control))
      return this.point(control, range.words, String(value));
    if (range.kind === 'words') return this.notches(control, range.words, String(value));
    return this.number(control, range as Numbers, Number(value));
  }

  private one(control: string, value: ControlValue, doing: Doing): string | undefined {
    const t = this.now_us;
    this.moves.push({ ...doing, t, control, stored: [{ t, control, value }] });
    return this.drill.act(control, value);
  }

  /** Both tools hold the bar with "Press and say", which lets go by itself. */
  private talk(down: boolean): undefined {
    this.talking = down;
    if (down || this.standing('hand.talk') !== true) return;
    this.one('hand.talk', false, { do: 'let-go' });
  }

  private say(text: string): string | undefined {
    if (!this.talking) throw new Error('said without holding the bar');
    const t = this.now_us;
    const stored = [
      { t, control: 'hand.talk', value: true },
      { t, control: 'hand.say', value: text },
    ];
    this.moves.push({ do: 'say', text, t, control: 'hand.say', stored });
    return this.drill.act('hand.talk', true) ?? this.drill.act('hand.say', text);
  }

  /** Enter at the keyboard sends return and, a character later, line feed. */
  private key(key: string): string | undefined {
    const last = this.moves.at(-1);
    const follows = this.tool === 'keyboard' && key === 'LF' && last?.do === 'key' && last.key === 'CR';
    return this.one('printer.key', key, follows ? { do: 'follows' } : { do: 'key', key });
  }

  private point(control: string, words: readonly string[], want: string): string | undefined {
    if (this.standing(control) === want) return undefined;
    return this.one(control, want, { do: 'point', at: words.indexOf(want) });
  }

  private notches(control: string, words: readonly string[], want: string): string | undefined {
    for (let i = 0; i < words.length && this.standing(control) !== want; i++) {
      const at = words.indexOf(String(this.standing(control)));
      const by = words.indexOf(want) > at ? 1 : -1;
      const why = this.one(control, words[at + by]!, { do: 'notch', by });
      if (why) return why;
    }
    return undefined;
  }

  private number(control: string, r: Numbers, want: number): string | undefined {
    const steps = Math.round((r.max - r.min) / r.step);
    const stepOf = (v: ControlValue | undefined) => Math.round((Number(v) - r.min) / r.step);
    const left = () => stepOf(want) - stepOf(this.standing(control));
    const go = (by: number, doing: Doing) => {
      const value = r.min + (stepOf(this.standing(control)) + by) * r.step;
      return this.one(control, Number(value.toFixed(decimals(r.step))), doing);
    };
    if (this.tool === 'keyboard') return left() === 0 ? undefined : go(left(), byKeys(left(), want));
    const a_step = Math.max(SWEEP_PX / steps, LEAST_PX);
    const px = Math.round(left() * a_step);
    const why = Math.abs(px) < CLICK_PX ? undefined : go(Math.round(px / a_step), { do: 'drag', px });
    if (why) return why;
    for (let i = 0; i < CLICK_PX / LEAST_PX && left() !== 0; i++) {
      const refused = go(Math.sign(left()), { do: 'notch', by: Math.sign(left()) });
      if (refused) return refused;
    }
    return undefined;
  }
}

/** One step by an arrow, ten by Page, any other number typed. */
function byKeys(steps: number, want: number): Doing {
  if (Math.abs(steps) === 1) return { do: 'notch', by: steps };
  if (Math.abs(steps) === 10) return { do: 'page', by: steps / 10 };
  return { do: 'type', text: String(want) };
}

/** What differs from the scenario's own steps. */
export type Differing = {
  tool: Tool;
  manner: Manner;
  seed: number;
  /** Steps as this hand takes them. */
  steps?: (steps: Scenario['steps']) => Scenario['steps'];
};

/** Thinks a drill out. Throws when the model operator cannot finish it. */
export function planDrill(text: string, name: string, { tool, manner, seed, steps = (s) => s }: Differing): Plan {
  const read = readScenario(text, KINDS, name);
  if (!read.ok) throw new Error(JSON.stringify(read.errors[0]));
  const scenario = castScenario(read.source, seed);
  const drill = new Drill(scenario, { name, scenario: text, seed, manner, stretch: 1 });
  const planner = new Planner(drill, tool);
  try {
    workThrough({ ...scenario, steps: steps(scenario.steps) }, planner, seed);
  } catch (e) {
    if (e instanceof Stuck) throw new Error(`the plan got stuck: ${e.message}`);
    throw e;
  }
  return { seed, manner, moves: planner.moves, record: drill.record, scenario, text };
}
